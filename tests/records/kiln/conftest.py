"""A kiln with three shelves, pots that wait, and firings as a hand writes them down."""

from datetime import UTC, datetime, timedelta

import pytest

from wareboard.records.kiln import actions
from wareboard.records.kiln.log_answer import answer_for
from wareboard.records.kiln.logs import course_of
from wareboard.records.kiln.models import Firing, GoodFiring, Load, LogLine, Moment, Place
from wareboard.records.people.entry import keep
from wareboard.records.people.shown import Shown
from wareboard.records.ware.models import Board, Form, Pot, Standing

LIT = datetime(2026, 10, 3, 6, 0, tzinfo=UTC)
HTMX = {"HX-Request": "true"}


@pytest.fixture
def kiln(member):
    return actions.new_kiln(member, name="the small one", end_cone="9", entry_id="small-one")


@pytest.fixture
def shelf(kiln):
    def of(level):
        return Place.objects.get(kiln=kiln, level=level)

    return of


@pytest.fixture
def pots(member):
    form = keep(Form, member, name="mug")
    return [keep(Pot, member, entry_id=f"mug-{n}", form=form) for n in range(5)]


@pytest.fixture
def board(member, pots):
    plank = keep(Board, member, entry_id="long-board", name="the long board")
    for pot in pots[:3]:
        keep(Standing, member, pot=pot, board=plank)
    return plank


@pytest.fixture
def load(member, kiln):
    return keep(Load, member, entry_id="fridays", kiln=kiln, name="Friday’s load", at=LIT)


@pytest.fixture
def fire(member, kiln):
    """Keep a firing whose log has these lines: hours, °C, flame."""

    def of(name, lines, *, lit=LIT, number=1, moments=(), good=False):
        placed = keep(Load, member, entry_id=f"load-{name}", kiln=kiln, name=name, at=lit)
        firing = keep(Firing, member, entry_id=name, load=placed, number=number, at=lit)
        for position, (hours, temp_c, flame) in enumerate(lines):
            keep(
                LogLine,
                member,
                entry_id=f"{name}-{position}",
                firing=firing,
                at=lit + timedelta(hours=hours),
                temp_c=temp_c,
                flame=flame,
            )
        for kind, hours in moments:
            at = lit + timedelta(hours=hours)
            keep(Moment, member, firing=firing, kind=kind, at=at)
        if good:
            keep(GoodFiring, member, firing=firing)
        return firing

    return of


def sentences(answer):
    return [one.say for one in answer.said]


def told(answer, start):
    (found,) = [one for one in answer.said if one.say.startswith(start)]
    return found


def steady(*, to_h, from_h=0.0, rate_c_h=100.0, start_c=20.0, flame=""):
    """Give a log that climbs evenly, a line every half hour."""
    steps = round((to_h - from_h) * 2)
    hours = [from_h + step / 2 for step in range(steps + 1)]
    return [(hour, start_c + rate_c_h * hour, flame) for hour in hours]


@pytest.fixture
def good(fire):
    """A good firing: 100 °C an hour to 1220 °C, reduction from 870 °C, then cooling."""
    lines = [
        (hour, temp, "licking" if temp >= 870 else "clear") for hour, temp, _ in steady(to_h=12)
    ]
    cooling = [(12 + 2 * n, 1220.0 - 160 * n, "") for n in range(1, 8)]
    return fire(
        "good-one",
        lines + cooling,
        lit=LIT - timedelta(days=14),
        moments=[("sealed", 2.0), ("shut off", 12.0), ("opened", 27.0)],
        good=True,
    )


@pytest.fixture
def said(member):
    """Give what the log of a firing says at its last line."""

    def of(firing, *, hours=12.0):
        firing = Firing.objects.select_related("load__kiln").get(pk=firing.pk)
        course = course_of(member, firing)
        return answer_for(course, firing.at + timedelta(hours=hours), Shown(member.studio))

    return of
