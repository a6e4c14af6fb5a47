"""When the cone will fall: the climb carried on until its heat-work is done.

Sources
-------
The rule for the rate ahead and the size of the doubt are the project's own. What
stands behind them is a simulation of hand logs, kept among the tests, in which
the interval holds the true hour about nine times in ten.
"""

from dataclasses import dataclass, replace
from math import exp, hypot

from wareboard.core.answer import Interval
from wareboard.core.arrays import Floats, np
from wareboard.core.doubt import NORMAL_90
from wareboard.core.errors import LogError
from wareboard.core.firing.beside import SLOWEST_C_H, rate_c_h
from wareboard.core.firing.chain import degrees_past_c
from wareboard.core.firing.curves import CurveTable
from wareboard.core.firing.heatwork import piece_progress, progress
from wareboard.core.firing.log import FiringLog
from wareboard.core.firing.reading_doubt import UNKNOWN_PROBE, Probe
from wareboard.core.units import TEMP_C

STEPS_H = 60
FARTHEST_H = 24
LOWEST_RATIO, HIGHEST_RATIO = 0.3, 3.0
SMOOTH_H = 0.25
PATH_SHARE = 0.30
LAW_C = 3.5
CONE_SEEN_C = 5.0
FARTHEST_OFF_C = 80.0
HALVINGS = 50
BASIS = "the thermocouple, the law of heat-work"


@dataclass(frozen=True)
class HourOfCone:
    """When a cone will be down.

    Attributes
    ----------
    hours_to : float or None
        From the last line of the log [h]; 0 if it is down by the log, None if the
        present climb does not bring it down within a day.
    end_c : float or None
        What the thermocouple should show then [°C].
    doubt : Interval or None
        90 % interval of ``hours_to`` [h].
    """

    hours_to: float | None
    end_c: float | None
    doubt: Interval | None


def hours_to_cone(
    table: CurveTable,
    log: FiringLog,
    cone: str,
    *,
    good: FiringLog | None = None,
    probe: Probe = UNKNOWN_PROBE,
) -> HourOfCone:
    """Carry the climb on until a cone is down.

    Parameters
    ----------
    table : CurveTable
        The cones on the shelf.
    log : FiringLog
        The firing so far, at least ten minutes of it.
    cone : str
        The one to wait for.
    good : FiringLog, optional
        A firing to be like; its rates shape the way ahead.
    probe : Probe
        What cones have told about the thermocouple.

    Raises
    ------
    LogError
        If the cone is not in the table or the log is too short for a rate.
    """
    one = table.only([cone])
    true = log.shifted(probe.offset_c)
    done = float(progress(one, true)[0])
    if done >= 1:
        past_c = float(degrees_past_c(one, np.array([done]))[0])
        short_c = max(NORMAL_90 * hypot(probe.sd_c, LAW_C) - past_c, 0.0)
        late = short_c / max(rate_c_h(true) or SLOWEST_C_H, SLOWEST_C_H)
        return HourOfCone(0.0, None, Interval(0.0, late, f"{BASIS}: it may still stand"))
    hours = np.arange(FARTHEST_H * STEPS_H + 1) / STEPS_H
    path_c = _path_c(true, good, hours)
    gained = piece_progress(one, path_c[:-1], path_c[1:], np.diff(hours))[0]
    so_far = done + np.concatenate(([0.0], np.cumsum(gained)))
    if so_far[-1] < 1:
        return HourOfCone(None, None, None)
    hours_to = float(np.interp(1.0, so_far, hours))
    at = int(np.searchsorted(so_far, 1.0))
    end_rate_c_h = float(path_c[at] - path_c[at - 1]) * STEPS_H
    half_h = NORMAL_90 * hypot(
        hypot(probe.sd_c, LAW_C) / max(end_rate_c_h, SLOWEST_C_H), PATH_SHARE * hours_to
    )
    return HourOfCone(
        hours_to,
        float(np.interp(hours_to, hours, path_c)) - probe.offset_c,
        Interval(
            max(hours_to - half_h, 0.0),
            hours_to + half_h,
            f"{BASIS}, and a climb that wanders by a third",
        ),
    )


def probe_after_cone(
    table: CurveTable, log: FiringLog, cone: str, *, seen_hours: float, probe: Probe = UNKNOWN_PROBE
) -> Probe:
    """Correct the thermocouple by a lower cone that was just seen to go down.

    Parameters
    ----------
    table : CurveTable
        The cones on the shelf.
    log : FiringLog
        The firing so far.
    cone : str
        The one that fell, best three below the one to wait for.
    seen_hours : float
        When its tip was level with the plaque [h].
    probe : Probe
        What was known before.

    Returns
    -------
    Probe
        With the shift that explains the cone, drawn a little towards none.

    Raises
    ------
    LogError
        If the cone or the instant is not there, or if no shift within 80 °C
        explains it.
    """
    one = table.only([cone])
    seen = log.until(seen_hours).shifted(probe.offset_c)
    low_c, high_c = -FARTHEST_OFF_C, FARTHEST_OFF_C
    least, most = (float(progress(one, seen.shifted(c))[0]) for c in (low_c, high_c))
    if not least <= 1 <= most:
        raise LogError(
            f"Cone {cone} cannot have gone down at {seen_hours:g} h by this log: the thermocouple "
            f"would have to be more than {FARTHEST_OFF_C:g} °C off.",
            field="cone",
            seen=cone,
            accepted="a cone that the log brings near its end point",
        )
    for _ in range(HALVINGS):
        middle_c = (low_c + high_c) / 2
        if progress(one, seen.shifted(middle_c))[0] < 1:
            low_c = middle_c
        else:
            high_c = middle_c
    share = probe.sd_c**2 / (probe.sd_c**2 + CONE_SEEN_C**2)
    left_c = (1 / probe.sd_c**2 + 1 / CONE_SEEN_C**2) ** -0.5
    return replace(probe, offset_c=probe.offset_c + share * (low_c + high_c) / 2, sd_c=left_c)


def _path_c(log: FiringLog, good: FiringLog | None, hours: Floats) -> Floats:
    """Temperatures ahead, minute by minute [°C], never slower than 3 °C/h."""
    now_c_h, before_c_h = rate_c_h(log), rate_c_h(log, over_h=2.0)
    if now_c_h is None or before_c_h is None:
        raise LogError(
            "Ten minutes of log are needed to see how fast the kiln climbs.",
            field="hours",
            seen=log.now_hours - float(log.hours[0]),
            accepted="ten minutes or more",
        )
    path_c = np.full(hours.size, log.now_c)
    marks = _rates_by_temp(good)
    ratio = 1.0
    if marks is not None:
        there = max(float(np.interp(log.now_c, *marks)), SLOWEST_C_H)
        ratio = min(max(now_c_h / there, LOWEST_RATIO), HIGHEST_RATIO)
    for i, hour in enumerate(hours[:-1]):
        fade = exp(-hour)
        if marks is None:
            rate = before_c_h + (now_c_h - before_c_h) * fade
        else:
            like_good = max(float(np.interp(path_c[i], *marks)), SLOWEST_C_H)
            rate = (now_c_h + like_good * ratio**fade) / 2
        path_c[i + 1] = min(path_c[i] + max(rate, SLOWEST_C_H) / STEPS_H, TEMP_C.highest)
    return path_c


def _rates_by_temp(
    good: FiringLog | None,
) -> tuple[Floats, Floats] | None:
    """How fast a good firing climbed at each temperature, over half hours."""
    if good is None:
        return None
    first, peak = float(good.hours[0]), good.peak_hours
    hours = np.arange(first, peak, SMOOTH_H)
    early, late = np.maximum(hours - SMOOTH_H, first), np.minimum(hours + SMOOTH_H, peak)
    temps = np.interp(hours, good.hours, good.temp_c)
    rates = np.interp(late, good.hours, good.temp_c) - np.interp(early, good.hours, good.temp_c)
    top = np.maximum.accumulate(temps)
    rising = np.flatnonzero(np.diff(top, prepend=-np.inf) > 0)
    if not rising.size:
        return None
    return temps[rising], (rates / (late - early))[rising]
