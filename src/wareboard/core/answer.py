"""What a calculation gives back: the result, its doubt, and how it came about.

``result`` is a frozen dataclass whose field names carry the units; the command
line prints these names, the pages put them into sentences. The rest is what a
person needs in order to trust it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Generic, TypeVar

Result = TypeVar("Result")


@dataclass(frozen=True)
class Interval:
    """Where a value lies nine times in ten.

    Attributes
    ----------
    low, high : float
        Ends of the 90 % interval [unit of the value it belongs to].
    basis : str
        What the doubt comes from, in words.
    """

    low: float
    high: float
    basis: str


@dataclass(frozen=True)
class Answer(Generic[Result]):
    """A result with its doubt, its working, its cautions and its sources.

    Attributes
    ----------
    result : Result
        Frozen dataclass; a field that cannot be worked out is None.
    doubt : mapping of str to Interval
        For each uncertain field of the result, its 90 % interval.
    working : tuple of str
        The arithmetic in one line or a few, for people.
    cautions : tuple of str
        What a page must show beside the result.
    sources : tuple of str
        Keys of the sources it rests on.
    """

    result: Result
    doubt: Mapping[str, Interval] = field(default_factory=dict)
    working: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
