"""What was weighed or done put right: a second row names the first, which stays."""

from typing import Any
from uuid import NAMESPACE_OID, uuid5

from django.db import transaction
from django.utils.translation import gettext as _

from wareboard.core.slop import full_bottle
from wareboard.exchange.typed_number import written
from wareboard.records.people.entry import EntryRefused, id_under, keep, new_id, nth
from wareboard.records.people.models import Member
from wareboard.records.people.shown import day
from wareboard.records.people.standing_for import stands_now

from . import queries
from .bottle import Bottle, refuse_full
from .models import BatchLine, Bucket, BucketEvent, Reading

SAID = ("full_g", "empty_g", "volume_ml", "in_bucket_l", "flow", "remembered")
MUCH = ("amount_ml", "amount_g")
WEIGHED = ("weighed_g", "lot", "remembered")
DONE = ("kind", *MUCH, "lot", "remembered")


@transaction.atomic
def correct_reading(member: Member, wrong: Reading, *, entry_id: str = "", **facts: Any) -> Reading:
    """Put a reading right: the new one keeps its time.

    What was put right before is put right from where it stands now. Where it
    already says the same, nothing is kept: the same page sent twice ends alike.

    Raises
    ------
    EntryRefused
        If the bottle cannot weigh that much, or a number cannot be kept.
    """
    stands = stands_now(wrong)
    if all(getattr(stands, name) == facts[name] for name in SAID):
        return stands
    refuse_full(facts["full_g"], Bottle(facts["empty_g"], facts["volume_ml"]))
    return keep(
        Reading,
        member,
        entry_id=entry_id,
        corrects=stands,
        bucket=stands.bucket,
        at=stands.at,
        **facts,
    )


@transaction.atomic
def correct_change(
    member: Member, wrong: BucketEvent, *, entry_id: str = "", **facts: Any
) -> BucketEvent:
    """Put right what was done to a bucket: the new row keeps its time, its bucket and its batch.

    Slop that was drawn from one bucket and filled another is one: both follow. Where the
    record already says the same, nothing is kept.
    """
    stands = stands_now(wrong)
    if all(getattr(stands, name) == facts[name] for name in DONE):
        return stands
    entry_id = entry_id or new_id()
    alike = queries.same_slop(stands)
    together = entry_id if alike else ""
    for number, other in enumerate(alike, start=1):
        much = {name: facts[name] for name in MUCH}
        _stand_for(member, other, entry_id=nth(entry_id, number), together=together, **much)
    return _stand_for(member, stands, entry_id=entry_id, together=together, **facts)


def _stand_for(
    member: Member, wrong: BucketEvent, *, entry_id: str, together: str, **facts: Any
) -> BucketEvent:
    """Keep a row that stands for a wrong one and says the same but for what is put right."""
    told = {name: getattr(wrong, name) for name in (*DONE, "bucket", "batch", "at")} | facts
    return keep(BucketEvent, member, entry_id=entry_id, together=together, corrects=wrong, **told)


@transaction.atomic
def correct_line(
    member: Member, wrong: BatchLine, *, entry_id: str = "", **facts: Any
) -> BatchLine:
    """Put right what went into a batch of one powder: its grams, or the bag they came from.

    The new row keeps batch, powder, place and time. Where the record already says the same,
    nothing is kept.
    """
    stands = stands_now(wrong)
    if all(getattr(stands, name) == facts[name] for name in WEIGHED):
        return stands
    told = {name: getattr(stands, name) for name in ("batch", "material", "position", "at")}
    return keep(BatchLine, member, entry_id=entry_id, corrects=stands, **told, **facts)


@transaction.atomic
def put_bottle_right(
    member: Member,
    bucket: Bucket,
    *,
    right: Bottle,
    everywhere: bool,
    entry_id: str,
) -> Bucket:
    """Put the bottle of a bucket right, in every reading that was taken with its wrong numbers.

    Parameters
    ----------
    member : Member
        Who does it.
    bucket : Bucket
        Whose bottle it is.
    right : Bottle
        What it really is.
    everywhere : bool
        Whether readings of other buckets with the same wrong numbers follow.
    entry_id : str
        Of the page; sent twice it is done once.

    Returns
    -------
    Bucket
        The same.

    Raises
    ------
    EntryRefused
        If a reading cannot be one of this bottle.
    """
    wrong = queries.bottle_of(bucket)
    if wrong is None or wrong == right:
        return bucket
    readings = queries.readings_with(member, wrong)
    if not everywhere:
        readings = readings.filter(bucket=bucket)
    tap = str(uuid5(NAMESPACE_OID, f"{entry_id} {right.empty_g!r} {right.volume_ml!r}"))
    for number, reading in enumerate(readings, start=1):
        _refuse(reading, right)
        facts = {name: getattr(reading, name) for name in SAID}
        facts |= {"empty_g": right.empty_g, "volume_ml": right.volume_ml}
        keep(
            Reading,
            member,
            entry_id=id_under(tap, number),
            together=tap,
            corrects=reading,
            bucket=reading.bucket,
            at=reading.at,
            **facts,
        )
    return bucket


def _refuse(reading: Reading, bottle: Bottle) -> None:
    """Name the reading that a bottle cannot have had."""
    full = full_bottle(bottle.empty_g, bottle.volume_ml)
    if full.allows(reading.full_g):
        return
    say = _("On %(day)s the full bottle weighed %(seen)s g; this one weighs %(low)s to %(high)s g.")
    raise EntryRefused(
        say
        % {
            "day": day(reading.at, "j F"),
            "seen": written(reading.full_g),
            "low": written(round(full.lowest)),
            "high": written(round(full.highest)),
        }
    )
