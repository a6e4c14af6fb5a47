"""The foot of a page says in words what was kept and may be taken back."""

import pytest
from ware_samples import bucket_of, chosen, cylinder, plank, pot_of


@pytest.fixture
def form(member):
    return cylinder(member)


@pytest.fixture
def pot(member, form):
    return pot_of(member, form)


def said(client, url):
    return client.get(url).context["undo"]["say"]


@pytest.mark.parametrize(
    ("page", "sent", "say"),
    [
        (
            "weigh",
            {"weight_g": "1840", "state": "leather-hard"},
            "Kept: 1840 g, leather-hard.",
        ),
        ("decorate", {"kind": "resist", "what": "wax"}, "Kept: resist, wax."),
        ("mark", {"kind": "rubbed"}, "Kept: rubbed down."),
        ("hope", {"kind": "feared", "words": "it runs"}, "Kept: feared, it runs."),
    ],
)
def test_the_page_of_a_pot_says_what_was_kept(signed_in, pot, page, sent, say):
    signed_in.post(f"/ware/pots/{pot.pk}/{page}/", sent)

    assert said(signed_in, f"/ware/pots/{pot.pk}/") == say


def test_it_says_where_a_pot_was_put_and_that_it_was_taken_off(signed_in, member, pot):
    board, url = plank(member), f"/ware/pots/{pot.pk}/"

    signed_in.post(f"{url}board/", {"board": board.pk})
    on = said(signed_in, url)
    signed_in.post(f"{url}board/", {"board": ""})

    assert (on, said(signed_in, url)) == (
        "Kept: put on long plank.",
        "Kept: taken off its board.",
    )


def test_it_says_which_coat_was_kept_and_which_put_right(signed_in, member, pot):
    bucket, url = bucket_of(member), f"/ware/pots/{pot.pk}/"

    coat = signed_in.post(f"{url}dip/", chosen(bucket))["Location"]
    kept = said(signed_in, url)
    signed_in.post(f"{coat}right/", chosen(bucket, side="inside"))

    assert (kept, said(signed_in, url)) == ("Kept: Limpet outside.", "Put right: Limpet inside.")


def test_a_board_says_how_many_came_and_went(signed_in, member, form):
    pots = [pot_of(member, form) for _ in range(4)]
    board = plank(member, pots[:3])
    url = f"/ware/boards/{board.pk}/"

    signed_in.post(f"{url}pots/", {"pots": [pots[0].pk, pots[3].pk]})

    assert said(signed_in, url) == "Kept: 1 pot put on, 2 pots taken off."


def test_a_board_says_on_how_many_pots_something_was_done(signed_in, member, form):
    board = plank(member, [pot_of(member, form) for _ in range(3)])
    url = f"/ware/boards/{board.pk}/"

    signed_in.post(f"{url}mark/", {"kind": "rubbed", "where": "the rim"})

    assert said(signed_in, url) == "Kept: rubbed down, the rim, on 3 pots."
