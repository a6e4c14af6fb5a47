"""What is in a bucket now: from its last filling, its readings, and what was done since."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from .bridge import density_of
from .models import BucketEvent, BucketEventKind, Reading

ML_L = 1000.0
CHANGES_DENSITY = {
    BucketEventKind.TOPPED_UP,
    BucketEventKind.WATER_IN,
    BucketEventKind.WATER_OFF,
}
POWDER_TELLS_G_L = 15.0
"""Powder in a litre of slop from which the bottle would weigh differently [g/l]."""

LITRES_WHERE_NOT_KNOWN = 5.0
SIGN = {
    BucketEventKind.TOPPED_UP: 1,
    BucketEventKind.WATER_IN: 1,
    BucketEventKind.WATER_OFF: -1,
    BucketEventKind.DRAWN: -1,
}


@dataclass(frozen=True)
class Level:
    """What is in a bucket now.

    Attributes
    ----------
    reading : Reading or None
        The newest since the last filling.
    since : tuple of BucketEvent
        What changed the slop after that reading, the first first: it has to be weighed again.
    litres : float or None
        Slop in it, by the tide line or the filling, and what went in and out since [l].
    empty : bool
        Whether it was emptied and not filled again.
    told_at : datetime or None
        When somebody last said how much is in it.
    """

    reading: Reading | None
    since: tuple[BucketEvent, ...]
    litres: float | None
    empty: bool
    told_at: datetime | None = None


def level_of(
    readings: Sequence[Reading], events: Sequence[BucketEvent], *, scale_step_g: float
) -> Level:
    """Say what is in a bucket.

    Parameters
    ----------
    readings : sequence of Reading
        In force, newest first.
    events : sequence of BucketEvent
        Newest first.
    scale_step_g : float
        Smallest step of the scale [g].
    """
    begun = next(
        (e for e in events if e.kind in {BucketEventKind.FILLED, BucketEventKind.EMPTIED}), None
    )
    if begun is not None:
        readings = [reading for reading in readings if reading.at >= begun.at]
        events = [event for event in events if event.at >= begun.at and event.pk != begun.pk]
    reading = readings[0] if readings else None
    empty = begun is not None and begun.kind == BucketEventKind.EMPTIED
    told = None if empty else _told(begun, readings)
    litres = None if told is None else _litres(*told, readings, events, scale_step_g)
    since = [
        event
        for event in reversed(events)
        if reading is not None and event.at > reading.at and _stirs(event, litres)
    ]
    return Level(reading, tuple(since), litres, empty, told[1] if told else None)


def _stirs(event: BucketEvent, litres: float | None) -> bool:
    """Whether the bottle would weigh differently after an event; a pinch of powder is none."""
    if event.kind == BucketEventKind.POWDER_IN:
        tells_g = POWDER_TELLS_G_L * (litres or LITRES_WHERE_NOT_KNOWN)
        return event.amount_g is None or event.amount_g > tells_g
    return event.kind in CHANGES_DENSITY


def _told(begun: BucketEvent | None, readings: Sequence[Reading]) -> tuple[float, datetime] | None:
    """Give the litres that were told, and when: by the newest tide line, else by the filling."""
    tide = next((r for r in readings if r.in_bucket_l is not None), None)
    if tide is not None and tide.in_bucket_l is not None:
        return tide.in_bucket_l, tide.at
    if begun is not None and begun.amount_ml is not None:
        return begun.amount_ml / ML_L, begun.at
    return None


def _litres(
    litres: float,
    when: datetime,
    readings: Sequence[Reading],
    events: Sequence[BucketEvent],
    scale_step_g: float,
) -> float:
    """Follow what was done to a bucket since its litres were told."""
    for event in events:
        if event.at > when:
            litres += SIGN.get(BucketEventKind(event.kind), 0) * _moved_l(
                event, readings, scale_step_g
            )
    return max(litres, 0.0)


def _moved_l(event: BucketEvent, readings: Sequence[Reading], scale_step_g: float) -> float:
    """Give the litres that an event moved; slop told by weight goes by its reading."""
    if event.amount_ml is not None:
        return event.amount_ml / ML_L
    if event.amount_g is None or not readings:
        return 0.0
    sg = density_of(readings[0], scale_step_g=scale_step_g).result.sg
    return event.amount_g / sg / ML_L
