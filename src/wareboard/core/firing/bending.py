"""A cone half way down, read as a number.

Three ways to say how far a cone has gone are kept apart here:

``progress``
    the share of the heat-work that drops it: 0 as set, 1 when down.
``bend_deg``
    the angle between the upright and the straight line from the cone's foot to
    its tip. It is 8° as set and 90° when the tip is level with the top of the
    plaque, which is the end point of the charts.
``clock``
    where the *tip points*, read as the hour hand of a clock seen from the side
    to which the cone falls to the right: 12 as set, 3 level, 6 straight down. The
    tip turns about twice as far as the line from foot to tip, so the hours are
    equal steps of the bend from 8° to 90°.

Suppliers agree on the end point, the tip level with the plaque, but not on its
hour: one calls it 6 o'clock, a teacher 5, and many potters stop at 3. That is
why the hour is stored as seen and the reading carries that doubt.

Sources
-------
Bending under its own weight, ``dθ/dt ∝ k sin θ``, integrates to
``tan(θ/2) = tan 4° exp(c P)`` with c such that P is 1 at 90°. Cones stand at 8°
and end at 90°: the maker's words, as quoted in a potters' list (potters.org,
message 60350) and by two suppliers.
"""

from dataclasses import dataclass
from math import atan, degrees, exp, log, radians, tan

from wareboard.core.errors import ShapeError

SET_DEG = 8.0
DOWN_DEG = 90.0
UPRIGHT_CLOCK = 12.0
DOWN_CLOCK = 6.0
EARLY_DOWN_CLOCK = 5.0
FLAT_CLOCK = 9.0
READ_WITHIN_CLOCK = 0.5

_SET = tan(radians(SET_DEG / 2))
_STEEPNESS = -log(_SET)


@dataclass(frozen=True)
class ClockReading:
    """What an hour on the clock says about a cone.

    Attributes
    ----------
    progress : float
        Share of the heat-work that drops the cone.
    low, high : float or None
        Where that lies nine times in ten; no upper end once the tip may be down.
    caution : str
        What the page must say beside it.
    """

    progress: float
    low: float
    high: float | None
    caution: str


def progress_from_bend(bend_deg: float) -> float:
    """Heat-work share at a bend.

    Parameters
    ----------
    bend_deg : float
        From the upright to the line from foot to tip [°]; 8 to 90.

    Returns
    -------
    float
        0 at 8°, 1 at 90°.

    Raises
    ------
    ShapeError
        If the bend is outside 8 to 90°: past the plaque the angle says nothing.

    Examples
    --------
    >>> round(progress_from_bend(45), 3)
    0.669
    """
    if not SET_DEG <= bend_deg <= DOWN_DEG:
        raise ShapeError(
            f"A cone bends from {SET_DEG:g}° as set to {DOWN_DEG:g}° when down, not {bend_deg:g}°.",
            field="bend_deg",
            seen=bend_deg,
            accepted=f"{SET_DEG:g} to {DOWN_DEG:g}°",
        )
    return log(tan(radians(bend_deg / 2)) / _SET) / _STEEPNESS


def bend_from_progress(progress: float) -> float:
    """Bend of a cone [°] from its heat-work share; 90° from 1 upwards.

    Parameters
    ----------
    progress : float
        Share of the heat-work that drops the cone, 0 or more.

    Raises
    ------
    ShapeError
        If the share is negative.
    """
    if not progress >= 0:
        raise ShapeError(
            f"A cone cannot have {progress:g} of its heat-work.",
            field="progress",
            seen=progress,
            accepted="0 or more",
        )
    return degrees(2 * atan(_SET * exp(_STEEPNESS * min(progress, 1.0))))


def degrees_short_c(bend_deg: float, span_c: float) -> float:
    """How far short of its end point a bent cone is, as if at 60 °C/h [°C].

    Parameters
    ----------
    bend_deg : float
        Its bend [°], above 8 and up to 90.
    span_c : float
        Degrees for an e-fold rate just below its end point [°C].

    Raises
    ------
    ShapeError
        If the cone still stands as set, or the bend cannot be.
    """
    progress = progress_from_bend(bend_deg)
    if progress == 0:
        raise ShapeError(
            "A cone that stands as set says only that it has far to go.",
            field="bend_deg",
            seen=bend_deg,
            accepted=f"more than {SET_DEG:g} and up to {DOWN_DEG:g}°",
        )
    return -span_c * log(progress)


def bend_from_clock(clock: float, *, down_clock: float = DOWN_CLOCK) -> float:
    """Bend of a cone [°] from the hour its tip points to.

    Parameters
    ----------
    clock : float
        12 (or 0) as set, then 1, 2, 3 and on.
    down_clock : float
        The hour at which whoever read it calls the tip level with the plaque.

    Returns
    -------
    float
        8° at 12 o'clock, 90° from the end hour on, equal steps between.

    Raises
    ------
    ShapeError
        If the hour is not on the way down, 12 to 9 o'clock.
    """
    hour = 0.0 if clock == UPRIGHT_CLOCK else clock
    if not 0 <= hour <= FLAT_CLOCK:
        raise ShapeError(
            f"A cone's tip goes from 12 o'clock down to 6 or past it, not to {clock:g} o'clock.",
            field="clock",
            seen=clock,
            accepted="12, or 0 to 9",
        )
    return SET_DEG + (DOWN_DEG - SET_DEG) * min(hour / down_clock, 1.0)


def clock_from_bend(bend_deg: float) -> float:
    """Give the hour a cone's tip points to at a bend, 6 being the end; 0 stands for 12."""
    return DOWN_CLOCK * (bend_deg - SET_DEG) / (DOWN_DEG - SET_DEG)


def read_clock(clock: float) -> ClockReading:
    """Turn the hour a tip points to into progress with its doubt.

    Parameters
    ----------
    clock : float
        12 (or 0) as set, then 1, 2, 3 and on.

    Returns
    -------
    ClockReading
        The middle takes 6 o'clock as the end. The doubt reaches from half an
        hour less on that dial to half an hour more on one that ends at 5.

    Raises
    ------
    ShapeError
        If the hour is not on the way down.
    """
    middle = progress_from_bend(bend_from_clock(clock))
    hour = 0.0 if clock == UPRIGHT_CLOCK else clock
    least = progress_from_bend(bend_from_clock(max(hour - READ_WITHIN_CLOCK, 0.0)))
    later = min(hour + READ_WITHIN_CLOCK, FLAT_CLOCK)
    if later >= EARLY_DOWN_CLOCK:
        return ClockReading(
            middle,
            least,
            None,
            "The tip may be level with the plaque: some call that 5 o'clock, others 6. "
            "How far past it the cone is cannot be seen.",
        )
    most = progress_from_bend(bend_from_clock(later, down_clock=EARLY_DOWN_CLOCK))
    return ClockReading(
        middle,
        least,
        most,
        "The hour is where the tip points, 12 as set; the end is 6 o'clock to some and 5 to "
        "others, and the doubt covers both.",
    )
