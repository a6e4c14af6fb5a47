"""How many pots were dipped in a bucket since somebody said how much is in it."""

from typing import Any

from django.db.models import Count, OuterRef, QuerySet, Subquery
from django.db.models.functions import Coalesce, Greatest
from django.utils.translation import ngettext

from wareboard.records.glazes.level import Level
from wareboard.records.glazes.models import Bucket, BucketEvent, BucketEventKind, Reading

from .models import Coat


def with_dips_since(buckets: QuerySet[Any]) -> QuerySet[Any]:
    """Add to buckets when their litres were told, and how many pots were dipped since.

    Told they are by a tide line or by a filling, whichever was later.
    """
    tides = Reading.objects.current().filter(bucket=OuterRef("pk"), in_bucket_l__isnull=False)
    fillings = BucketEvent.objects.current().filter(
        bucket=OuterRef("pk"), kind=BucketEventKind.FILLED
    )
    times = [
        Coalesce(Subquery(rows.order_by("-at").values("at")[:1]), "at")
        for rows in (tides, fillings)
    ]
    dips = Coat.objects.current().filter(bucket=OuterRef("pk"), at__gt=OuterRef("told_at"))
    pots = dips.order_by().values("bucket").annotate(n=Count("pot", distinct=True))
    found: QuerySet[Any] = buckets.annotate(
        told_at=Greatest(*times), dipped=Subquery(pots.values("n")[:1])
    )
    return found


def dipped_since(bucket: Bucket, level: Level) -> int:
    """Count the pots that were dipped since its litres were told; 0 where nobody told them.

    Parameters
    ----------
    bucket : Bucket
        As ``with_dips_since`` gives it.
    level : Level
        What is in it; told later than the bucket was read, nothing was dipped since.
    """
    told_at, dipped = getattr(bucket, "told_at", None), getattr(bucket, "dipped", None)
    return 0 if level.litres is None or told_at != level.told_at else dipped or 0


def less_is_left(bucket: Bucket, level: Level) -> str:
    """Say that less is left than was told, where pots were dipped since; else nothing."""
    dipped = dipped_since(bucket, level)
    if not dipped:
        return ""
    say = ngettext(
        "%(n)d pot was dipped since: less than this is left.",
        "%(n)d pots were dipped since: less than this is left.",
        dipped,
    )
    return say % {"n": dipped}
