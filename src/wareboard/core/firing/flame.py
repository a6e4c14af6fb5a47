"""What the flame was said to be, line by line.

The words are the potter's own, given by whoever calls; here they are only
counted.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True)
class FlameLine:
    """One line of a firing log that says how the flame was.

    Attributes
    ----------
    hours : float
        When [h].
    temp_c : float or None
        Temperature then [°C]; None where it was not read.
    word : str
        How the flame was.
    """

    hours: float
    temp_c: float | None
    word: str


def reduction_start(lines: Iterable[FlameLine], reducing: Collection[str]) -> FlameLine | None:
    """Find where reduction began: the first line with a word for it.

    Parameters
    ----------
    lines : iterable of FlameLine
        In any order.
    reducing : collection of str
        The words that mean reduction.

    Returns
    -------
    FlameLine or None
        None if no line has such a word.
    """
    found = [line for line in lines if line.word in reducing]
    return min(found, key=lambda line: line.hours, default=None)


def hours_with(lines: Iterable[FlameLine], words: Collection[str], *, until_hours: float) -> float:
    """Add up the hours under some flame words; each holds until the next line.

    Parameters
    ----------
    lines : iterable of FlameLine
        In any order.
    words : collection of str
        The words that count.
    until_hours : float
        Where the last word ends [h]: shut-off, or now.
    """
    ordered = sorted(lines, key=lambda line: line.hours)
    ends = [*ordered, FlameLine(until_hours, None, "")]
    return sum(
        max(min(after.hours, until_hours) - line.hours, 0.0)
        for line, after in pairwise(ends)
        if line.word in words
    )
