"""The honest sentence: which single change fits all pieces, or that none can be told.

Nothing here is a probability. A change is named only where every faulty piece
has it and no sound one, where nothing of another strand of the chain does the
same, and where enough pieces of both kinds were seen that chance is a poor
explanation.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import comb

from .changes import Change, Piece, Strand

CHANCE = 0.05
"""Above this chance of one value splitting the pieces by accident, nothing is said [ratio]."""


class Leaning(Enum):
    """What the counts allow to say."""

    LIKELY = "likely"
    CANNOT_TELL = "cannot tell"


class Reason(Enum):
    """Why nothing can be told."""

    TOLD = "told"
    NO_FAULTY = "no faulty piece"
    NO_SOUND = "no sound piece"
    SEVERAL = "several changes came together"
    NONE_FITS = "no single change fits all"
    TOO_FEW = "too few pieces"


@dataclass(frozen=True)
class Finding:
    """What can be said of a fault from the counts alone.

    Attributes
    ----------
    faulty, sound : int
        Pieces of each kind.
    leaning : Leaning
        Likely, or cannot tell.
    reason : Reason
        Why nothing can be told; ``TOLD`` where something can.
    fitting : tuple of Change
        All changes that fit every piece, best known first.
    strands : tuple of Strand
        The strands of the chain they belong to.
    chance : float
        How often a value that splits so many pieces would do so by accident,
        if faults fell at random on them [ratio]; 1 where nothing fits.
    """

    faulty: int
    sound: int
    leaning: Leaning
    reason: Reason
    fitting: tuple[Change, ...]
    strands: tuple[Strand, ...]
    chance: float


def chance_of_split(faulty: int, sound: int) -> float:
    """Chance that faults fall exactly on one given group of pieces.

    Parameters
    ----------
    faulty, sound : int
        Pieces of each kind.

    Returns
    -------
    float
        One in the number of ways to choose the faulty among all [ratio].
    """
    return 1 / comb(faulty + sound, faulty)


def find_change(pieces: Sequence[Piece], changes: Sequence[Change]) -> Finding:
    """Say which change fits all pieces, or why none can be named.

    Parameters
    ----------
    pieces : sequence of Piece
        All pieces of the glaze with a verdict.
    changes : sequence of Change
        Their counts, from :func:`count_changes`.

    Returns
    -------
    Finding
        Likely only where one strand alone fits and chance is at most
        ``CHANCE``; never more than likely.
    """
    faulty = sum(piece.faulty for piece in pieces)
    sound = len(pieces) - faulty
    fitting = tuple(c for c in changes if c.fits_all and c.known == len(pieces))
    strands = tuple(dict.fromkeys(change.strand for change in fitting))
    chance = chance_of_split(faulty, sound) if fitting else 1.0
    if not faulty:
        reason = Reason.NO_FAULTY
    elif not sound:
        reason = Reason.NO_SOUND
    elif not fitting:
        reason = Reason.NONE_FITS
    elif len(strands) > 1:
        reason = Reason.SEVERAL
    elif chance > CHANCE:
        reason = Reason.TOO_FEW
    else:
        reason = Reason.TOLD
    leaning = Leaning.LIKELY if reason is Reason.TOLD else Leaning.CANNOT_TELL
    return Finding(faulty, sound, leaning, reason, fitting, strands, chance)
