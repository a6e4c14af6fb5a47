"""What the room of glazes holds, as a member may see it."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.db.models import OuterRef, Prefetch, QuerySet, Subquery

from wareboard.records.people.models import Member

from .models import (
    Batch,
    BatchLine,
    Bucket,
    BucketEvent,
    BucketEventKind,
    Glaze,
    Reading,
    Recipe,
    RecipeLine,
)

FILLINGS = (BucketEventKind.FILLED, BucketEventKind.TOPPED_UP)


def glazes_for(member: Member) -> QuerySet[Glaze]:
    """Give the studio's glazes by name."""
    return Glaze.objects.seen_by(member).order_by("name")


def recipes_for(member: Member) -> QuerySet[Recipe]:
    """Give recipe versions with their lines, newest version first."""
    lines = RecipeLine.objects.select_related("material").order_by("position")
    return (
        Recipe.objects.seen_by(member)
        .select_related("glaze", "base")
        .prefetch_related(Prefetch("lines", queryset=lines))
        .order_by("glaze__name", "-version")
    )


def batches_for(member: Member) -> QuerySet[Batch]:
    """Give batches with their lines and lots, newest first."""
    lines = BatchLine.objects.select_related("material", "lot").order_by("position")
    return (
        Batch.objects.seen_by(member)
        .select_related("recipe__glaze", "drawn_from__recipe__glaze")
        .prefetch_related(Prefetch("lines", queryset=lines))
        .order_by("-at")
    )


def buckets_for(member: Member) -> QuerySet[Bucket]:
    """Give buckets with the batch last poured in, by glaze."""
    last = BucketEvent.objects.standing().filter(bucket=OuterRef("pk"), kind__in=FILLINGS)
    buckets: QuerySet[Bucket] = (
        Bucket.objects.seen_by(member)
        .select_related("glaze")
        .annotate(last_batch_id=Subquery(last.order_by("-at").values("batch")[:1]))
        .order_by("glaze__name", "at")
    )
    return buckets


def readings_of(bucket: Bucket, *, last: int = 12) -> Sequence[Reading]:
    """Give a bucket's current readings, newest first."""
    return list(Reading.objects.current().filter(bucket=bucket).order_by("-at")[:last])


def events_of(bucket: Bucket, *, last: int = 12) -> Sequence[BucketEvent]:
    """Give what was done to a bucket, newest first."""
    events = BucketEvent.objects.standing().filter(bucket=bucket).order_by("-at")
    return list(events.select_related("batch__recipe__glaze", "lot__material")[:last])


def latest_reading(bucket_ref: Any, at_ref: Any) -> QuerySet[Reading]:
    """Give the reading in force for a bucket at a time, for use inside another query."""
    return Reading.objects.current().filter(bucket=bucket_ref, at__lte=at_ref).order_by("-at")


def contents_at(bucket: Bucket, when: datetime) -> Sequence[Batch]:
    """Give the batches that were in a bucket at a time, the first poured first."""
    events = BucketEvent.objects.standing().filter(bucket=bucket, at__lte=when).order_by("at")
    inside: list[Batch] = []
    for event in events.select_related("batch__recipe__glaze"):
        if event.kind in {BucketEventKind.FILLED, BucketEventKind.EMPTIED}:
            inside = []
        if event.batch is not None:
            inside.append(event.batch)
    return inside


def newest_readings(member: Member) -> Sequence[Reading]:
    """Give for each bucket its newest reading, bucket and glaze at hand; one query."""
    newest = Reading.objects.current().filter(bucket=OuterRef("pk")).order_by("-at", "-kept_at")
    buckets = Bucket.objects.seen_by(member).annotate(newest=Subquery(newest.values("pk")[:1]))
    return list(
        Reading.objects.filter(pk__in=buckets.values("newest"))
        .select_related("bucket__glaze")
        .order_by("bucket__glaze__name", "bucket__name")
    )
