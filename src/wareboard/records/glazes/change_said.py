"""What was done to a bucket, and what went into a batch, in words."""

from typing import cast

from django.utils.translation import gettext as _

from wareboard.records.people.shown import Shown

from .models import BatchLine, BucketEvent


def event_said(event: BucketEvent, shown: Shown) -> str:
    """Say what was done to a bucket, with how much and of what."""
    what = str(event.get_kind_display())
    if event.batch is not None:
        what = _("%(what)s with batch %(n)d") % {"what": what, "n": event.batch.number}
    much = much_of(event, shown)
    return f"{what}: {much}" if much else what


def much_of(event: BucketEvent, shown: Shown) -> str:
    """Say of what went into a bucket or out of it, and how much; empty where nobody said."""
    said = [] if event.lot is None else [str(event.lot.material)]
    if event.amount_ml is not None:
        said.append(shown.volume(event.amount_ml))
    if event.amount_g is not None:
        said.append(shown.mass(event.amount_g))
    return ", ".join(said)


def line_said(line: BatchLine) -> str:
    """Say what went into a batch of one powder: ``2400 g, bag B``."""
    return f"{grams_said(line)}, {bag_said(line)}"


def line_was(line: BatchLine) -> str:
    """Say what a line of a batch said before it was put right; empty where it was not."""
    wrong = cast("BatchLine | None", line.corrects)
    if wrong is None:
        return ""
    was = [grams_said(wrong)] if wrong.weighed_g != line.weighed_g else []
    if wrong.lot_id != line.lot_id:
        was.append(bag_said(wrong))
    return _("corrected, was %s") % ", ".join(was) if was else _("corrected")


def grams_said(line: BatchLine) -> str:
    """Say what the scale said."""
    return Shown.weighed(line.weighed_g) if line.weighed_g is not None else _("not weighed")


def bag_said(line: BatchLine) -> str:
    """Say which bag or jar it came from."""
    lot = line.lot
    return f"{lot.get_container_display()} {lot.label}" if lot is not None else _("bag not said")
