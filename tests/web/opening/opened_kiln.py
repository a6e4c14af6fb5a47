"""A firing that waits to be opened, and what its page and the record say of it."""

from datetime import UTC, datetime, timedelta

from wareboard.records.kiln import actions as kiln_actions
from wareboard.records.kiln import happened
from wareboard.records.kiln.models import Load, Place
from wareboard.records.people.entry import keep
from wareboard.records.shelf.models import Verdict
from wareboard.records.ware.models import Form, Pot

LIT = datetime(2026, 10, 3, 6, 0, tzinfo=UTC)
HTMX = {"HX-Request": "true"}


def firing_to_open(member):
    """Keep a firing with three mugs on two shelves, shut off and not opened."""
    kiln = kiln_actions.new_kiln(member, name="the small one", end_cone="9")
    load = keep(Load, member, kiln=kiln, name="Friday’s load", at=LIT)
    mug = keep(Form, member, name="mug")
    pots = [keep(Pot, member, entry_id=f"mug-{n}", form=mug) for n in range(3)]
    top, bottom = (Place.objects.get(kiln=kiln, level=level) for level in ("top", "bottom"))
    kiln_actions.put_in(member, load, pots[:2], top)
    kiln_actions.put_in(member, load, pots[2:], bottom)
    firing = kiln_actions.light(member, load, entry_id="now", at=LIT)
    happened.keep_moment(member, firing, "shut off", at=LIT + timedelta(hours=12))
    return firing


def verdicts(pot_id="mug-0"):
    """What is said of a pot, by surface and in the order it was said."""
    rows = Verdict.objects.current().filter(pot=pot_id).order_by("surface", "at")
    return [(row.surface, row.thumb, [fault.word for fault in row.faults.all()]) for row in rows]


def shelves_of(reply):
    """The shelves of the page of an opening, by level."""
    return {shelf["level"]: shelf for shelf in reply.context["shelves"]}
