"""A firing that waits to be opened, and a photo of a shelf."""

import io
from datetime import UTC, datetime, timedelta

from PIL import Image

from wareboard.records.kiln import actions as kiln_actions
from wareboard.records.kiln import happened
from wareboard.records.kiln.models import Load, Place
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Form, Pot

LIT = datetime(2026, 10, 3, 6, 0, tzinfo=UTC)


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


def photo(name="shelf.png", colour=(180, 120, 60)):
    written = io.BytesIO()
    Image.new("RGB", (12, 8), colour).save(written, "PNG")
    written.seek(0)
    written.name = name
    return written
