"""The coats of many pots and what their buckets held, all that they name read once.

Comparing thousands of pots, a joined row each would make the same form, bucket
and glaze anew for every one. Here each is made once and handed to all.
"""

from collections.abc import Collection, Iterable, Sequence
from datetime import datetime
from typing import Any, NamedTuple, TypeVar

from django.db.models import Model, Q, QuerySet

from wareboard.records.glazes.models import BatchLine, Bucket, Glaze
from wareboard.records.people.entry import Entry
from wareboard.records.people.models import Member
from wareboard.records.stores.bridge import newest_density
from wareboard.records.stores.models import Lot, Material

from .books import BucketBooks, readings_in_force
from .models import Coat, Form, Pot

Row = TypeVar("Row", bound=Entry)


class PastReading(NamedTuple):
    """A reading as far as it says something of the slop."""

    pk: str
    bucket_id: str
    at: datetime
    full_g: float
    empty_g: float
    volume_ml: float
    flow: str
    remembered: str


READING = ("pk", "bucket_id", "at", "full_g", "empty_g", "volume_ml", "flow", "remembered")


class PastBooks(BucketBooks):
    """What the buckets of very many coats held at their dips."""

    def readings_of(
        self, ids: Collection[str], since: datetime, until: datetime
    ) -> Iterable[PastReading]:
        """Give the readings in force in some buckets from one time to another; one query."""
        rows = readings_in_force(ids, since, until).values_list(*READING)
        return (PastReading(*row) for row in rows)

    def lines_of(self, batch_ids: set[str]) -> Iterable[tuple[BatchLine, float | None]]:
        """Give what went into some batches, each material and lot read once; three queries."""
        own = BatchLine.objects.current().filter(batch__in=batch_ids)
        lines = list(own.order_by("batch", "position"))
        materials = Material.objects.annotate(density_g_cm3=newest_density("pk"))
        known = {material.pk: material for material in materials}
        hand_over(lines, "material", known)
        hand_over(lines, "lot", by_id(Lot, {line.lot_id for line in lines}))
        return ((line, known[line.material_id].density_g_cm3) for line in lines)


def by_id(model: type[Row], ids: set[str | None]) -> dict[str, Row]:
    """Read some rows by their ids; one query."""
    return {row.pk: row for row in model._base_manager.filter(pk__in=ids - {None})}


def hand_over(rows: Iterable[Model], name: str, found: dict[str, Any]) -> None:
    """Give rows what they name by a key, out of what was read once."""
    for row in rows:
        setattr(row, name, found.get(getattr(row, f"{name}_id")))


def pots_with(member: Member, glaze: Glaze) -> QuerySet[Any]:
    """Give the ids of all pots with a coat of a glaze, for use inside another query."""
    buckets = Bucket.objects.filter(glaze=glaze).values("pk")
    coats = Coat.objects.current().filter(Q(bucket__in=buckets) | Q(glaze=glaze))
    return coats.filter(studio=member.studio_id).order_by().values("pot")


def known_pots(pot_ids: Sequence[str]) -> dict[str, Pot]:
    """Give many pots by id, with form and clay; three queries."""
    pots = list(Pot.objects.filter(pk__in=pot_ids))
    hand_over(pots, "form", by_id(Form, {pot.form_id for pot in pots}))
    hand_over(pots, "clay", by_id(Material, {pot.clay_id for pot in pots}))
    return {pot.pk: pot for pot in pots}


def known_coats(pots: dict[str, Pot]) -> list[Coat]:
    """Give the current coats of many pots in order, all they name at hand; four queries."""
    current = Coat.objects.current().filter(pot__in=pots)
    coats = list(current.order_by("at", "kept_at", "pk"))
    hand_over(coats, "pot", pots)
    buckets = by_id(Bucket, {coat.bucket_id for coat in coats})
    named = {coat.glaze_id for coat in coats} | {one.glaze_id for one in buckets.values()}
    glazes = by_id(Glaze, named)
    hand_over(buckets.values(), "glaze", glazes)
    hand_over(coats, "bucket", buckets)
    hand_over(coats, "glaze", glazes)
    hand_over(coats, "like", by_id(Coat, {coat.like_id for coat in coats}))
    return coats
