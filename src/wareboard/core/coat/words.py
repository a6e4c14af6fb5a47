"""Thin, as usual or thick, against the good pots of this glaze and nobody else's.

What is thin for one glaze runs on another, so there is no general figure to
fall back on: under three good pots the answer is "not known yet". The scatter
between pots of one glaze does not shrink with their number, so "as usual" is
a band, from the fifth to the ninety-fifth of a hundred good pots; up to
eighteen pots that is from the thinnest to the thickest.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from wareboard.core.answer import Answer
from wareboard.core.bounds import within
from wareboard.core.doubt import around
from wareboard.core.errors import ShapeError
from wareboard.core.units import LENGTH_MM

FEWEST_GOOD = 3
"""Good pots needed before a coat has a word."""

LOW_SHARE = 0.05
HIGH_SHARE = 0.95

_MM = replace(
    LENGTH_MM, name="coat", highest=100.0, words="millimetres above 0 and up to 100, such as 0.6"
)
_DOUBT_MM = replace(
    _MM, name="doubt of the coat", above=False, words="millimetres from 0 to 100, such as 0.1"
)


class CoatWord(StrEnum):
    """How a coat stands against this glaze's own good pots."""

    THIN = "thin"
    AS_USUAL = "as usual"
    THICK = "thick"
    NOT_KNOWN = "not known yet"


@dataclass(frozen=True)
class OwnBand:
    """A coat against this glaze's own good pots.

    Attributes
    ----------
    word : CoatWord
        Thin, as usual, thick, or not known yet.
    good_pots : int
        How many good pots the word rests on.
    usual_low_mm, usual_high_mm : float or None
        Band of the good pots [mm]; None while there are too few.
    """

    word: CoatWord
    good_pots: int
    usual_low_mm: float | None
    usual_high_mm: float | None


def check_coat_mm(coat_mm: float, *, field: str = "coat-mm") -> float:
    """Give a thickness back, or refuse it with a ShapeError."""
    return within(coat_mm, _MM, field=field, error=ShapeError)


def check_doubt_mm(doubt_mm: float, *, field: str = "doubt-mm") -> float:
    """Give half an interval back, or refuse it with a ShapeError."""
    return within(doubt_mm, _DOUBT_MM, field=field, error=ShapeError)


def _percentile(ordered: Sequence[float], share: float) -> float:
    """Value below which that share of further pots is expected to lie.

    The k-th of n stands at k / (n + 1); outside the pots given, the nearest.
    """
    rank = share * (len(ordered) + 1) - 1.0
    below = min(max(math.floor(rank), 0), len(ordered) - 1)
    above = min(below + 1, len(ordered) - 1)
    part = min(max(rank - below, 0.0), 1.0)
    return ordered[below] + part * (ordered[above] - ordered[below])


def coat_words(
    coat_mm: float, good_mm: Sequence[float], *, doubt_mm: float = 0.0
) -> Answer[OwnBand]:
    """Say thin, as usual or thick against the good pots of the same glaze.

    Parameters
    ----------
    coat_mm : float
        Dry coat of the pot asked about [mm].
    good_mm : sequence of float
        Dry coats of this glaze's good pots [mm].
    doubt_mm : float
        Half of the 90 % interval of `coat_mm` [mm]; what lies within it of
        the band counts as usual.

    Returns
    -------
    Answer of OwnBand
        The word, how many pots it rests on, and their band.

    Raises
    ------
    ShapeError
        If a thickness cannot be.
    """
    check_coat_mm(coat_mm)
    check_doubt_mm(doubt_mm)
    ordered = sorted(check_coat_mm(good, field="good-mm") for good in good_mm)
    count = len(ordered)
    if count < FEWEST_GOOD:
        return Answer(
            OwnBand(CoatWord.NOT_KNOWN, count, None, None),
            working=(f"{coat_mm:.2f} mm; usual ({count}).",),
            cautions=(f"A word needs {FEWEST_GOOD} good pots of this very glaze, weighed.",),
        )
    low = _percentile(ordered, LOW_SHARE)
    high = _percentile(ordered, HIGH_SHARE)
    word = CoatWord.AS_USUAL
    if coat_mm + doubt_mm < low:
        word = CoatWord.THIN
    elif coat_mm - doubt_mm > high:
        word = CoatWord.THICK
    widened = f"usual ({count})"
    return Answer(
        OwnBand(word, count, low, high),
        doubt={
            "usual_low_mm": around(low, doubt_mm, widened, lowest=0.0),
            "usual_high_mm": around(high, doubt_mm, widened, lowest=0.0),
        },
        working=(f"{coat_mm:.2f} mm against {low:.2f} to {high:.2f} mm, usual ({count}).",),
    )
