"""The honest sentence: which single change fits all pieces, or that none can be told.

Nothing here is a probability. A change is named only where every faulty piece
has it and no sound one, where nothing of another strand of the chain does the
same, and where enough pieces of both kinds were seen that chance is a poor
explanation.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from math import comb, floor

from .changes import Change, Piece, Strand, count_changes

CHANCE = 0.05
"""Above this chance of one value splitting the pieces by accident, nothing is said [ratio]."""

RARE = 1000
"""Beyond one time in so many nothing is said: pieces of one load are too much alike for it."""


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
    REMEMBERED = "rests on what is remembered"


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
        if faults fell at random on them [ratio]; 1 where nothing fits. Once a
        change is likely, remembered pieces are left out of it.
    tried : int
        Differences looked at that part those pieces into groups of these
        sizes, what parts them identically taken as one.
    remembered : int
        Pieces of which something is only remembered.
    """

    faulty: int
    sound: int
    leaning: Leaning
    reason: Reason
    fitting: tuple[Change, ...]
    strands: tuple[Strand, ...]
    chance: float
    tried: int
    remembered: int

    @property
    def chance_of_any(self) -> float:
        """How often one of the differences looked at would fit by accident [ratio].

        If faults fall at random on as many pieces, at most one of the groups
        tried is hit: their chances add up exactly.
        """
        return min(self.tried * self.chance, 1.0)


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


def one_time_in(chance: float) -> int:
    """Say a chance as one time in so many, rounded down to what can be stood by.

    Parameters
    ----------
    chance : float
        How often [ratio].

    Returns
    -------
    int
        At least 1, at most ``RARE``; from ten on a single digit and noughts.
    """
    times = min(floor(round(1 / chance, 6)), RARE)
    size = int(10 ** (len(str(times)) - 1))
    return times // size * size


def side_by_side(pieces: Sequence[Piece], same: Sequence[str]) -> tuple[str, ...] | None:
    """Find a faulty and a sound piece that were alike in some attributes.

    Parameters
    ----------
    pieces : sequence of Piece
        All pieces of the glaze with a verdict.
    same : sequence of str
        Attributes that must be known and alike, such as firing and place.

    Returns
    -------
    tuple of str or None
        Their values, of the last such pair; None if there is none.
    """
    stood: dict[bool, list[tuple[str, ...]]] = {True: [], False: []}
    for piece in pieces:
        if all(attribute in piece.attributes for attribute in same):
            stood[piece.faulty].append(tuple(piece.attributes[attribute] for attribute in same))
    shared = [values for values in stood[True] if values in stood[False]]
    return shared[-1] if shared else None


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
        ``CHANCE``, also on the recorded pieces alone; never more than likely.
    """
    finding = _weigh(pieces, changes)
    recorded = [piece for piece in pieces if not piece.remembered]
    if finding.reason is not Reason.TOLD or len(recorded) == len(pieces):
        return finding
    strands = {change.attribute: change.strand for change in changes}
    alone = _weigh(recorded, count_changes(recorded, strands))
    if alone.reason is Reason.TOLD:
        return replace(finding, chance=alone.chance, tried=alone.tried)
    return replace(finding, leaning=Leaning.CANNOT_TELL, reason=Reason.REMEMBERED)


def _weigh(pieces: Sequence[Piece], changes: Sequence[Change]) -> Finding:
    """Say the same, all pieces counting alike."""
    faulty = sum(piece.faulty for piece in pieces)
    sound = len(pieces) - faulty
    fitting = tuple(c for c in changes if c.fits_all and c.known == len(pieces))
    strands = tuple(dict.fromkeys(change.strand for change in fitting))
    chance = chance_of_split(faulty, sound) if fitting else 1.0
    groups = {c.split.having for c in changes if c.known == len(pieces)}
    tried = sum(len(group) == faulty for group in groups)
    remembered = sum(piece.remembered for piece in pieces)
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
    return Finding(faulty, sound, leaning, reason, fitting, strands, chance, tried, remembered)
