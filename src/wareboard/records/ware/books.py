"""What the buckets held when coats came from them, read once for any number of coats.

A coat's thickness rests on the density of the slop and of its powder at the
moment of the dip; so events and readings of the buckets are read as they were
then, never as they are now.
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import Protocol

from django.db.models import F, OuterRef, Q, QuerySet, Subquery

from wareboard.core.chemistry import Analysis
from wareboard.records.glazes.bridge import Weighed, solid_of
from wareboard.records.glazes.models import (
    Batch,
    BatchLine,
    Bucket,
    BucketEvent,
    BucketEventKind,
    Reading,
)
from wareboard.records.people.models import Member
from wareboard.records.people.read_once import read_once
from wareboard.records.stores.bridge import density_alone, newest_density

from .bridge import WorkedCoat, shapes_for, work_out
from .drawn import Shape
from .models import Coat, Pot


def glaze_id_of(coat: Coat) -> str | None:
    """Give the glaze of a coat, from its bucket or as it is remembered."""
    return coat.bucket.glaze_id if coat.bucket is not None else coat.glaze_id


def coats_of(member: Member, pot_ids: Iterable[str]) -> dict[str, list[Coat]]:
    """Give the current coats of some pots in the order they were put on; one query."""
    found: dict[str, list[Coat]] = defaultdict(list)
    coats = Coat.objects.current().filter(studio=member.studio_id, pot__in=list(pot_ids))
    named = "bucket__glaze", "glaze", "pot__form", "like"
    for coat in read_once(coats.order_by("at", "kept_at", "pk"), *named):
        found[coat.pot_id].append(coat)
    return found


def coats_on(member: Member, pots: Sequence[Pot]) -> dict[str, list[Coat]]:
    """Give the same of pots that are at hand and need not be read again; one query."""
    known = {pot.pk: pot for pot in pots}
    found: dict[str, list[Coat]] = defaultdict(list)
    coats = Coat.objects.current().filter(studio=member.studio_id, pot__in=list(known))
    for coat in read_once(coats.order_by("at", "kept_at", "pk"), "bucket__glaze", "glaze", "like"):
        coat.pot = known[coat.pot_id]
        found[coat.pot_id].append(coat)
    return found


class Dip(Protocol):
    """A dip, as far as books are asked about it: a coat, or as much of one as is needed."""

    @property
    def bucket_id(self) -> str | None:
        """Out of which bucket."""

    @property
    def at(self) -> datetime:
        """When."""


def dips_of(coats: Iterable[Coat]) -> Iterator[Dip]:
    """Give the dips of some coats, and those of the coats whose weighings count for them."""
    for coat in coats:
        yield coat
        if coat.like is not None:
            yield coat.like


class BucketBooks:
    """What some buckets held at the dips out of them, read once.

    Only the pages of those days are opened: of each bucket what was in force
    at the first dip, and what came until the last.

    Parameters
    ----------
    dips : iterable of Dip
        Which dips; :func:`dips_of` gives those of coats.
    with_batches : bool
        Whether what was in the buckets is wanted; without it the powder is
        taken to have the usual density, and two queries are saved.
    with_readings : bool
        Whether their weighings are wanted.
    """

    def __init__(
        self, dips: Iterable[Dip], *, with_batches: bool = True, with_readings: bool = True
    ) -> None:
        dips = [dip for dip in dips if dip.bucket_id]
        self.events: dict[str, list[BucketEvent]] = defaultdict(list)
        self.lines: dict[str, list[BatchLine]] = defaultdict(list)
        self.densities: dict[str, Analysis] = {}
        self.readings: dict[str, list[Weighed]] = defaultdict(list)
        self._solids: dict[str, float | None] = {}
        self._inside: dict[str, list[tuple[datetime, list[Batch]]]] = {}
        if not dips:
            return
        ids = {str(dip.bucket_id) for dip in dips}
        since, until = min(dip.at for dip in dips), max(dip.at for dip in dips)
        if with_batches:
            self._read_batches(ids, since, until)
        if with_readings:
            for reading in self.readings_of(ids, since, until):
                self.readings[reading.bucket_id].append(reading)

    def readings_of(
        self, ids: Collection[str], since: datetime, until: datetime
    ) -> Iterable[Weighed]:
        """Give the readings in force in some buckets from one time to another; one query."""
        return readings_in_force(ids, since, until)

    def _read_batches(self, ids: set[str], since: datetime, until: datetime) -> None:
        afresh = (
            BucketEvent.objects.current()
            .filter(
                bucket=OuterRef("bucket"),
                kind__in=(BucketEventKind.FILLED, BucketEventKind.EMPTIED),
                at__lte=since,
            )
            .order_by("-at")
        )
        events = (
            BucketEvent.objects.current()
            .filter(bucket__in=ids, at__lte=until)
            .filter(
                Q(batch__isnull=False)
                | Q(kind=BucketEventKind.EMPTIED)
                | Q(kind=BucketEventKind.POWDER_IN, lot__isnull=False)
            )
            .annotate(afresh_at=Subquery(afresh.values("at")[:1]))
            .filter(Q(afresh_at__isnull=True) | Q(at__gte=F("afresh_at")))
            .select_related(
                "batch__recipe__glaze", "batch__drawn_from__recipe__glaze", "lot__material"
            )
            .order_by("at")
        )
        batch_ids: set[str] = set()
        for event in events:
            self.events[event.bucket_id].append(event)
            if event.batch is not None:
                batch_ids |= {event.batch.pk, event.batch.drawn_from_id or event.batch.pk}
        for line, density_g_cm3 in self.lines_of(batch_ids):
            self.lines[line.batch_id].append(line)
            if line.material_id not in self.densities:
                self.densities[line.material_id] = density_alone(line.material, density_g_cm3)

    def lines_of(self, batch_ids: set[str]) -> Iterable[tuple[BatchLine, float | None]]:
        """Give what went into some batches, each with the density of its material; one query."""
        lines = (
            BatchLine.objects.current()
            .filter(batch__in=batch_ids)
            .select_related("material", "lot")
            .annotate(density_g_cm3=newest_density("material"))
        )
        return ((line, line.density_g_cm3) for line in lines.order_by("batch", "position"))

    def solid_at(self, bucket_id: str, when: datetime) -> float | None:
        """Give the density of the powder in a bucket at a time [g/cm³]."""
        inside = self.batches_at(bucket_id, when)
        if not inside:
            return None
        last = inside[0]
        if last.pk not in self._solids:
            self._solids[last.pk] = solid_of(last, self.lines, self.densities)
        return self._solids[last.pk]

    def work_out(self, coat: Coat, shape: Shape | None, *, scale_step_g: float) -> WorkedCoat:
        """Work out a coat with what its bucket held when it was dipped."""
        source = coat.like or coat
        reading = solid = None
        if source.bucket_id:
            reading = self.reading_at(source.bucket_id, source.at)
            solid = self.solid_at(source.bucket_id, source.at)
        return work_out(coat, shape=shape, reading=reading, solid=solid, scale_step_g=scale_step_g)

    def batches_at(self, bucket_id: str, when: datetime) -> list[Batch]:
        """Give what was in a bucket at a time, with the bases it was drawn from."""
        if bucket_id not in self._inside:
            self._inside[bucket_id] = list(contents_after(self.events[bucket_id]))
        inside = self._inside[bucket_id]
        place = bisect_right(inside, when, key=lambda content: content[0])
        return inside[place - 1][1] if place else []

    def events_until(self, bucket_id: str, when: datetime) -> list[BucketEvent]:
        """Give what was done to a bucket since it was last filled or emptied, until a time."""
        done: list[BucketEvent] = []
        for event in self.events[bucket_id]:
            if event.at > when:
                break
            if event.kind in {BucketEventKind.FILLED, BucketEventKind.EMPTIED}:
                done = []
            done.append(event)
        return done

    def reading_at(self, bucket_id: str, when: datetime) -> Weighed | None:
        """Give the reading in force at a time."""
        readings = self.readings[bucket_id]
        place = bisect_right(readings, when, key=lambda reading: reading.at)
        return readings[place - 1] if place else None


def contents_after(events: Iterable[BucketEvent]) -> Iterator[tuple[datetime, list[Batch]]]:
    """Give after each event of a bucket what was in it, the bases drawn from last."""
    inside: list[Batch] = []
    for event in events:
        if event.kind in {BucketEventKind.FILLED, BucketEventKind.EMPTIED}:
            inside = []
        if event.batch is not None:
            inside = [*inside, event.batch]
        yield event.at, inside + [b.drawn_from for b in inside if b.drawn_from is not None]


def readings_in_force(
    bucket_ids: Collection[str], since: datetime, until: datetime
) -> QuerySet[Reading]:
    """Give the readings that were in force in some buckets from one time to another, in order."""
    before = (
        Reading.objects.current()
        .filter(bucket=OuterRef("pk"), at__lte=since)
        .order_by("-at", "-kept_at")
    )
    first = Bucket.objects.filter(pk__in=bucket_ids).annotate(
        in_force=Subquery(before.values("pk")[:1])
    )
    later = Q(bucket__in=bucket_ids, at__gt=since, at__lte=until)
    readings: QuerySet[Reading] = Reading.objects.current().filter(
        later | Q(pk__in=first.values("in_force"))
    )
    return readings.order_by("at", "kept_at")


def work_out_all(
    member: Member,
    coats: Mapping[str, Sequence[Coat]],
    *,
    with_area: bool = True,
    with_batches: bool = True,
    shapes: Mapping[str, Shape] | None = None,
) -> dict[str, list[WorkedCoat]]:
    """Work out the coats of some pots, by pot.

    Parameters
    ----------
    member : Member
        Whose scale counts.
    coats : mapping of str to sequence of Coat
        By pot, in order, as :func:`coats_of` gives them.
    with_area : bool
        Whether thickness is wanted; grams and water need no outline.
    with_batches : bool
        Whether the density of each powder is worked out from its batch.
    shapes : mapping of str to Shape, optional
        Outlines by pot, where the page has them already.
    """
    every = [coat for found in coats.values() for coat in found]
    books = BucketBooks(dips_of(every), with_batches=with_batches)
    if shapes is None:
        shapes = shapes_for(every) if with_area else {}
    step = member.studio.scale_step_g
    return {
        pot_id: [books.work_out(coat, shapes.get(pot_id), scale_step_g=step) for coat in found]
        for pot_id, found in coats.items()
    }
