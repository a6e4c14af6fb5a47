"""What a potter does in the room of glazes: each is kept whole or not at all."""

from typing import Any

from django.db import transaction

from wareboard.core.slop import density_from_bottle
from wareboard.records.people.entry import keep
from wareboard.records.people.models import Member

from .models import Bucket, BucketEvent, Reading


@transaction.atomic
def weigh_bucket(
    member: Member,
    bucket: Bucket,
    *,
    full_g: float,
    empty_g: float | None = None,
    volume_ml: float | None = None,
    **facts: Any,
) -> Reading:
    """Keep a full bottle weighed at a bucket.

    Only what was weighed is kept. The density is worked out now to refuse a
    reading that cannot be, and again whenever it is shown. A bottle told for
    the first time is remembered with the bucket.

    Raises
    ------
    CoreError
        If no slop has such a density.
    """
    bottle_g = bucket.bottle_empty_g if empty_g is None else empty_g
    bottle_ml = bucket.bottle_ml if volume_ml is None else volume_ml
    if bottle_g is None or bottle_ml is None:
        raise ValueError("a bucket without a bottle asks for it first")
    density_from_bottle(full_g, bottle_g, bottle_ml)
    if (bucket.bottle_empty_g, bucket.bottle_ml) != (bottle_g, bottle_ml):
        bucket.bottle_empty_g, bucket.bottle_ml = bottle_g, bottle_ml
        bucket.save(update_fields=["bottle_empty_g", "bottle_ml"])
    return keep(
        Reading,
        member,
        bucket=bucket,
        full_g=full_g,
        empty_g=bottle_g,
        volume_ml=bottle_ml,
        **facts,
    )


@transaction.atomic
def change_bucket(member: Member, bucket: Bucket, *, kind: str, **facts: Any) -> BucketEvent:
    """Keep what was done to a bucket: water, powder, a batch poured in, slop drawn."""
    return keep(BucketEvent, member, bucket=bucket, kind=kind, **facts)
