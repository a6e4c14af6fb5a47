"""A pot is called the same on its board and on every page that is opened for it alone."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import bucket_of, coat_of, cylinder, plank, pot_of, text_of

from wareboard.records.people.entry import keep
from wareboard.records.people.shown import day
from wareboard.records.ware.models import Pot


@pytest.fixture
def mugs(member):
    """Three mugs on one board, made one after the other."""
    form = cylinder(member, "mug")
    made = [pot_of(member, form) for _ in range(3)]
    plank(member, made)
    return made


@pytest.mark.parametrize("page", ["", "weigh/", "dip/", "mark/", "decorate/", "hope/", "photo/"])
def test_each_page_of_a_pot_calls_it_as_its_board_does(signed_in, mugs, page):
    assert "mug 3" in text_of(signed_in.get(f"/ware/pots/{mugs[2].pk}/{page}"))


def test_the_page_of_a_coat_does_so_too_and_counts_the_others_by_their_kind(
    signed_in, member, mugs
):
    coat = coat_of(member, mugs[2], bucket_of(member), 0.5)

    text = text_of(signed_in.get(f"/ware/coats/{coat.pk}/"))

    assert "Ware · mug 3" in text
    assert "The other 2 × mug the same" in text


def test_small_pots_on_the_scale_together_are_told_apart_too(signed_in, mugs):
    page = signed_in.get("/ware/together/", {"pot": [mugs[0].pk, mugs[2].pk]})

    taps = [tap.choice_label for tap in page.context["form"]["pots"]]
    assert taps == ["mug 1", "mug 3"]


def test_the_list_of_the_newest_pots_does_so_too(signed_in, mugs):
    rows = signed_in.get("/ware/").context["rows"]

    assert {row["pot"]: row["name"] for row in rows} == {
        pot: f"mug {n}" for n, pot in enumerate(mugs, start=1)
    }


def test_on_a_long_board_a_pot_beyond_those_that_are_drawn_counts_too(signed_in, member):
    form = cylinder(member, "mug")
    now = timezone.localtime().replace(hour=23) - timedelta(days=1)
    made = [keep(Pot, member, form=form, at=now - timedelta(hours=20 - n)) for n in range(14)]
    plank(member, made[1:] + made[:1])

    (board,) = signed_in.get("/ware/").context["boards"]

    assert [one["name"] for one in board["plank"]] == [f"mug {n}" for n in range(2, 14)]


def test_a_pot_that_stands_on_no_board_is_called_by_itself(signed_in, member):
    form = cylinder(member, "mug")
    alone, _other = pot_of(member, form), pot_of(member, form)

    assert signed_in.get(f"/ware/pots/{alone.pk}/").context["name"] == "mug"


def test_a_pot_without_a_name_is_called_by_its_day_without_a_full_stop(signed_in, member):
    pot = keep(Pot, member)

    name = signed_in.get(f"/ware/pots/{pot.pk}/").context["name"]

    assert name == f"pot of {day(pot.at, 'j M')}"
