"""Counting which values of which attributes go with a fault.

A *piece* is a pot as far as one glaze is on it, with a verdict. Its attributes
are what the record knows of it: the lot of each line, batch, bucket, reading,
coat, layer beneath, place, firing, start of reduction, cone, body. For every
value of every attribute the faulty and the sound pieces with it and without it
are counted; a piece of which an attribute is not known is in neither count.

Attributes belong to *strands*: what came into the bucket, how it went onto the
pot, where it stood, what the fire did, what it stood on. Lot, batch and bucket
come together, so they can seldom be told apart and need not be; a change in
the fire that came on the same day as a new batch is another matter.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

REMEMBERED_WEIGHT = 0.5
"""How much a piece counts whose facts are remembered [of a recorded one]; common practice."""


class Strand(Enum):
    """Which part of the chain an attribute belongs to."""

    MIX = "mix"
    COAT = "coat"
    PLACE = "place"
    FIRE = "fire"
    CLAY = "clay"


@dataclass(frozen=True)
class Piece:
    """A pot as far as one glaze is on it.

    Attributes
    ----------
    id : str
        The pot.
    faulty : bool
        Whether the fault was seen on this glaze; else it was judged and not seen.
    attributes : mapping of str to str
        What is known of it; an attribute that is not known is left out.
    remembered : bool
        Whether a fact of it is remembered rather than recorded.
    """

    id: str
    faulty: bool
    attributes: Mapping[str, str]
    remembered: bool = False

    @property
    def weight(self) -> float:
        """How much it counts in the order of suspects [of a recorded piece]."""
        return REMEMBERED_WEIGHT if self.remembered else 1.0


@dataclass(frozen=True)
class Change:
    """One value of one attribute, held against the fault.

    Attributes
    ----------
    attribute, value : str
        Which value of what.
    strand : Strand
        Part of the chain it belongs to.
    faulty_with, sound_with, faulty_without, sound_without : int
        Pieces in each corner of the table.
    for_, against : tuple of str
        Pieces that speak for it (faulty with, sound without) and against it.
    separation : float
        Share of faulty pieces with it, less the share of sound pieces with it,
        remembered pieces counting less: 1 separates completely, 0 not at all.
    same_as : tuple of (str, str)
        Other attributes and values that split the pieces identically.
    """

    attribute: str
    value: str
    strand: Strand
    faulty_with: int
    sound_with: int
    faulty_without: int
    sound_without: int
    for_: tuple[str, ...]
    against: tuple[str, ...]
    separation: float
    same_as: tuple[tuple[str, str], ...] = ()

    @property
    def known(self) -> int:
        """Pieces of which the attribute is known."""
        return self.faulty_with + self.sound_with + self.faulty_without + self.sound_without

    @property
    def fits_all(self) -> bool:
        """Whether every faulty piece has it and no sound one, and both kinds were seen."""
        return (
            self.faulty_with > 0
            and self.sound_without > 0
            and self.sound_with == 0
            and self.faulty_without == 0
        )


def _share(part: Sequence[Piece], whole: Sequence[Piece]) -> float:
    total = sum(piece.weight for piece in whole)
    return sum(piece.weight for piece in part) / total if total else 0.0


def _count(attribute: str, value: str, strand: Strand, known: Sequence[Piece]) -> Change:
    faulty = [p for p in known if p.faulty]
    sound = [p for p in known if not p.faulty]
    faulty_with = [p for p in faulty if p.attributes[attribute] == value]
    sound_with = [p for p in sound if p.attributes[attribute] == value]
    speaks_for = [p.id for p in known if p.faulty == (p.attributes[attribute] == value)]
    against = [p.id for p in known if p.faulty != (p.attributes[attribute] == value)]
    return Change(
        attribute=attribute,
        value=value,
        strand=strand,
        faulty_with=len(faulty_with),
        sound_with=len(sound_with),
        faulty_without=len(faulty) - len(faulty_with),
        sound_without=len(sound) - len(sound_with),
        for_=tuple(sorted(speaks_for)),
        against=tuple(sorted(against)),
        separation=_share(faulty_with, faulty) - _share(sound_with, sound),
    )


def count_changes(pieces: Sequence[Piece], strands: Mapping[str, Strand]) -> tuple[Change, ...]:
    """Count every value of every attribute against the fault.

    Parameters
    ----------
    pieces : sequence of Piece
        All pieces of the glaze with a verdict.
    strands : mapping of str to Strand
        The attributes to look at, each with its part of the chain.

    Returns
    -------
    tuple of Change
        Those that separate best first, among equals those known of more
        pieces, then in the order of ``strands``. Values that split the pieces
        identically name each other in ``same_as``.

    Raises
    ------
    KeyError
        Never: an attribute that no piece knows has no values to count.
    """
    order = {attribute: place for place, attribute in enumerate(strands)}
    counted: list[Change] = []
    splits: dict[tuple[frozenset[str], frozenset[str]], list[Change]] = {}
    for attribute, strand in strands.items():
        known = [p for p in pieces if attribute in p.attributes]
        for value in sorted({p.attributes[attribute] for p in known}):
            change = _count(attribute, value, strand, known)
            counted.append(change)
            having = frozenset(p.id for p in known if p.attributes[attribute] == value)
            splits.setdefault((having, frozenset(p.id for p in known)), []).append(change)
    found = []
    for alike in splits.values():
        for change in alike:
            same = tuple((o.attribute, o.value) for o in alike if o is not change)
            found.append(Change(**{**change.__dict__, "same_as": same}))
    return tuple(
        sorted(found, key=lambda c: (-c.separation, -c.known, order[c.attribute], c.value))
    )
