"""How the errors of what was measured reach what is worked out.

A half width here is half of a 90 % interval: nine times in ten the value lies
within it. Errors that know nothing of each other are added as the sides of a
right angle.

Sources
-------
The factors of Student's distribution stand in any table of it; they are
checked in the tests by integrating the distribution.
"""

import math
from collections.abc import Callable, Mapping, Sequence

from wareboard.core.answer import Interval

NORMAL_90 = 1.645
"""Half width of a 90 % interval in standard deviations of a normal error."""

STUDENT_90 = (
    6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812,
    1.796, 1.782, 1.771, 1.761, 1.753, 1.746, 1.740, 1.734, 1.729, 1.725,
    1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697,
)  # fmt: skip
"""The same with a spread that is itself estimated, for 1 to 30 degrees of freedom."""


def student_90(freedom: int) -> float:
    """Half width of a 90 % interval in estimated standard deviations.

    Parameters
    ----------
    freedom : int
        Degrees of freedom, at least 1.

    Returns
    -------
    float
        Factor; from 30 degrees on that of 30, which errs to the wide side.
    """
    return STUDENT_90[min(freedom, len(STUDENT_90)) - 1]


def together(half_widths: Sequence[float]) -> float:
    """Add half widths of errors that know nothing of each other."""
    return math.hypot(*half_widths)


def reach(
    work_out: Callable[..., float],
    given: Mapping[str, float],
    half_widths: Mapping[str, float],
) -> float:
    """Carry the half widths of what was given through a calculation.

    Parameters
    ----------
    work_out : callable
        Takes the names of `given` as keywords. It must not refuse a value
        just outside its range.
    given : mapping of str to float
        What was measured.
    half_widths : mapping of str to float
        Half width of each uncertain one [its own unit].

    Returns
    -------
    float
        Half width of the result [its own unit].
    """
    return together(
        [
            (
                work_out(**{**given, name: given[name] + half})
                - work_out(**{**given, name: given[name] - half})
            )
            / 2
            for name, half in half_widths.items()
        ]
    )


def around(
    value: float,
    half_width: float,
    basis: str,
    *,
    lowest: float = -math.inf,
    highest: float = math.inf,
) -> Interval:
    """Give the interval around a value, cut where the value cannot go.

    Parameters
    ----------
    value, half_width : float
        Middle and half width [unit of the value].
    basis : str
        What the doubt comes from, in words.
    lowest, highest : float
        Where the quantity ends by nature [unit of the value].

    Returns
    -------
    Interval
        Always holds the value itself.
    """
    half = abs(half_width)
    return Interval(max(value - half, lowest), min(value + half, highest), basis)
