"""A firing beside a good one: its rate now, and how far behind it is.

Hours of both logs count from the same kind of instant, usually the lighting;
minutes behind are taken at the same temperature.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from wareboard.core.arrays import np
from wareboard.core.doubt import NORMAL_90
from wareboard.core.firing.log import FiringLog
from wareboard.core.firing.reading_doubt import FIRING_TO_FIRING_C

SHORTEST_H = 1 / 6
COOLED_C = 30.0
MINUTES_H = 60.0
SLOWEST_C_H = 3.0


@dataclass(frozen=True)
class Beside:
    """Where a firing stands beside a good one.

    Attributes
    ----------
    at_c : float
        The temperature they are compared at [°C].
    cooling : bool
        Whether both are compared on the way down, from their peaks.
    minutes_behind : float or None
        Positive: later than the good one, in cooling slower [min]. None where
        the good one never was at this temperature.
    """

    at_c: float
    cooling: bool
    minutes_behind: float | None


@dataclass(frozen=True)
class Milestone:
    """A temperature that a potter waits for.

    Attributes
    ----------
    name : str
        What happens there.
    temp_c : float
        Where [°C].
    """

    name: str
    temp_c: float


@dataclass(frozen=True)
class NextMilestone:
    """The next temperature to wait for.

    Attributes
    ----------
    milestone : Milestone
        Which one.
    hours_to : float or None
        At the rate of the last hour [h]; None where the kiln hardly climbs.
    """

    milestone: Milestone
    hours_to: float | None


def rate_c_h(log: FiringLog, *, over_h: float = 1.0) -> float | None:
    """Rate over the last hour [°C/h].

    Parameters
    ----------
    log : FiringLog
        The firing so far.
    over_h : float
        How far back to look [h]; a shorter log is taken whole.

    Returns
    -------
    float or None
        Slope of the straight line nearest to the log over that time; None if
        the log is shorter than ten minutes.

    Notes
    -----
    ``12 ∫ (t - t_mid) T dt / Δt³``, exact for straight pieces, so that extra lines
    on them change nothing.
    """
    start = max(log.now_hours - over_h, float(log.hours[0]))
    long_h = log.now_hours - start
    if long_h < SHORTEST_H:
        return None
    last = log.since(start)
    from_mid = last.hours - (start + log.now_hours) / 2
    gaps = np.diff(last.hours)
    before, after = last.temp_c[:-1], last.temp_c[1:]
    moment = gaps @ (from_mid[:-1] * (2 * before + after) + from_mid[1:] * (before + 2 * after))
    return float(12 * moment / 6 / long_h**3)


def beside(good: FiringLog, log: FiringLog) -> Beside:
    """Compare a firing with a good one at its present temperature.

    Parameters
    ----------
    good : FiringLog
        The firing to be like.
    log : FiringLog
        The firing so far.

    Returns
    -------
    Beside
        While the good one held this temperature itself, neither ahead nor
        behind.
    """
    at_c = log.now_c
    cooling = log.now_c < float(log.temp_c[log.peak]) - COOLED_C
    if cooling:
        there = _passes(good.since(good.peak_hours), at_c, sign=-1.0)
        now = log.now_hours - log.peak_hours
        since = good.peak_hours
    else:
        there = _passes(good.until(good.peak_hours), at_c, sign=1.0)
        now, since = log.now_hours, 0.0
    if there is None:
        return Beside(at_c, cooling, None)
    first, last = there[0] - since, there[1] - since
    behind_h = now - min(max(now, first), last)
    return Beside(at_c, cooling, behind_h * MINUTES_H)


def minutes_in_doubt(rate_c_h: float) -> float:
    """Half the 90 % interval of minutes behind [min].

    Parameters
    ----------
    rate_c_h : float
        How fast the kiln climbs or falls [°C/h].

    Notes
    -----
    The same thermocouple is some six degrees off from one firing to the next,
    and both firings have their own; divided by the rate that is time.
    """
    apart_c = NORMAL_90 * 2**0.5 * FIRING_TO_FIRING_C
    return apart_c / max(abs(rate_c_h), SLOWEST_C_H) * MINUTES_H


def next_milestone(log: FiringLog, milestones: Iterable[Milestone]) -> NextMilestone | None:
    """Find the next milestone above the present temperature.

    Parameters
    ----------
    log : FiringLog
        The firing so far.
    milestones : iterable of Milestone
        In any order.

    Returns
    -------
    NextMilestone or None
        None if all are passed.
    """
    ahead = [m for m in milestones if m.temp_c > log.now_c]
    if not ahead:
        return None
    nearest = min(ahead, key=lambda m: m.temp_c)
    rate = rate_c_h(log)
    if rate is None or rate < SLOWEST_C_H:
        return NextMilestone(nearest, None)
    return NextMilestone(nearest, (nearest.temp_c - log.now_c) / rate)


def _passes(log: FiringLog, at_c: float, *, sign: float) -> tuple[float, float] | None:
    """When a climb (+) or a fall (-) first reached a temperature and last left it [h]."""
    toward, goal = sign * log.temp_c, sign * at_c
    if toward[0] > goal or toward.max() < goal:
        return None
    reached = int(np.flatnonzero(toward >= goal)[0])
    left = int(np.flatnonzero(toward <= goal)[-1])
    first = float(log.hours[0])
    if reached:
        first = _crossing(log, reached - 1, at_c)
    last = float(log.hours[-1])
    if left < log.hours.size - 1:
        last = _crossing(log, left, at_c)
    return first, last


def _crossing(log: FiringLog, before: int, at_c: float) -> float:
    """When the piece after a line is at a temperature it passes [h]."""
    from_c, to_c = log.temp_c[before], log.temp_c[before + 1]
    share = (at_c - from_c) / (to_c - from_c)
    return float(log.hours[before] + share * (log.hours[before + 1] - log.hours[before]))
