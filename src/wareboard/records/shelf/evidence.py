"""What the record knows of every judged pot of one glaze, gathered in a few queries.

A *piece* here is a pot as far as one glaze is on it; where the glaze came from
one bucket inside and from another outside, each surface is a piece of its own.
Only surfaces that this glaze covers are asked about; a verdict on the whole pot
counts for them unless it is bad for another reason: a burst pot says nothing
about pinholes.
"""

from collections.abc import Collection, Container, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import NamedTuple

from django.db.models import Exists, Max, OuterRef, QuerySet

from wareboard.records.glazes.bridge import Weighed
from wareboard.records.glazes.models import Batch, BatchLine, BucketEvent, Glaze
from wareboard.records.kiln.models import ConeReading, Placing
from wareboard.records.kiln.queries import cones_of_firings, firings_of_many
from wareboard.records.people.entry import Entry
from wareboard.records.people.models import Member
from wareboard.records.ware.books import dips_of, glaze_id_of
from wareboard.records.ware.bridge import WorkedCoat, regions_of, shapes_for, stack_of
from wareboard.records.ware.models import Coat, Pot
from wareboard.records.ware.past_coats import (
    PastBooks,
    PastReading,
    known_coats,
    known_pots,
    pots_with,
)
from wareboard.records.ware.words import Side

from .bags import names_of_bags
from .models import Fault, Verdict
from .words import FaultWord, Surface, Thumb

MOST = 1_500
"""Pots of one glaze that are held against each other, the newest; older ones tell of older days."""

SURFACES = {
    Side.INSIDE: (Surface.INSIDE,),
    Side.OUTSIDE: (Surface.OUTSIDE,),
    Side.BOTH: (Surface.INSIDE, Surface.OUTSIDE),
}


class Judged(NamedTuple):
    """What a verdict says of a surface; its faults are looked up by its id."""

    pk: str
    pot_id: str
    surface: str
    thumb: str
    remembered: str
    at: datetime


JUDGED = ("pk", "pot_id", "surface", "thumb", "remembered", "at")


@dataclass
class GlazedPot:
    """One pot, or one surface of it, with its coats of one glaze and how they came out.

    Attributes
    ----------
    pot : Pot
        The pot.
    surface : str
        Which surface, where the glaze came from different buckets on each;
        empty for the pot as a whole.
    coats : list of Coat
        Its coats of this glaze, in order.
    all_coats : list of Coat
        All its coats, in order.
    batches : list of Batch
        What was in their buckets when they were dipped, base batches last.
    lines : list of BatchLine
        What went into those batches, with its lots.
    reading : Weighed or None
        The bucket's reading in force.
    placing : Placing or None
        Where it stood in the firing that the verdicts speak of.
    cones : list of ConeReading
        The cold pack of its shelf.
    verdicts : list of Judged
        What was said of it.
    faulty : bool
        Whether the fault was seen on this glaze.
    coat_mm : float or None
        The most that lies on this glaze's surfaces, other glazes included [mm].
    worked : dict of str to float or None
        Thickness of each of its coats [mm].
    events : list of BucketEvent
        What went into its buckets before it was dipped.
    bags : mapping of str to str
        What each lot of the studio is called, by its id.
    """

    pot: Pot
    surface: str = ""
    coats: list[Coat] = field(default_factory=list)
    all_coats: list[Coat] = field(default_factory=list)
    batches: list[Batch] = field(default_factory=list)
    lines: list[BatchLine] = field(default_factory=list)
    reading: Weighed | None = None
    placing: Placing | None = None
    cones: list[ConeReading] = field(default_factory=list)
    verdicts: list[Judged] = field(default_factory=list)
    faulty: bool = False
    coat_mm: float | None = None
    worked: dict[str, float | None] = field(default_factory=dict)
    events: list[BucketEvent] = field(default_factory=list)
    bags: Mapping[str, str] = field(default_factory=dict)

    @property
    def surfaces(self) -> set[str]:
        """Surfaces that this glaze covers."""
        covered: set[str] = {
            surface for coat in self.coats for surface in SURFACES[Side(coat.side)]
        }
        return covered & {self.surface} if self.surface else covered

    @property
    def id(self) -> str:
        """The pot, and which surface of it if only one is meant."""
        return f"{self.pot.pk}, {self.surface}" if self.surface else self.pot.pk

    @property
    def remembered(self) -> bool:
        """Whether something of it is remembered rather than recorded."""
        facts: tuple[Entry | Judged, ...] = (
            *self.coats,
            *self.verdicts,
            *self.batches,
            *self.events,
            *self.cones,
        )
        weighed = isinstance(self.reading, PastReading) and bool(self.reading.remembered)
        placed = self.placing is not None and bool(self.placing.remembered)
        told = any(fact.remembered for fact in facts)
        return weighed or placed or told or bool(self.pot.remembered)


@dataclass(frozen=True)
class Evidence:
    """The judged pots of a glaze.

    Attributes
    ----------
    pieces : sequence of GlazedPot
        Oldest verdict first.
    newest_only : bool
        Whether there were too many, and older ones are left out.
    """

    pieces: Sequence[GlazedPot]
    newest_only: bool


def verdicts_as_of(member: Member, until: datetime | None) -> QuerySet[Verdict]:
    """Give the verdicts in force at an instant: what corrected them later does not count yet."""
    if until is None:
        return Verdict.objects.current().filter(studio=member.studio_id)
    later = Verdict.objects.standing().filter(corrects=OuterRef("pk"), at__lte=until)
    told = Verdict.objects.standing().filter(studio=member.studio_id, at__lte=until)
    return told.filter(~Exists(later))


def fault_on(
    surfaces: Collection[str], verdicts: Iterable[Judged], with_fault: Container[str]
) -> bool | None:
    """Say whether a fault was seen on some surfaces of a pot; None where they were not judged.

    Parameters
    ----------
    surfaces : collection of str
        Those that a glaze covers.
    verdicts : iterable of Judged
        On the pot.
    with_fault : container of str
        Ids of the verdicts that name the fault.
    """
    judged = faulty = False
    for verdict in verdicts:
        here = verdict.surface in surfaces
        if not here and verdict.surface != Surface.WHOLE:
            continue
        has_fault = verdict.pk in with_fault
        faulty = faulty or has_fault
        judged = judged or here or has_fault or verdict.thumb != Thumb.DOWN
    return faulty if judged else None


def _most_on(piece: GlazedPot, worked: Sequence[WorkedCoat]) -> float | None:
    """Give the most that lies where this glaze is, if every coat there was weighed [mm]."""
    mine = frozenset().union(*(regions_of(coat) for coat in piece.coats))
    if piece.surface:
        mine &= {piece.surface}
    there = [one for one in worked if regions_of(one.coat) & mine]
    if any(one.thickness_mm is None for one in there):
        return None
    places = stack_of(there).result.places
    return max((place.total_mm for place in places if place.region in mine), default=None)


def fired_before(
    placings: Sequence[Placing], verdicts: Sequence[Judged], with_fault: Container[str]
) -> Placing | None:
    """Give the placing that verdicts speak of: of the last firing lit before them.

    A fault belongs to the firing after which it was first seen; without one
    the last verdict counts.

    Parameters
    ----------
    placings : sequence of Placing
        Of one pot, the first lit first.
    verdicts : sequence of Judged
        On the pot, the first one first.
    with_fault : container of str
        Ids of the verdicts that name the fault.
    """
    seen = [verdict for verdict in verdicts if verdict.pk in with_fault]
    told_at = seen[0].at if seen else verdicts[-1].at
    return next((one for one in reversed(placings) if one.lit_at <= told_at), None)


def _stood(member: Member, judged: Sequence[GlazedPot], with_fault: Container[str]) -> None:
    """Say of every piece where it stood in the fire, and how the cones of that shelf fell."""
    placings = firings_of_many(member, [piece.pot.pk for piece in judged])
    for piece in judged:
        stood = placings.get(piece.pot.pk, ())
        piece.placing = fired_before(stood, piece.verdicts, with_fault)
    cones = cones_of_firings({p.placing.firing_id for p in judged if p.placing})
    for piece in judged:
        if piece.placing is not None and piece.placing.place is not None:
            piece.cones = cones.get((piece.placing.firing_id, piece.placing.place.level), [])


def _sources(coats: Sequence[Coat], books: PastBooks) -> Mapping[Hashable, list[Batch]]:
    """Give what was in the buckets that coats came from, by bucket and batches."""
    found: dict[Hashable, list[Batch]] = {}
    for coat in coats:
        inside = books.batches_at(coat.bucket_id, coat.at) if coat.bucket_id else []
        found[coat.bucket_id, *(batch.pk for batch in inside)] = inside
    return found


def _by_source(
    piece: GlazedPot, books: PastBooks, with_fault: Container[str]
) -> Iterator[GlazedPot]:
    """Part a pot by surface where the glaze came from different buckets or batches.

    A fault that was told of the whole pot cannot say on which of the parts it
    is; so it counts for none of them.
    """
    by_surface = {
        surface: [coat for coat in piece.coats if surface in SURFACES[Side(coat.side)]]
        for surface in sorted(piece.surfaces)
    }
    parted = len({tuple(_sources(coats, books)) for coats in by_surface.values()}) > 1
    for surface in by_surface if parted else [""]:
        part = replace(piece, surface=surface, coats=by_surface.get(surface, piece.coats))
        part.verdicts = [
            verdict
            for verdict in piece.verdicts
            if verdict.surface in part.surfaces
            or (verdict.surface == Surface.WHOLE and not (parted and verdict.pk in with_fault))
        ]
        if part.coats:
            yield part


def _coated(member: Member, judged: Sequence[GlazedPot], books: PastBooks) -> None:
    """Say of every piece what it was dipped into, and how much of it there is."""
    shapes = shapes_for(c for p in judged for c in p.all_coats)
    step, bags = member.studio.scale_step_g, names_of_bags(member)
    for piece in judged:
        piece.bags = bags
        inside = [batch for found in _sources(piece.coats, books).values() for batch in found]
        piece.batches = list({batch.pk: batch for batch in inside}.values())
        piece.lines = [line for batch in piece.batches for line in books.lines[batch.pk]]
        done = [
            e for c in piece.coats if c.bucket_id for e in books.events_until(c.bucket_id, c.at)
        ]
        piece.events = list({event.pk: event for event in done}.values())
        first = piece.coats[0]
        if first.bucket_id:
            piece.reading = books.reading_at(first.bucket_id, first.at)
        worked = [books.work_out(c, shapes[c.pot_id], scale_step_g=step) for c in piece.all_coats]
        piece.worked = {one.coat.pk: one.thickness_mm for one in worked}
        piece.coat_mm = _most_on(piece, worked)


def gather(
    member: Member, glaze: Glaze, fault: FaultWord, *, until: datetime | None = None
) -> Evidence:
    """Gather the judged pots of a glaze.

    Parameters
    ----------
    member : Member
        Who asks.
    glaze : Glaze
        Which glaze.
    fault : FaultWord
        Which fault.
    until : datetime or None
        Leave out verdicts after this instant.

    Returns
    -------
    Evidence
        Oldest verdict first.
    """
    verdicts = verdicts_as_of(member, until)
    last = (
        verdicts.filter(pot__in=pots_with(member, glaze))
        .values_list("pot")
        .annotate(last_at=Max("at"))
    )
    newest = [pot_id for pot_id, _at in last.order_by("-last_at", "-pot")[: MOST + 1]]
    pots = known_pots(newest[:MOST])
    verdicts = verdicts.filter(pot__in=pots)
    pieces: dict[str, GlazedPot] = {}
    for row in verdicts.order_by("at", "pk").values_list(*JUDGED):
        verdict = Judged(*row)
        piece = pieces.setdefault(verdict.pot_id, GlazedPot(pots[verdict.pot_id]))
        piece.verdicts.append(verdict)
    for coat in known_coats({pot_id: pots[pot_id] for pot_id in pieces}):
        pieces[coat.pot_id].all_coats.append(coat)
        if glaze_id_of(coat) == glaze.pk:
            pieces[coat.pot_id].coats.append(coat)
    faults = Fault.objects.filter(word=fault, verdict__pot__in=pots)
    with_fault = set(faults.values_list("verdict", flat=True))
    books = PastBooks(dips_of(c for p in pieces.values() for c in p.all_coats))
    judged = []
    for piece in (one for whole in pieces.values() for one in _by_source(whole, books, with_fault)):
        seen = fault_on(piece.surfaces, piece.verdicts, with_fault)
        if seen is not None:
            piece.faulty = seen
            judged.append(piece)
    _stood(member, judged, with_fault)
    _coated(member, judged, books)
    return Evidence(judged, newest_only=len(newest) > MOST)
