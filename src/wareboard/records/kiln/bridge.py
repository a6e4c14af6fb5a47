"""Rows of the kiln room, turned into what the core knows of a firing."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from wareboard.core.errors import CoreError
from wareboard.core.firing.flame import FlameLine, reduction_start
from wareboard.core.firing.log import FEWEST_LINES, FiringLog, firing_log
from wareboard.core.firing.pack import ConeBeside, cone_beside, seen_less_read_c
from wareboard.core.firing.reading_doubt import Probe, probe_from_packs
from wareboard.core.firing.series import ConeSeries, cone_series

from .models import ConeReading, Kiln
from .words import REDUCING, Level

SECONDS_H = 3600

Row = tuple[datetime, float | None, str]
"""Time, temperature [°C] and flame word of one line."""


def hours_since(lit_at: datetime, at: datetime) -> float:
    """Give the hours from lighting to an instant [h]."""
    return (at - lit_at).total_seconds() / SECONDS_H


@dataclass(frozen=True)
class Logged:
    """The lines of one firing, hours counted from its lighting.

    Attributes
    ----------
    log : FiringLog or None
        Its temperatures; None where there are fewer than two.
    flames : tuple of FlameLine
        What the flame was said to be.
    refused : str
        Why the temperatures are no log, where they are none.
    """

    log: FiringLog | None
    flames: tuple[FlameLine, ...]
    refused: str = ""

    @property
    def reduction(self) -> FlameLine | None:
        """The line where reduction began."""
        return reduction_start(self.flames, REDUCING)


def logged(rows: Iterable[Row], lit_at: datetime) -> Logged:
    """Read the lines of a firing.

    Parameters
    ----------
    rows : iterable of (at, °C or None, flame word)
        The current lines, in any order.
    lit_at : datetime
        When it was lit.
    """
    told = [(hours_since(lit_at, at), temp_c, flame) for at, temp_c, flame in rows]
    flames = tuple(FlameLine(hours, temp_c, flame) for hours, temp_c, flame in told if flame)
    read = [(hours, temp_c) for hours, temp_c, _ in told if temp_c is not None]
    if len({hours for hours, _ in read}) < FEWEST_LINES:
        return Logged(None, flames)
    try:
        return Logged(firing_log(*zip(*read, strict=True)), flames)
    except CoreError as refused:
        return Logged(None, flames, str(refused))


def series_of(kiln: Kiln) -> ConeSeries:
    """Give the cones that stand in a kiln."""
    return cone_series(kiln.cones)


def up_to(log: FiringLog, hours: float) -> FiringLog | None:
    """Give a log up to an instant, no later than it goes; None before its second line."""
    end = min(hours, log.now_hours)
    return log.until(end) if end > float(log.hours[0]) else None


def beside_log(
    series: ConeSeries, log: FiringLog | None, reading: ConeReading, hours: float
) -> ConeBeside | None:
    """Hold a cone that was read against the log.

    Parameters
    ----------
    series : ConeSeries
        The cones of the kiln.
    log : FiringLog or None
        The firing.
    reading : ConeReading
        Which cone, and where it pointed.
    hours : float
        When it was read [h]; of no matter for one read in the cold kiln.

    Returns
    -------
    ConeBeside or None
        None where the log or the chart has nothing to say of it.
    """
    part = log if log is None or reading.when_cold else up_to(log, hours)
    if part is None:
        return None
    try:
        return cone_beside(series.table, part, reading.cone, reading.clock)
    except CoreError:
        return None


def pack_less_log_c(
    series: ConeSeries, log: FiringLog, readings: Sequence[ConeReading]
) -> float | None:
    """Give what a cold pack had more than the log tells [°C].

    The middle shelf counts where its pack tells something, else all shelves.
    """
    cold = [reading for reading in readings if reading.when_cold]
    middle = [one for one in cold if one.place and one.place.level == Level.MIDDLE]
    for some in (middle, cold):
        beside = (beside_log(series, log, reading, 0.0) for reading in some)
        found = seen_less_read_c(one for one in beside if one is not None)
        if found is not None:
            return found
    return None


def probe_of(
    series: ConeSeries,
    logs: Mapping[str, FiringLog],
    packs: Mapping[str, Sequence[ConeReading]],
) -> Probe:
    """Learn from earlier firings how far the pyrometer is off.

    Parameters
    ----------
    series : ConeSeries
        The cones of the kiln.
    logs : mapping of str to FiringLog
        By firing.
    packs : mapping of str to sequence of ConeReading
        By firing.
    """
    found = [
        pack_less_log_c(series, logs[firing], readings)
        for firing, readings in packs.items()
        if firing in logs
    ]
    return probe_from_packs([less_c for less_c in found if less_c is not None])
