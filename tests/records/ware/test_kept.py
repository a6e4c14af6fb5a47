"""The foot of a page says in words what was kept and may be taken back."""

import pytest
from ware_samples import bucket_of, chosen, mine, plank, pot_of

from wareboard.records.ware.models import Coat, Weighing


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


def test_undo_on_a_board_is_of_the_dip_that_came_after_a_weighing(signed_in, member, form):
    pots = [pot_of(member, form) for _ in range(3)]
    url = f"/ware/boards/{plank(member, pots).pk}/"
    signed_in.post(f"/ware/pots/{pots[0].pk}/weigh/", {"weight_g": "300", "state": "bone dry"})
    signed_in.post(f"{url}dip/", chosen(bucket_of(member)))

    undo = signed_in.get(url).context["undo"]
    signed_in.post(undo["url"])

    assert undo["say"] == "Kept: Limpet outside, on 3 pots."
    assert (mine(Coat).count(), mine(Weighing).count()) == (0, 1)


def test_undo_on_a_board_is_of_the_weighing_that_came_after_the_dip(signed_in, member, form):
    pots = [pot_of(member, form) for _ in range(2)]
    url = f"/ware/boards/{plank(member, pots).pk}/"
    signed_in.post(f"{url}dip/", chosen(bucket_of(member)))

    signed_in.post(f"/ware/pots/{pots[0].pk}/weigh/", {"weight_g": "340", "state": "glazed"})

    assert said(signed_in, url) == "Kept: 340 g, glazed, drying."


def test_undo_on_a_board_knows_that_the_board_was_weighed_last(signed_in, member, form):
    pots = [pot_of(member, form) for _ in range(2)]
    url = f"/ware/boards/{plank(member, pots).pk}/"
    signed_in.post(f"{url}mark/", {"kind": "rubbed"})

    signed_in.post(f"{url}weigh/", {"weight_g": "4900"})

    assert said(signed_in, url) == "Kept: 4900 g, plank and all."


@pytest.mark.parametrize(
    ("page", "sent", "say"),
    [
        ("dip/", {}, "Taken back: the coat, 3 pots."),
        ("mark/", {"kind": "rubbed"}, "Taken back: the mark, 3 pots."),
        ("weigh/", {"weight_g": "4900"}, "Taken back: the weighing of the board."),
        ("pots/", {"entry_id": "move", "pots": []}, "Taken back: the move, 3 pots."),
    ],
)
def test_what_was_taken_back_is_named(signed_in, member, form, page, sent, say):
    url = f"/ware/boards/{plank(member, [pot_of(member, form) for _ in range(3)]).pk}/"
    signed_in.post(f"{url}{page}", sent or chosen(bucket_of(member)))

    undo = signed_in.get(url).context["undo"]["url"]
    page = signed_in.post(undo, {"next": url}, follow=True)

    assert say in page.content.decode()


def test_new_pots_that_were_taken_back_are_named_before_their_board(signed_in, member, form):
    board = plank(member)
    sent = {"how_many": "6", "form": form.pk, "board": board.pk}
    url = signed_in.post("/ware/new/several/", sent)["Location"]

    undo = signed_in.get(url).context["undo"]["url"]
    replies = [signed_in.post(undo, {"next": url}, follow=True) for _ in range(2)]

    assert "Taken back: 6 pots." in replies[0].content.decode()
    assert "That was taken back before." in replies[1].content.decode()
