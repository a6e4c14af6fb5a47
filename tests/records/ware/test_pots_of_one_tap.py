"""Pots made in one tap have numbers of their own: mug 3 is mug 3 on every page."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone
from ware_samples import bucket_of, coat_of, cylinder, photo, plank, pot_of, text_of, weighed

from wareboard.records.kiln.actions import put_in
from wareboard.records.kiln.models import Kiln, Load
from wareboard.records.people.entry import keep
from wareboard.records.people.shown import day
from wareboard.records.shelf.actions import judge
from wareboard.records.ware.actions import new_pots
from wareboard.records.ware.models import Board, Pot

NOON = timezone.localtime().replace(hour=12, minute=0) - timedelta(days=1)


@pytest.fixture
def mugs(member):
    """Six mugs of one tap, on a board."""
    board = keep(Board, member, entry_id="long", name="the long board")
    return new_pots(member, how_many=6, form=cylinder(member, "mug"), board=board)


@pytest.fixture
def load(member):
    """A load that waits."""
    kiln = keep(Kiln, member, name="the gas kiln")
    return keep(Load, member, kiln=kiln)


def called_on(client, url):
    return [one["name"] for one in client.get(url).context["plank"]]


def all_six():
    return [f"mug {n}" for n in range(1, 7)]


@pytest.mark.parametrize(
    "page", ["pages:pot", "pages:weigh", "pages:dip", "ware:mark", "pages:story", "shelf:judge"]
)
def test_every_page_of_one_calls_it_by_its_number(signed_in, mugs, page):
    assert "mug 3" in text_of(signed_in.get(reverse(page, args=[mugs[2].pk])))


def test_a_board_calls_them_by_their_numbers_also_when_the_first_has_gone(signed_in, mugs):
    signed_in.post(f"/ware/pots/{mugs[0].pk}/board/", {"board": ""})

    assert called_on(signed_in, "/ware/boards/long/") == all_six()[1:]


def test_a_load_calls_them_so_outside_and_in_it_and_still_offers_all_at_once(
    signed_in, member, load, mugs
):
    put_in(member, load, mugs[:2], None)

    page = signed_in.get(reverse("kiln:load", args=[load.pk])).context

    (group,) = page["groups"]
    assert group.name == "mug"
    assert [called for _pot, called, _board in group.labels] == all_six()[2:]
    assert [one["name"] for one in page["shelves"][-1].pots] == all_six()[:2]


def test_before_lighting_asks_for_proofs_by_their_numbers_and_counts_them_by_kind(
    signed_in, member, load, mugs
):
    put_in(member, load, mugs, None)

    before = signed_in.get(reverse("kiln:before-lighting", args=[load.pk])).context["before"]

    assert [one.name for one in before.proofs.unknown] == all_six()
    assert before.never_weighed == "6 × mug"


def test_the_wettest_is_spoken_of_by_its_number(signed_in, member, load, mugs):
    put_in(member, load, mugs, None)
    weighed(member, mugs[2], 900, "bone dry", 3)
    weighed(member, mugs[2], 990, "glazed", 1)

    before = signed_in.get(reverse("kiln:before-lighting", args=[load.pk])).context["before"]

    assert before.text.startswith("Mug 3 holds 90 g ")


def test_on_the_scale_together_they_have_their_numbers_without_a_board(signed_in, member):
    mugs = new_pots(member, how_many=3, form=cylinder(member, "mug"))

    page = signed_in.get("/ware/together/", {"pot": [pot.pk for pot in mugs]})

    taps = [tap.choice_label for tap in page.context["form"]["pots"]]
    assert taps == ["mug 1", "mug 2", "mug 3"]


def test_the_shelf_lists_and_finds_them_by_their_numbers(signed_in, member, mugs):
    judge(member, mugs[2], surface="whole", thumb="up")

    listed = signed_in.get("/shelf/").context["rows"]
    found = signed_in.get("/shelf/", {"q": "mug 3"}).context["rows"]

    assert [row["name"] for row in listed] == ["mug 3"]
    assert [row["name"] for row in found] == ["mug 3"]


def test_pots_without_a_form_have_a_number_too(signed_in, member):
    pots = new_pots(member, how_many=2)

    name = signed_in.get(f"/ware/pots/{pots[1].pk}/").context["name"]

    assert name == f"pot 2 of {day(pots[1].at, 'j M')}"


def test_a_name_that_was_given_to_one_stands_for_its_number(signed_in, mugs):
    Pot.objects.filter(pk=mugs[2].pk).update(name="the blue one")

    assert called_on(signed_in, "/ware/boards/long/")[2] == "the blue one"


def test_a_pot_made_alone_with_its_photo_has_no_number(signed_in, member):
    form = cylinder(member, "mug")

    signed_in.post("/ware/new/", {"form": form.pk, "photo": photo(), "entry_id": "tap"})

    assert signed_in.get("/ware/").context["rows"][0]["name"] == "mug"


def test_two_made_alone_are_told_apart_by_their_days(signed_in, member, load):
    jug = cylinder(member, "jug")
    pots = [keep(Pot, member, form=jug, at=NOON - timedelta(days=n)) for n in (1, 0)]
    board = plank(member, pots)
    put_in(member, load, pots, None)

    names = [f"jug of {day(pot.at, 'j M')}" for pot in pots]
    on_board = called_on(signed_in, f"/ware/boards/{board.pk}/")
    before = signed_in.get(reverse("kiln:before-lighting", args=[load.pk])).context["before"]

    assert on_board == names
    assert [one.name for one in before.proofs.unknown] == names


def test_those_made_alone_on_one_day_are_counted_past_the_numbers_of_a_tap(signed_in, mugs, member):
    alone = [pot_of(member, mugs[0].form) for _ in range(2)]
    for pot in alone:
        signed_in.post(f"/ware/pots/{pot.pk}/board/", {"board": "long"})

    assert called_on(signed_in, "/ware/boards/long/") == [*all_six(), "mug 7", "mug 8"]


def test_the_others_of_a_dip_are_counted_by_their_kind(signed_in, member, mugs):
    coat = coat_of(member, mugs[2], bucket_of(member), 0.5)

    text = text_of(signed_in.get(f"/ware/coats/{coat.pk}/"))

    assert "Ware · mug 3" in text
    assert "The other 5 × mug the same" in text
