"""How far a kiln can have come since a line of its log: what a pyrometer may then show.

The bounds are wide on purpose: what lies outside them is a slip of the hand far
sooner than a firing, and is asked about, not refused. A climb goes so many
degrees in an hour; a kiln that cools loses so large a share of its heat over the
air in an hour, fast while it glows and slowly when it is warm.

Sources
-------
That a studio kiln climbs no faster than 600 °C an hour, and loses no more than
65 % of its heat over the air in an hour with its dampers open, is common practice,
generously taken; pots taken out hot, as in raku, are no such firing. A kiln's own
logs narrow both, but never below twice what they show.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import exp, log1p

from wareboard.core.arrays import Floats, np
from wareboard.core.firing.log import FiringLog

AIR_C = 20.0
READ_C = 60.0
"""A couple that was moved, a misread dial, a candle beside the couple [°C]."""

SHORTEST_H = 0.25
TIMES_ITS_OWN = 2.0

GLOWS_C = 200.0
"""From here on down a log tells how fast its kiln cools [°C]."""


@dataclass(frozen=True)
class Pace:
    """How fast a kiln may change.

    Attributes
    ----------
    climb_c_h : float
        At most [°C/h].
    cooling_share : float
        Of its heat over the air, what it may lose in an hour.
    """

    climb_c_h: float
    cooling_share: float


ANY_KILN = Pace(600.0, 0.65)
SLOW_KILN = Pace(250.0, 0.4)
"""A kiln's own logs narrow the bounds no further than this."""


def pace_of(logs: Iterable[FiringLog]) -> Pace:
    """Learn how fast a kiln may change from what its logs show.

    Parameters
    ----------
    logs : iterable of FiringLog
        Of one kiln; none will do.

    Returns
    -------
    Pace
        Twice the fastest climb and the fastest cooling over a quarter of an hour or
        more; that of any kiln where no log shows one.
    """
    steps = [_steps(log) for log in logs]
    climbs = [float(climb.max()) for climb, _ in steps if climb.size]
    falls = [float(fall.max()) for _, fall in steps if fall.size]
    climb_c_h = TIMES_ITS_OWN * max(climbs, default=0.0)
    fall = TIMES_ITS_OWN * max(falls, default=0.0)
    return Pace(
        _between(climb_c_h, SLOW_KILN.climb_c_h, ANY_KILN.climb_c_h),
        _between(1 - exp(-fall), SLOW_KILN.cooling_share, ANY_KILN.cooling_share),
    )


def _between(own: float, least: float, most: float) -> float:
    """Hold what logs show within the bounds; the widest where they show nothing."""
    return min(max(own, least), most) if own > 0 else most


def reach_c(from_c: float, hours: float, pace: Pace = ANY_KILN) -> tuple[float, float]:
    """Give the least and the most that a pyrometer may show some time after a line.

    Parameters
    ----------
    from_c : float
        What it showed [°C].
    hours : float
        How long ago [h], 0 or more.
    pace : Pace
        How fast the kiln may change.

    Returns
    -------
    low_c, high_c : float
        Not an interval of a measurement: nothing outside it can be [°C].

    Examples
    --------
    >>> reach_c(870, 0.5)[1]
    1230.0
    """
    over_c = max(from_c - AIR_C, 0.0)
    left = exp(hours * log1p(-pace.cooling_share))
    low_c = min(from_c, AIR_C) + over_c * left - READ_C
    return low_c, from_c + hours * pace.climb_c_h + READ_C


def _steps(log: FiringLog) -> tuple[Floats, Floats]:
    """Give the climbs [°C/h] and the coolings [1/h] between lines a quarter of an hour apart."""
    later = np.searchsorted(log.hours, log.hours + SHORTEST_H)
    first = np.flatnonzero(later < log.hours.size)
    later = later[first]
    long_h = log.hours[later] - log.hours[first]
    rise_c = log.temp_c[later] - log.temp_c[first]
    falling = (rise_c < 0) & (log.temp_c[later] > GLOWS_C)
    over_c = log.temp_c - AIR_C
    loss = np.log(over_c[first[falling]] / over_c[later[falling]]) / long_h[falling]
    return rise_c[rise_c > 0] / long_h[rise_c > 0], loss
