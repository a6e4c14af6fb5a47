"""What was done to a bucket, in words."""

from django.utils.translation import gettext as _

from wareboard.records.people.shown import Shown

from .models import BucketEvent


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
