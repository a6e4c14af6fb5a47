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
LEAST_C = 1.0
APART_C = NORMAL_90 * 2**0.5 * FIRING_TO_FIRING_C
"""So far two readings of one thermocouple are apart from firing to firing, nine times in ten."""


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
    half_minutes : float or None
        Half the 90 % interval of it [min].
    """

    at_c: float
    cooling: bool
    minutes_behind: float | None
    half_minutes: float | None


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

    Notes
    -----
    The same thermocouple is some six degrees off from one firing to the next,
    and both firings have their own. What it is now is known; when the good one
    was truly there is not: so far apart as it passed so many degrees less and
    more. How fast this firing climbs has no part in it.
    """
    at_c = log.now_c
    cooling = log.now_c < float(log.temp_c[log.peak]) - COOLED_C
    if cooling:
        piece, sign = good.since(good.peak_hours), -1.0
        now = log.now_hours - log.peak_hours + good.peak_hours
    else:
        piece, sign = good.until(good.peak_hours), 1.0
        now = log.now_hours
    there = _passes(piece, at_c, sign=sign)
    if there is None:
        return Beside(at_c, cooling, None, None)
    half_h = max(_apart_h(piece, at_c, now, sign=sign), (there[1] - there[0]) / 2)
    return Beside(at_c, cooling, _behind_h(there, now) * MINUTES_H, half_h * MINUTES_H)


def _behind_h(there: tuple[float, float], now: float) -> float:
    """Hours since the good one left a temperature, or less than nothing until it reached it [h]."""
    first, last = there
    return now - min(max(now, first), last)


def _apart_h(piece: FiringLog, at_c: float, now: float, *, sign: float) -> float:
    """How much hours behind change over the degrees that two readings are apart [h]."""
    toward, goal = sign * piece.temp_c, sign * at_c
    low_c = max(goal - APART_C, float(toward[0]))
    high_c = min(goal + APART_C, float(toward.max()))
    passed = (_passes(piece, sign * end_c, sign=sign) for end_c in (low_c, high_c))
    behind = [_behind_h(there, now) for there in passed if there is not None]
    return (behind[0] - behind[-1]) / max(high_c - low_c, LEAST_C) * APART_C


def minutes_in_doubt(rate_c_h: float) -> float:
    """Minutes that a kiln needs for the degrees that two readings are apart [min].

    Parameters
    ----------
    rate_c_h : float
        How fast the kiln climbs or falls [°C/h].

    Notes
    -----
    The same thermocouple is some six degrees off from one firing to the next,
    and both firings have their own; divided by the rate that is time. Where that
    is long the kiln hardly climbs.
    """
    return APART_C / max(abs(rate_c_h), SLOWEST_C_H) * MINUTES_H


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
