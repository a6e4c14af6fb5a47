"""What was poured of a batch already, and whether there can be as much of it again."""

from django.utils.translation import gettext as _

from wareboard.core.slop import check_solid, dry_fraction
from wareboard.core.slop.content import WATER_G_L
from wareboard.records.people.models import Member
from wareboard.records.people.shown import Shown, day

from . import queries
from .bridge import weights_of
from .level import ML_L
from .models import Batch, Bucket, BucketEvent
from .solids import solids_of

THINNEST_SG = 1.35
"""Thinner than this hardly anybody dips; a batch poured twice in full comes out so (general)."""


def poured_again(
    member: Member,
    batch: Batch,
    *,
    bucket: Bucket | None,
    amount_ml: float | None,
    entry_id: str,
) -> str:
    """Ask whether so much is left of a batch that was poured before; empty where it can be.

    Where litres are told each time and what was weighed into the batch makes
    all of them, thinned as far as a glaze is, nothing is asked.

    Parameters
    ----------
    member : Member
        Who asks.
    batch : Batch
        Which batch, the base it was drawn from at hand.
    amount_ml : float or None
        Slop that is to be poured [ml]; None where nobody said.
    bucket : Bucket or None
        Into which; None for a new one.
    entry_id : str
        Of the page: one that is sent again is no second pouring.
    """
    this = (entry_id, bucket.pk if bucket else f"{entry_id}-b", amount_ml)
    before = [
        event
        for event in queries.pourings_of(member, batch)
        if (event.pk, event.bucket_id, event.amount_ml) != this
    ]
    if not before:
        return ""
    amounts_ml = [amount_ml, *(event.amount_ml for event in before)]
    told_ml = [amount for amount in amounts_ml if amount is not None]
    if len(told_ml) == len(amounts_ml) and sum(told_ml) <= most_ml(batch):
        return ""
    words = {
        "batch": batch.number,
        "before": ", ".join(_pouring(event, Shown(member.studio)) for event in before),
    }
    if amount_ml is None:
        return _("Batch %(batch)d was poured before: %(before)s. Is any of it left?") % words
    return _("Batch %(batch)d was poured before: %(before)s. Is so much of it left?") % words


def most_ml(batch: Batch) -> float:
    """Give how much slop can be made of what was weighed into a batch [ml]; nothing if unknown."""
    weights = weights_of(batch, queries.lines_by_batch(batch))
    answer = solids_of([batch])[batch.pk]
    if answer is None:
        return 0.0
    solid = check_solid(answer.result.solid_density_g_cm3)
    dry_g_l = THINNEST_SG * WATER_G_L * dry_fraction(THINNEST_SG, solid)
    return sum(grams for _line, grams in weights) / dry_g_l * ML_L


def _pouring(event: BucketEvent, shown: Shown) -> str:
    words = {"bucket": event.bucket.name, "day": day(event.at, "j F")}
    if event.amount_ml is None:
        return _("into “%(bucket)s” on %(day)s") % words
    words["litres"] = shown.volume(event.amount_ml)
    return _("%(litres)s into “%(bucket)s” on %(day)s") % words
