"""What the room of glazes holds, as a member may see it."""

from collections.abc import Sequence
from typing import Any

from django.db.models import (
    Case,
    Count,
    Exists,
    F,
    Max,
    OuterRef,
    Prefetch,
    Q,
    QuerySet,
    Subquery,
    Sum,
    When,
)
from django.db.models.functions import Coalesce, Greatest, Lower

from wareboard.records.people.entry import EntryQuerySet
from wareboard.records.people.models import Member
from wareboard.records.stores.models import Lot, Material

from .bottle import Bottle
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
STIRRED = (
    *FILLINGS,
    BucketEventKind.WATER_IN,
    BucketEventKind.WATER_OFF,
    BucketEventKind.POWDER_IN,
)
MOVED = (BucketEventKind.DRAWN, BucketEventKind.FILLED)
NEWEST_FIRST = ("-at", "-kept_at", "-pk")
RECIPES_SHOWN = 50
EVENTS_READ = 40


def glazes_for(member: Member) -> QuerySet[Glaze]:
    """Give the studio's glazes by name, capitals or not."""
    glazes: QuerySet[Glaze] = (
        Glaze.objects.seen_by(member).annotate(sort_name=Lower("name")).order_by("sort_name", "pk")
    )
    return glazes


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
    lines = BatchLine.objects.current().select_related("material", "lot").order_by("position")
    return (
        Batch.objects.seen_by(member)
        .select_related("recipe__glaze", "drawn_from__recipe__glaze")
        .prefetch_related(Prefetch("lines", queryset=lines))
        .order_by("-at")
    )


def buckets_for(member: Member) -> QuerySet[Bucket]:
    """Give buckets with the batch last poured in, by glaze."""
    last = BucketEvent.objects.current().filter(bucket=OuterRef("pk"), kind__in=FILLINGS)
    buckets: QuerySet[Bucket] = (
        Bucket.objects.seen_by(member)
        .select_related("glaze")
        .annotate(last_batch_id=Subquery(last.order_by("-at").values("batch")[:1]))
        .order_by("glaze__name", "at")
    )
    return buckets


def bottle_among(bucket: Bucket, readings: Sequence[Reading]) -> Bottle | None:
    """Give the bottle of the newest of a bucket's readings, else as told with the bucket."""
    if readings:
        return Bottle(readings[0].empty_g, readings[0].volume_ml)
    if bucket.bottle_empty_g is None or bucket.bottle_ml is None:
        return None
    return Bottle(bucket.bottle_empty_g, bucket.bottle_ml)


def bottle_of(bucket: Bucket) -> Bottle | None:
    """Give the bottle that a bucket is weighed with: nobody writes it down anywhere else."""
    return bottle_among(bucket, readings_of(bucket, last=1))


def bottle_then(member: Member, bucket: Bucket, entry_id: str) -> Bottle | None:
    """Give the bottle of a reading that is kept under an id already, else the bucket's."""
    kept = Reading.objects.filter(studio=member.studio_id, pk=entry_id).first()
    return bottle_of(bucket) if kept is None else Bottle(kept.empty_g, kept.volume_ml)


def usual_bottle(member: Member) -> Bottle | None:
    """Give the bottle of the studio's newest reading, for a form to begin with."""
    newest = Reading.objects.current().seen_by(member).order_by(*NEWEST_FIRST).first()
    return None if newest is None else Bottle(newest.empty_g, newest.volume_ml)


def readings_for(member: Member) -> QuerySet[Reading]:
    """Give the studio's readings, also those that were put right since."""
    return Reading.objects.seen_by(member).select_related("bucket__glaze")


def readings_with(member: Member, bottle: Bottle) -> QuerySet[Reading]:
    """Give the studio's readings in force that were taken with a bottle, the first first."""
    taken: QuerySet[Reading] = (
        Reading.objects.current()
        .seen_by(member)
        .filter(empty_g=bottle.empty_g, volume_ml=bottle.volume_ml)
    )
    return taken.select_related("bucket").order_by("at", "pk")


def weighed_with(member: Member, bottle: Bottle) -> dict[str, int]:
    """Give for each bucket weighed with a bottle how many readings it has."""
    counted = readings_with(member, bottle).order_by().values_list("bucket")
    return dict(counted.annotate(n=Count("pk")))


def readings_of(bucket: Bucket, *, last: int = 12) -> Sequence[Reading]:
    """Give a bucket's current readings, newest first."""
    return list(Reading.objects.current().filter(bucket=bucket).order_by(*NEWEST_FIRST)[:last])


def events_of(bucket: Bucket, *, last: int = 12) -> Sequence[BucketEvent]:
    """Give what was done to a bucket, newest first."""
    events = BucketEvent.objects.current().filter(bucket=bucket).order_by("-at")
    return list(events.select_related("batch__recipe__glaze", "lot__material")[:last])


def changes_for(member: Member) -> QuerySet[BucketEvent]:
    """Give what was done to the studio's buckets, also what was put right since."""
    changes: QuerySet[BucketEvent] = BucketEvent.objects.seen_by(member)
    return changes.select_related("bucket__glaze", "batch", "lot__material")


def same_slop(change: BucketEvent) -> Sequence[BucketEvent]:
    """Give what the same tap did with the same slop: drawn from one bucket, it filled another."""
    if not change.together or change.kind not in MOVED:
        return []
    moved = BucketEvent.objects.current().filter(together=change.together, kind__in=MOVED)
    alike = moved.filter(amount_ml=change.amount_ml, amount_g=change.amount_g)
    return list(alike.filter(studio=change.studio_id).exclude(pk=change.pk).order_by("pk"))


def change_kept(member: Member, entry_id: str) -> BucketEvent | None:
    """Give what is kept already under the id of a page that was sent again."""
    change: BucketEvent | None = BucketEvent.objects.seen_by(member).filter(pk=entry_id).first()
    return change


def latest_reading(bucket_ref: Any, at_ref: Any) -> QuerySet[Reading]:
    """Give the reading in force for a bucket at a time, for use inside another query."""
    return Reading.objects.current().filter(bucket=bucket_ref, at__lte=at_ref).order_by("-at")


def newest_readings(member: Member) -> Sequence[Reading]:
    """Give for each bucket its newest reading, bucket and glaze at hand; one query."""
    newest = Reading.objects.current().filter(bucket=OuterRef("pk")).order_by("-at", "-kept_at")
    buckets = Bucket.objects.seen_by(member).annotate(newest=Subquery(newest.values("pk")[:1]))
    return list(
        Reading.objects.filter(pk__in=buckets.values("newest"))
        .select_related("bucket__glaze")
        .order_by("bucket__glaze__name", "bucket__name")
    )


def newest_recipes(member: Member) -> QuerySet[Recipe]:
    """Give the newest version of each glaze's recipe, without its lines."""
    newest = Recipe.objects.standing().filter(glaze=OuterRef("glaze")).order_by("-version")
    recipes: QuerySet[Recipe] = Recipe.objects.seen_by(member)
    return recipes.filter(pk=Subquery(newest.values("pk")[:1])).select_related("glaze")


def recipe_of(member: Member, glaze_id: str) -> Recipe | None:
    """Give the newest version of a glaze's recipe, glaze and base at hand."""
    recipes = newest_recipes(member).filter(glaze=glaze_id, glaze__undone_at__isnull=True)
    return recipes.select_related("glaze", "base").first()


def children_of(member: Member, glaze: Glaze) -> Sequence[Recipe]:
    """Give the recipes that rest on a glaze as their base, by name."""
    children = newest_recipes(member).filter(base=glaze, glaze__undone_at__isnull=True)
    return list(children.order_by(Lower("glaze__name"))[:RECIPES_SHOWN])


def bases_by_glaze(member: Member) -> dict[str, str | None]:
    """Give for each glaze the base its newest recipe rests on."""
    return dict(newest_recipes(member).values_list("glaze", "base"))


def recipe_lines_with(member: Member, material: Material) -> Sequence[RecipeLine]:
    """Give the lines of newest recipes that hold a material, most of it first."""
    newest = newest_recipes(member).values("pk")
    lines = RecipeLine.objects.filter(material=material, recipe__in=newest)
    return list(lines.select_related("recipe__glaze").order_by("-parts", "pk")[:RECIPES_SHOWN])


def batch_lines_from(member: Member, lot: Lot) -> QuerySet[BatchLine]:
    """Give the lines of batches that a lot went into."""
    lines: QuerySet[BatchLine] = BatchLine.objects.current().filter(
        lot=lot, batch__studio=member.studio_id, batch__undone_at__isnull=True
    )
    return lines.select_related("batch__recipe__glaze")


def batches_of(member: Member, glaze: Glaze) -> QuerySet[Batch]:
    """Give the batches of a glaze, without their lines."""
    batches: QuerySet[Batch] = Batch.objects.seen_by(member).filter(recipe__glaze=glaze)
    return batches.select_related("recipe", "recipe__glaze").order_by(*NEWEST_FIRST)


def batch_with_base(member: Member, batch_id: str | None) -> Batch | None:
    """Give one batch with its glaze and the base it was drawn from, without lines.

    It carries ``weighed_g``, what its lines weigh together [g]: None where one was not weighed.
    """
    lines = BatchLine.objects.current().filter(batch=OuterRef("pk")).order_by().values("batch")
    whole = lines.annotate(n=Count("pk"), weighed=Count("weighed_g"), g=Sum("weighed_g"))
    batches: QuerySet[Any] = Batch.objects.seen_by(member).filter(pk=batch_id)
    known = batches.annotate(weighed_g=Subquery(whole.filter(n=F("weighed")).values("g")))
    found: Batch | None = known.select_related("recipe__glaze", "drawn_from__recipe__glaze").first()
    return found


def bucket_names(member: Member) -> set[str]:
    """Give what is written on the studio's buckets, in small letters."""
    names = Bucket.objects.seen_by(member).values_list("name", flat=True)
    return {name.casefold() for name in names}


def buckets_filled(member: Member, glaze: Glaze) -> QuerySet[Bucket]:
    """Give the buckets of a glaze that a batch was ever poured into."""
    poured = BucketEvent.objects.current().filter(bucket=OuterRef("pk"), kind__in=FILLINGS)
    return buckets_for(member).filter(Exists(poured), glaze=glaze)


def lines_of(recipe: Recipe) -> Sequence[RecipeLine]:
    """Give a recipe's own lines in their order."""
    lines = RecipeLine.objects.filter(recipe=recipe).select_related("material")
    return list(lines.order_by("position"))


def lines_by_batch(batch: Batch) -> dict[str, list[BatchLine]]:
    """Give what went into a batch and into the base it was drawn from, by batch."""
    ids = [batch.pk, *([batch.drawn_from_id] if batch.drawn_from_id else [])]
    lines = BatchLine.objects.current().filter(batch__in=ids)
    lines = lines.select_related("material", "lot", "corrects__lot")
    found: dict[str, list[BatchLine]] = {}
    for line in lines.order_by("batch", "position"):
        found.setdefault(line.batch_id, []).append(line)
    return found


def batch_lines_for(member: Member) -> QuerySet[BatchLine]:
    """Give what went into the studio's batches, also what was put right since."""
    lines: QuerySet[BatchLine] = BatchLine.objects.seen_by(member)
    return lines.select_related("batch__recipe__glaze", "material", "lot")


def has_elder(member: Member, batch: Batch) -> bool:
    """Say whether the glaze had a batch before this one."""
    return (
        batches_of(member, batch.recipe.glaze).filter(at__lt=batch.at).exclude(pk=batch.pk).exists()
    )


def fillings_of(member: Member, batch: Batch) -> Sequence[BucketEvent]:
    """Give the buckets a batch went into, newest first."""
    events = BucketEvent.objects.current().seen_by(member).filter(batch=batch)
    return list(events.select_related("bucket").order_by(*NEWEST_FIRST)[:RECIPES_SHOWN])


def pourings_of(member: Member, batch: Batch) -> Sequence[BucketEvent]:
    """Give when a batch was poured as it was mixed, the first first; not what was drawn since."""
    drawn = BucketEvent.objects.current().filter(
        kind=BucketEventKind.DRAWN, together=OuterRef("together")
    )
    events = BucketEvent.objects.current().seen_by(member).filter(batch=batch)
    poured = events.filter(kind__in=FILLINGS).exclude(~Q(together="") & Exists(drawn))
    return list(poured.select_related("bucket").order_by("at", "kept_at", "pk"))


def buckets_as_they_stand(member: Member, *, empty: bool) -> QuerySet[Bucket]:
    """Give buckets with the last time their slop was changed, the one used last first.

    Parameters
    ----------
    member : Member
        Who asks.
    empty : bool
        Whether those are wanted that were emptied and not filled again, or the others.
    """
    in_use = Q(begun_as=BucketEventKind.FILLED) | Q(begun_as__isnull=True)
    buckets = _with_their_use(Bucket.objects.seen_by(member))
    buckets = buckets.filter(Q(begun_as=BucketEventKind.EMPTIED) if empty else in_use)
    found: QuerySet[Bucket] = buckets.order_by("-used_at", "-pk")
    return found


def buckets_of(member: Member, glaze: Glaze) -> QuerySet[Bucket]:
    """Give the buckets of a glaze, the one used last first and the empty ones last."""
    empty = Case(When(begun_as=BucketEventKind.EMPTIED, then=1), default=0)
    buckets = _with_their_use(Bucket.objects.seen_by(member).filter(glaze=glaze))
    found: QuerySet[Bucket] = buckets.order_by(empty, "-used_at", "-pk")
    return found


def _with_their_use(buckets: EntryQuerySet) -> QuerySet[Any]:
    """Add to buckets when they were last used, last stirred, and whether they are empty."""
    events = BucketEvent.objects.current().filter(bucket=OuterRef("pk")).order_by(*NEWEST_FIRST)
    readings = Reading.objects.standing().filter(bucket=OuterRef("pk")).order_by("-at")
    begun = events.filter(kind__in=[BucketEventKind.FILLED, BucketEventKind.EMPTIED])
    touched = [Coalesce(Subquery(rows.values("at")[:1]), "at") for rows in (events, readings)]
    found: QuerySet[Any] = buckets.select_related("glaze").annotate(
        stirred_at=Subquery(events.filter(kind__in=STIRRED).values("at")[:1]),
        begun_as=Subquery(begun.values("kind")[:1]),
        used_at=Greatest(*touched),
    )
    return found


def next_number(glaze: Glaze) -> int:
    """Give the number that a glaze's next batch has."""
    last = Batch.objects.standing().filter(recipe__glaze=glaze).aggregate(last=Max("number"))
    return int(last["last"] or 0) + 1


def next_version(glaze: Glaze) -> int:
    """Give the number that a glaze's next recipe version has."""
    last = Recipe.objects.standing().filter(glaze=glaze).aggregate(last=Max("version"))
    return int(last["last"] or 0) + 1
