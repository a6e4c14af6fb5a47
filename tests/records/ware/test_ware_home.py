"""The ware room: boards with what stands on them, the newest pots, and finding one."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import bucket_of, coat_of, cylinder, plank, pot_of, text_of

from wareboard.records.people.entry import keep
from wareboard.records.people.paging import ROWS_A_PAGE
from wareboard.records.ware.models import Pot, Standing

URL = "/ware/"


def test_an_empty_room_says_what_to_do(signed_in):
    text = text_of(signed_in.get(URL))

    assert "New pot" in text
    assert "No pot yet. Make the first with one tap above." in text


def test_pots_stand_on_their_board_drawn(signed_in, member):
    form = cylinder(member)
    board = plank(member, [pot_of(member, form), pot_of(member, form)])

    page = signed_in.get(URL)

    on_it = page.context["boards"][0]
    assert (on_it["board"], on_it["n"]) == (board, 2)
    assert [one["name"] for one in on_it["plank"]] == ["cylinder 1", "cylinder 2"]
    assert page.content.decode().count("<svg") == 2


def test_a_pot_that_was_moved_stands_on_its_last_board_only(signed_in, member):
    pot = pot_of(member, cylinder(member))
    plank(member, [pot], name="first")
    second = plank(member, name="second")
    keep(Standing, member, pot=pot, board=second)

    boards = {b["board"].name: b["n"] for b in signed_in.get(URL).context["boards"]}

    assert boards == {"first": 0, "second": 1}


def test_a_pot_taken_off_stands_nowhere(signed_in, member):
    pot = pot_of(member, cylinder(member))
    plank(member, [pot])
    keep(Standing, member, pot=pot)

    assert [b["n"] for b in signed_in.get(URL).context["boards"]] == [0]


@pytest.mark.parametrize("pots", [2, 40])
def test_the_page_needs_the_same_few_queries_however_many_pots(
    signed_in, member, django_assert_max_num_queries, pots
):
    form, bucket = cylinder(member), bucket_of(member)
    made = [pot_of(member, form) for _ in range(pots)]
    plank(member, made)
    for pot in made:
        coat_of(member, pot, bucket, 0.5)

    with django_assert_max_num_queries(9):
        signed_in.get(URL)


def test_a_page_holds_fifty_and_the_next_follows_without_a_gap(signed_in, member):
    now = timezone.now()
    ids = [f"pot-{n:03d}" for n in range(ROWS_A_PAGE + 7)]
    for n, pot_id in enumerate(ids):
        keep(Pot, member, entry_id=pot_id, at=now - timedelta(minutes=n // 2))

    first = signed_in.get(URL)
    second = signed_in.get(URL, {"after": first.context["more"]})

    shown = [row["pot"].pk for page in (first, second) for row in page.context["rows"]]
    assert len(first.context["rows"]) == ROWS_A_PAGE
    assert sorted(shown) == ids
    assert second.context["more"] == ""


@pytest.mark.parametrize(
    ("word", "finds"),
    [
        ("salt", {"salt pig"}),
        ("PIG", {"salt pig"}),
        ("cylinder", {"unnamed"}),
        ("limpet", {"glazed"}),
        ("pitcher", {"jug"}),
        ("jug", {"jug"}),
        ("gray", {"grey one"}),
        ("sam", {"hers"}),
        ("SALT pig", {"salt pig"}),
        ("pig salt", {"salt pig"}),
        ("bowl limpet", {"glazed"}),
        ("limpet salt", set()),
        ("creme", {"accented"}),
        ("CRÈME kiln", {"accented"}),
        ("sam grey", set()),
        ("nothing of the kind", set()),
    ],
)
def test_a_pot_is_found_by_any_of_its_words(signed_in, member, word, finds):
    plain = keep(Pot, member, name="salt pig")
    unnamed = keep(Pot, member, form=cylinder(member))
    glazed = keep(Pot, member, name="a bowl")
    coat_of(member, glazed, bucket_of(member), 0.5)
    jug = keep(Pot, member, name="pouring jug")
    grey = keep(Pot, member, name="the grey one")
    hers = keep(Pot, member, name="a mug", whose="Sam")
    accented = keep(Pot, member, name="Crème", note="By the kiln wall.\nTall.")
    known = {
        plain.pk: "salt pig",
        unnamed.pk: "unnamed",
        glazed.pk: "glazed",
        jug.pk: "jug",
        grey.pk: "grey one",
        hers.pk: "hers",
        accented.pk: "accented",
    }

    rows = signed_in.get(URL, {"q": word}).context["rows"]

    assert {known[row["pot"].pk] for row in rows} == finds


def test_finding_brings_back_only_the_list(signed_in, member):
    keep(Pot, member, name="salt pig")

    reply = signed_in.get(URL, {"q": "salt"}, headers={"HX-Request": "true"})

    assert "<html" not in reply.content.decode()
    assert "Pots with “salt”" in text_of(reply)


def test_a_search_keeps_its_word_on_the_next_page(signed_in, member):
    for n in range(ROWS_A_PAGE + 1):
        keep(Pot, member, entry_id=f"mug-{n:03d}", name="mug & saucer")

    body = signed_in.get(URL, {"q": "mug &"}).content.decode()

    assert "?q=mug%20%26&amp;after=" in body


def test_another_studios_pots_are_not_shown(stranger, member):
    pot_of(member, cylinder(member), name="secret jug")

    assert "secret jug" not in text_of(stranger.get(URL))


def test_the_wrong_method_is_refused(signed_in):
    assert signed_in.post(URL).status_code == 405
