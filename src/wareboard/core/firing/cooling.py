"""How fast a kiln did cool, read off its log.

Only what the log holds is said here; what it does not reach yet is no number.
"""

from collections.abc import Iterable, Mapping

from wareboard.core.arrays import np
from wareboard.core.firing.log import FiringLog


def hours_to_fall(
    log: FiringLog, to_c: Iterable[float], *, shut_off_hours: float | None = None
) -> Mapping[float, float | None]:
    """Hours from shut-off until the kiln was down to each temperature.

    Parameters
    ----------
    log : FiringLog
        The firing, cooling included.
    to_c : iterable of float
        Temperatures asked for [°C].
    shut_off_hours : float, optional
        When the burners went out [h]; the last instant at the highest
        temperature where not given.

    Returns
    -------
    mapping of float to float or None
        Hours [h] to the first instant at or below it; None where the log ends
        before that.

    Raises
    ------
    LogError
        If the shut-off lies outside the log.
    """
    start = log.peak_hours if shut_off_hours is None else shut_off_hours
    log.until(start)
    after = log.since(start)
    return {temp_c: _first_at_or_below(after, temp_c) for temp_c in to_c}


def hours_between(log: FiringLog, warm_c: float, cool_c: float) -> float | None:
    """Hours the kiln took to fall from one temperature to another, after its peak.

    Parameters
    ----------
    log : FiringLog
        The firing, cooling included.
    warm_c, cool_c : float
        From and to [°C].

    Returns
    -------
    float or None
        Hours [h]; None where the log does not hold both.
    """
    if log.temp_c[log.peak] < warm_c:
        return None
    falls = hours_to_fall(log, (warm_c, cool_c))
    from_h, to_h = falls[warm_c], falls[cool_c]
    return None if from_h is None or to_h is None else to_h - from_h


def _first_at_or_below(log: FiringLog, temp_c: float) -> float | None:
    """Hours from the first line to the first instant at or below a temperature."""
    low = np.flatnonzero(log.temp_c <= temp_c)
    if not low.size:
        return None
    at = int(low[0])
    if at == 0:
        return 0.0
    warm, cool = log.temp_c[at - 1], log.temp_c[at]
    share = (warm - temp_c) / (warm - cool)
    passed = log.hours[at - 1] + share * (log.hours[at] - log.hours[at - 1])
    return float(passed - log.hours[0])
