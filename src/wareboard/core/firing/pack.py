"""A cone beside the log: what it had, less what the log says it had.

A cone caught on its way down measures the heat-work where it stands. Held
against the log at the same instant it says by how many degrees, as if at
60 °C/h, its place got more or less than the thermocouple tells. A cone that
stands as set, or that is down, gives only one end of that.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import hypot, log

from wareboard.core.doubt import NORMAL_90
from wareboard.core.firing.ahead import CONE_SEEN_C
from wareboard.core.firing.bending import (
    DOWN_CLOCK,
    UPRIGHT_CLOCK,
    bend_from_progress,
    clock_from_bend,
    read_clock,
)
from wareboard.core.firing.curves import CurveTable
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import FiringLog
from wareboard.core.firing.reading_doubt import Probe

TELLS_FROM_CLOCK = 0.75
TELLS_TO_CLOCK = 5.25
COUNTED_C = 50.0
"""Farther from the log, a line is missing or the cone is another one sooner than that the
couple is off (common practice)."""


@dataclass(frozen=True)
class ConeBeside:
    """One cone of a pack beside the log.

    Attributes
    ----------
    cone : str
        Which one.
    clock : float
        Where its tip pointed, 0 as set.
    log_clock : float
        Where it would point by the log, 0 as set, 6 when down.
    differs_c : float or None
        What it had less what the log says, as if at 60 °C/h [°C]; None where it
        stood as set or was down.
    low_c, high_c : float or None
        Where that lies nine times in ten by the reading of the hour alone; None
        where it has no such end.
    """

    cone: str
    clock: float
    log_clock: float
    differs_c: float | None
    low_c: float | None
    high_c: float | None

    @property
    def agrees(self) -> bool:
        """Whether the log is within the doubt of what was seen."""
        return (self.low_c is None or self.low_c <= 0) and (self.high_c is None or self.high_c >= 0)

    @property
    def within_c(self) -> float | None:
        """Half of a 90 % interval of the difference: the reading of the hour, and the cone [°C]."""
        if self.differs_c is None or self.low_c is None:
            return None
        half_c = self.differs_c - self.low_c
        if self.high_c is not None:
            half_c = (self.high_c - self.low_c) / 2
        return hypot(half_c, NORMAL_90 * CONE_SEEN_C)

    @property
    def far(self) -> bool:
        """Whether it is so far from the log that it says nothing of the thermocouple."""
        if self.differs_c is not None:
            return abs(self.differs_c) > COUNTED_C
        return (self.low_c or 0.0) > COUNTED_C or (self.high_c or 0.0) < -COUNTED_C

    @property
    def tells_c(self) -> float | None:
        """The difference, where the cone was far enough on its way and the log is its own [°C]."""
        if self.differs_c is None or not TELLS_FROM_CLOCK <= self.clock <= TELLS_TO_CLOCK:
            return None
        return None if self.far else self.differs_c


def cone_beside(table: CurveTable, log_: FiringLog, cone: str, clock: float) -> ConeBeside:
    """Hold a cone against the log up to when it was seen.

    Parameters
    ----------
    table : CurveTable
        The cones on the shelf.
    log_ : FiringLog
        Up to that instant; all of it for a cone read in the cold kiln.
    cone : str
        Which one.
    clock : float
        The hour its tip pointed to: 12 (or 0) as set, 6 when down.

    Raises
    ------
    LogError
        If the cone is not in the table.
    ShapeError
        If the hour is not on the way down.
    """
    one = table.only([cone])
    seen = read_clock(clock)
    by_log = float(progress(one, log_)[0])
    below, above = float(one.low_span_c[0]), float(one.high_span_c[0])
    log_past_c = (below if by_log < 1 else above) * log(by_log)

    def less_log(share: float | None) -> float | None:
        return below * log(share) - log_past_c if share else None

    hour = 0.0 if clock == UPRIGHT_CLOCK else clock
    return ConeBeside(
        cone,
        hour,
        clock_from_bend(bend_from_progress(by_log)),
        less_log(seen.progress) if hour < DOWN_CLOCK else None,
        less_log(seen.low),
        less_log(seen.high),
    )


def seen_less_read_c(cones: Iterable[ConeBeside]) -> float | None:
    """Give the mean difference of the cones that tell one [°C]; None where none does."""
    told = [cone.tells_c for cone in cones if cone.tells_c is not None]
    return sum(told) / len(told) if told else None


def probe_after_reading(cone: ConeBeside, probe: Probe) -> Probe:
    """Correct the thermocouple by a cone seen on its way down in this firing.

    Parameters
    ----------
    cone : ConeBeside
        Held against the log with the probe's offset already added.
    probe : Probe
        What was known before.

    Returns
    -------
    Probe
        With a share of the difference added; the same where the cone tells none.
    """
    if cone.tells_c is None or cone.within_c is None:
        return probe
    seen_sd_c = cone.within_c / NORMAL_90
    share = probe.sd_c**2 / (probe.sd_c**2 + seen_sd_c**2)
    left_c = (1 / probe.sd_c**2 + 1 / seen_sd_c**2) ** -0.5
    return replace(probe, offset_c=probe.offset_c + share * cone.tells_c, sd_c=left_c)
