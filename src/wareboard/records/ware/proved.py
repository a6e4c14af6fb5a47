"""Proof weighings in the record: of a pot alone, or of small ones together."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from django.db.models import Count, OuterRef, Subquery
from django.utils.translation import ngettext

from wareboard.core.drying import FEWEST_HOURS, Proof

from .models import Weighing
from .words import ON_A_PAN, WeighingState

FEWEST_ON_PAN = 2
DAMP = (WeighingState.PLASTIC, WeighingState.LEATHER_HARD)
OWN_WITHIN = timedelta(hours=12)
"""A pot's own weighing so long before the pan still tells what it weighed on it."""
PAN_COAT_SHARE = 0.12
"""Dry glaze, at most, of what raw glazed pots weigh (common practice) [ratio]."""

PAN_COUNT = Subquery(
    Weighing.objects.standing()
    .filter(together=OuterRef("together"))
    .exclude(together="")
    .order_by()
    .values("together")
    .annotate(n=Count("pot", distinct=True))
    .values("n")
)
"""How many pots one tap weighed together."""


def _two(
    weighings: Sequence[Weighing], last_dip: datetime | None, states: tuple[str, str]
) -> tuple[Weighing, Weighing] | None:
    """Give the last two weighings with the warm hours between, since the last dip."""
    before = after = None
    for row in weighings:
        if last_dip is not None and row.at <= last_dip:
            continue
        if row.state == states[0]:
            before, after = row, None
        elif row.state == states[1] and before is not None:
            after = row
    return (before, after) if before is not None and after is not None else None


def _hours(two: tuple[Weighing, Weighing]) -> float:
    return (two[1].at - two[0].at).total_seconds() / 3600


def too_soon(before: Weighing | None, now: datetime) -> str:
    """Ask about a second weighing that comes too soon after the first; else empty."""
    if before is None or (now - before.at).total_seconds() >= FEWEST_HOURS * 3600:
        return ""
    minutes = max(round((now - before.at).total_seconds() / 60), 1)
    say = ngettext(
        "That is %(n)d minute after the first weighing: a proof takes two hours at about 50 °C.",
        "That is %(n)d minutes after the first weighing: a proof takes two hours at about 50 °C.",
        minutes,
    )
    return say % {"n": minutes}


def proof_of(
    weighings: Sequence[Weighing],
    on_pans: Sequence[Weighing],
    last_dip: datetime | None,
    step_g: float,
) -> Proof | None:
    """Give the last proof weighing since the last dip, of the pot alone or with others.

    With others it is none for a pot that was damp when it was last weighed alone: among
    dry ones its loss would not show. Nor is it where the pot was on the scale since, and
    what it weighed on the pan is not known: it may have been wetted.
    """
    alone = _two(weighings, last_dip, (WeighingState.BEFORE_PROOF, WeighingState.AFTER_PROOF))
    pan = _two(on_pans, last_dip, ON_A_PAN)
    if pan is None or (alone is not None and alone[1].at > pan[1].at):
        if alone is None:
            return None
        before, after = alone
        return Proof(before.weight_g, after.weight_g, hours=_hours(alone), scale_step_g=step_g)
    before, after = pan
    pots = before.on_pan or 0
    if pots < FEWEST_ON_PAN or pots != after.on_pan:
        return None
    alone_before = [row for row in weighings if row.at <= before.at]
    if alone_before and alone_before[-1].state in DAMP:
        return None
    dipped = [row for row in weighings if last_dip is None or row.at > last_dip]
    then = [row.weight_g for row in dipped if before.at - OWN_WITHIN <= row.at <= after.at]
    since = [row.weight_g for row in dipped if row.at > after.at]
    gained_g = 0.0
    if since and not then:
        return None
    if since:
        lost_g = max(before.weight_g - after.weight_g, 0.0)
        gained_g = max(pots * (since[-1] - then[-1]) + lost_g, 0.0)
    return Proof(
        before.weight_g,
        after.weight_g,
        hours=_hours(pan),
        scale_step_g=step_g,
        pots=pots,
        coat_g=PAN_COAT_SHARE * after.weight_g,
        gained_g=gained_g,
    )
