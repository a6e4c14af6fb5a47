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

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
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
    FORM = "form"


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
class Split:
    """Which pieces have a value, of those whose attribute is known.

    Attributes
    ----------
    having : frozenset of str
        Pieces that have it.
    faulty, sound : frozenset of str
        Pieces of each kind of which the attribute is known.
    """

    having: frozenset[str]
    faulty: frozenset[str]
    sound: frozenset[str]


@dataclass(frozen=True)
class Change:
    """One value of one attribute, held against the fault.

    Attributes
    ----------
    attribute, value : str
        Which value of what.
    strand : Strand
        Part of the chain it belongs to.
    split : Split
        The pieces behind it.
    separation : float
        Share of faulty pieces with it, less the share of sound pieces with it,
        remembered pieces counting less: 1 separates completely, 0 not at all.
    same_as : tuple of (str, str)
        Other attributes and values that split the pieces identically.
    """

    attribute: str
    value: str
    strand: Strand
    split: Split
    separation: float
    same_as: tuple[tuple[str, str], ...] = ()

    @property
    def faulty_with(self) -> int:
        """Faulty pieces that have it."""
        return len(self.split.faulty & self.split.having)

    @property
    def sound_with(self) -> int:
        """Sound pieces that have it."""
        return len(self.split.having) - self.faulty_with

    @property
    def faulty_without(self) -> int:
        """Faulty pieces that lack it."""
        return len(self.split.faulty) - self.faulty_with

    @property
    def sound_without(self) -> int:
        """Sound pieces that lack it."""
        return len(self.split.sound) - self.sound_with

    @property
    def for_(self) -> tuple[str, ...]:
        """Pieces that speak for it: faulty with it, sound without."""
        split = self.split
        return tuple(sorted((split.faulty & split.having) | (split.sound - split.having)))

    @property
    def against(self) -> tuple[str, ...]:
        """Pieces that speak against it: sound with it, faulty without."""
        split = self.split
        return tuple(sorted((split.sound & split.having) | (split.faulty - split.having)))

    @property
    def known(self) -> int:
        """Pieces of which the attribute is known."""
        return len(self.split.faulty) + len(self.split.sound)

    @property
    def fits_all(self) -> bool:
        """Whether every faulty piece has it and no sound one, and both kinds were seen."""
        return (
            self.faulty_with > 0
            and self.sound_without > 0
            and self.sound_with == 0
            and self.faulty_without == 0
        )


def _weight(pieces: Iterable[Piece]) -> float:
    return sum(piece.weight for piece in pieces)


def _count(attribute: str, strand: Strand, pieces: Sequence[Piece]) -> Iterator[Change]:
    """Hold every value of one attribute against the fault, in one pass over the pieces."""
    known = [p for p in pieces if attribute in p.attributes]
    faulty, sound = [p for p in known if p.faulty], [p for p in known if not p.faulty]
    all_faulty, all_sound = _weight(faulty) or 1.0, _weight(sound) or 1.0
    ids = frozenset(p.id for p in faulty), frozenset(p.id for p in sound)
    by_value: dict[str, list[Piece]] = {}
    for piece in known:
        by_value.setdefault(piece.attributes[attribute], []).append(piece)
    for value, having in by_value.items():
        of_faulty = _weight(p for p in having if p.faulty) / all_faulty
        of_sound = _weight(p for p in having if not p.faulty) / all_sound
        split = Split(frozenset(p.id for p in having), *ids)
        yield Change(attribute, value, strand, split, of_faulty - of_sound)


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
    splits: dict[Split, list[Change]] = {}
    for attribute, strand in strands.items():
        for change in _count(attribute, strand, pieces):
            splits.setdefault(change.split, []).append(change)
    found = []
    for alike in splits.values():
        for change in alike:
            same = tuple((o.attribute, o.value) for o in alike if o is not change)
            found.append(replace(change, same_as=same))
    return tuple(
        sorted(found, key=lambda c: (-c.separation, -c.known, order[c.attribute], c.value))
    )
