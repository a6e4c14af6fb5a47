"""What a potter does in the room of glazes: each is kept whole or not at all."""

from collections.abc import Sequence
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from wareboard.records.people.entry import EntryRefused, check, id_under, keep, new_id
from wareboard.records.people.models import Member
from wareboard.records.stores.models import Lot, Material, MaterialKind

from . import queries
from .bottle import Bottle, refuse_full
from .bridge import Asked
from .drawn import Drawn
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


@transaction.atomic
def weigh_bucket(
    member: Member,
    bucket: Bucket,
    *,
    full_g: float,
    empty_g: float | None = None,
    volume_ml: float | None = None,
    entry_id: str = "",
    **facts: Any,
) -> Reading:
    """Keep a full bottle weighed at a bucket.

    Only what was weighed is kept, with the bottle it was weighed with: the
    bucket's own where none is told. A full bottle that cannot be is refused now;
    the density is worked out whenever it is shown.

    Raises
    ------
    EntryRefused
        If the bottle cannot weigh that much, or no bottle is so large.
    """
    known = queries.bottle_then(member, bucket, entry_id)
    if known is not None:
        empty_g = known.empty_g if empty_g is None else empty_g
        volume_ml = known.volume_ml if volume_ml is None else volume_ml
    if empty_g is None or volume_ml is None:
        raise ValueError("a bucket without a bottle asks for it first")
    refuse_full(full_g, Bottle(empty_g, volume_ml))
    return keep(
        Reading,
        member,
        entry_id=entry_id,
        bucket=bucket,
        full_g=full_g,
        empty_g=empty_g,
        volume_ml=volume_ml,
        **facts,
    )


@transaction.atomic
def change_bucket(member: Member, bucket: Bucket, *, kind: str, **facts: Any) -> BucketEvent:
    """Keep what was done to a bucket: water, powder, a batch poured in, slop drawn."""
    return keep(BucketEvent, member, bucket=bucket, kind=kind, **facts)


@transaction.atomic
def add_glaze(
    member: Member,
    *,
    name: str,
    character: str,
    swatch: str,
    entry_id: str = "",
    lines: Sequence[Asked] = (),
    base: Glaze | None = None,
    **facts: Any,
) -> Glaze:
    """Keep a new glaze, with its first recipe where one was written.

    Raises
    ------
    EntryRefused
        If the studio has another glaze of this name.
    """
    entry_id = entry_id or new_id()
    if Glaze.objects.seen_by(member).filter(name__iexact=name).exclude(pk=entry_id).exists():
        say = _("There is a glaze called %(name)s already: a change of it is its next version.")
        raise EntryRefused(say % {"name": name})
    glaze = keep(
        Glaze,
        member,
        entry_id=entry_id,
        together=entry_id if lines else "",
        name=name,
        character=character,
        swatch=swatch,
        **facts,
    )
    if lines:
        _write(member, glaze, id_under(entry_id, "r"), lines, base=base, together=entry_id, **facts)
    return glaze


@transaction.atomic
def write_recipe(
    member: Member,
    glaze: Glaze,
    *,
    lines: Sequence[Asked],
    entry_id: str = "",
    base: Glaze | None = None,
    **facts: Any,
) -> Recipe:
    """Keep the next version of a glaze's recipe; the ones before it stand as they were.

    Raises
    ------
    EntryRefused
        If nothing differs from the version before it.
    """
    entry_id = entry_id or new_id()
    versions = queries.recipes_for(member).filter(glaze=glaze)
    newest = versions.exclude(pk=entry_id).first()
    if newest is not None and _same(newest, lines, base):
        say = _("This is version %(n)d as it stands: nothing has changed.")
        raise EntryRefused(say % {"n": newest.version})
    return _write(member, glaze, entry_id, lines, base=base, together="", **facts)


def _same(recipe: Recipe, lines: Sequence[Asked], base: Glaze | None) -> bool:
    before = [(line.material, line.parts, line.addition) for line in recipe.lines.all()]
    now = [(line.material, line.parts, line.addition) for line in lines]
    return recipe.base_id == (base.pk if base else None) and before == now


def _write(
    member: Member,
    glaze: Glaze,
    entry_id: str,
    lines: Sequence[Asked],
    *,
    together: str,
    **facts: Any,
) -> Recipe:
    """Keep a recipe, and the materials that its names brought in."""
    fresh = {line.material: line for line in lines if isinstance(line.material, str)}
    together = together or (entry_id if fresh else "")
    taken_in = {
        name: keep(
            Material,
            member,
            entry_id=id_under(entry_id, number),
            together=together,
            name=name,
            kind=MaterialKind.COLOURANT if line.addition else MaterialKind.GLAZE,
        )
        for number, (name, line) in enumerate(fresh.items(), start=1)
    }
    parts = tuple(
        RecipeLine(
            material=taken_in[line.material] if isinstance(line.material, str) else line.material,
            parts=line.parts,
            addition=line.addition,
        )
        for line in lines
    )
    return keep(
        Recipe,
        member,
        entry_id=entry_id,
        owner="recipe",
        parts=parts,
        together=together,
        glaze=glaze,
        version=queries.next_version(glaze),
        **facts,
    )


@transaction.atomic
def mix_batch(
    member: Member,
    recipe: Recipe,
    *,
    lines: Sequence[BatchLine],
    entry_id: str = "",
    **facts: Any,
) -> Batch:
    """Keep a batch: which version, which lots, what the scale said."""
    return keep(
        Batch,
        member,
        entry_id=entry_id,
        owner="batch",
        parts=tuple(lines),
        recipe=recipe,
        number=queries.next_number(recipe.glaze),
        **facts,
    )


@transaction.atomic
def draw_batch(
    member: Member,
    recipe: Recipe,
    *,
    bucket: Bucket,
    drawn_from: Batch,
    wet_g: float,
    sg: float,
    entry_id: str = "",
    **facts: Any,
) -> Batch:
    """Keep a batch drawn wet from a bucket of its base, and that the bucket lost it."""
    entry_id = entry_id or new_id()
    batch = mix_batch(
        member,
        recipe,
        entry_id=entry_id,
        together=entry_id,
        drawn_from=drawn_from,
        drawn_wet_g=wet_g,
        drawn_sg=sg,
        **facts,
    )
    change_bucket(
        member,
        bucket,
        kind=BucketEventKind.DRAWN,
        entry_id=f"{entry_id}-d",
        together=entry_id,
        at=facts.get("at"),
        amount_g=wet_g,
    )
    return batch


@transaction.atomic
def pour(
    member: Member,
    batch: Batch,
    *,
    bucket: Bucket | None,
    name: str = "",
    kind: str = BucketEventKind.FILLED,
    entry_id: str = "",
    **facts: Any,
) -> Bucket:
    """Keep that a batch went into a bucket, which may be a new one."""
    entry_id = entry_id or new_id()
    together = ""
    if bucket is None:
        together, kind = entry_id, BucketEventKind.FILLED
        bucket = keep(
            Bucket,
            member,
            entry_id=f"{entry_id}-b",
            together=together,
            glaze=batch.recipe.glaze,
            name=name,
        )
    change_bucket(
        member, bucket, kind=kind, entry_id=entry_id, together=together, batch=batch, **facts
    )
    return bucket


@transaction.atomic
def add_bucket(member: Member, glaze: Glaze, **facts: Any) -> Bucket:
    """Keep a bucket that stands on the floor, whatever went into it."""
    return keep(Bucket, member, glaze=glaze, **facts)


@transaction.atomic
def name_bucket(bucket: Bucket, *, name: str) -> Bucket:
    """Say what is written on a bucket; this is no measurement: what was said last counts."""
    bucket.name = name
    check(bucket)
    bucket.save(update_fields=["name"])
    return bucket


@transaction.atomic
def dose_bucket(
    member: Member, bucket: Bucket, *, amount_g: float, lot: Lot | None, **facts: Any
) -> Bucket:
    """Keep that powder was stirred into a whole bucket."""
    change_bucket(
        member, bucket, kind=BucketEventKind.POWDER_IN, amount_g=amount_g, lot=lot, **facts
    )
    return bucket


@transaction.atomic
def dose_tub(
    member: Member,
    bucket: Bucket,
    *,
    batch: Batch,
    drawn: Drawn,
    tub: str,
    amount_g: float,
    lot: Lot | None,
    entry_id: str = "",
    **facts: Any,
) -> Bucket:
    """Keep that slop was drawn from a bucket into a tub, and powder stirred into the tub."""
    entry_id = entry_id or new_id()
    same: dict[str, Any] = {"together": entry_id, **facts}
    slop = {"amount_ml": drawn.volume_ml, "amount_g": drawn.wet_g}
    change_bucket(
        member, bucket, kind=BucketEventKind.DRAWN, entry_id=f"{entry_id}-d", **slop, **same
    )
    bottle = queries.bottle_of(bucket)
    made = keep(
        Bucket,
        member,
        entry_id=f"{entry_id}-b",
        glaze=bucket.glaze,
        name=tub,
        bottle_empty_g=bottle.empty_g if bottle else None,
        bottle_ml=bottle.volume_ml if bottle else None,
        **same,
    )
    change_bucket(
        member,
        made,
        kind=BucketEventKind.FILLED,
        entry_id=f"{entry_id}-f",
        batch=batch,
        **slop,
        **same,
    )
    change_bucket(
        member,
        made,
        kind=BucketEventKind.POWDER_IN,
        entry_id=entry_id,
        amount_g=amount_g,
        lot=lot,
        **same,
    )
    return made
