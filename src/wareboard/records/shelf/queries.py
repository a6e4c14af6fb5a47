"""What the shelf knows: verdicts, and what good pots had in common."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from django.db.models import (
    Case,
    CharField,
    Count,
    Exists,
    ExpressionWrapper,
    F,
    IntegerField,
    Max,
    OuterRef,
    Q,
    QuerySet,
    Subquery,
    When,
)
from django.db.models.functions import Coalesce

from wareboard.records.glazes.level import LITRES_WHERE_NOT_KNOWN, POWDER_TELLS_G_L
from wareboard.records.glazes.models import Bucket, BucketEvent, BucketEventKind, Glaze, Reading
from wareboard.records.glazes.queries import STIRRED, latest_reading
from wareboard.records.kiln.models import Firing, Placing
from wareboard.records.kiln.queries import timed_firings
from wareboard.records.people.models import Member
from wareboard.records.ware.models import Coat, Hope, Pot
from wareboard.records.ware.words import Side

from .models import HopeAnswer, Verdict
from .words import Surface, Thumb

ENOUGH_GOOD_POTS = 40
LOOKED_THROUGH = 600
"""Coats of one glaze among which the good ones are looked for, the newest."""
NEWEST_GOOD_COATS = 300
LAST_FIRINGS = 12
CHANGES = (*STIRRED, BucketEventKind.EMPTIED)
"""What makes a bucket's last weighing speak of another slop."""


@dataclass(frozen=True)
class Asked:
    """A hope or a fear, asked back at the opening.

    Attributes
    ----------
    hope : Hope
        What was hoped or feared.
    came_true : bool or None
        What was answered; None while nobody said.
    """

    hope: Hope
    came_true: bool | None


def verdicts_for(member: Member) -> QuerySet[Verdict]:
    """Give current verdicts with their faults, newest first."""
    return (
        Verdict.objects.current()
        .filter(studio=member.studio_id)
        .select_related("pot__form")
        .prefetch_related("faults")
        .order_by("-at")
    )


def verdicts_on(member: Member, pot_ids: Iterable[str]) -> dict[str, list[Verdict]]:
    """Give by pot its current verdicts with their faults, the first one first; two queries."""
    found: dict[str, list[Verdict]] = {}
    verdicts = verdicts_for(member).filter(pot__in=list(pot_ids)).order_by("at", "kept_at")
    for verdict in verdicts:
        found.setdefault(verdict.pot_id, []).append(verdict)
    return found


def lit_before(pot: Pot, when: datetime) -> datetime:
    """Give when a pot was last lit before an instant; the beginning of time where it was not."""
    placed = Placing.objects.standing().filter(
        pot=pot, load__firings__undone_at__isnull=True, load__firings__at__lte=when
    )
    last: datetime | None = placed.aggregate(at=Max("load__firings__at"))["at"]
    return last or datetime.min.replace(tzinfo=UTC)


def fired_again(
    member: Member, firing: Firing, pot_ids: Iterable[str]
) -> dict[str, tuple[datetime, str, int]]:
    """Give by pot the next firing after one, where it went into another: lit when, id, number."""
    placed = Placing.objects.seen_by(member).filter(
        pot__in=list(pot_ids),
        load__firings__undone_at__isnull=True,
        load__firings__at__gt=firing.at,
    )
    rows = placed.order_by("-load__firings__at").values_list(
        "pot", "load__firings__at", "load__firings", "load__firings__number"
    )
    return {pot_id: (at, pk, number) for pot_id, at, pk, number in rows}


def left_to_judge(member: Member, firing: Firing) -> tuple[int, int]:
    """Give how many pots of a firing nobody judged yet, and how many stood in it; one query."""
    said = Verdict.objects.current().filter(pot=OuterRef("pot"), at__gte=firing.at)
    again = Placing.objects.standing().filter(
        pot=OuterRef("pot"),
        load__firings__undone_at__isnull=True,
        load__firings__at__gt=firing.at,
    )
    placed = Placing.objects.seen_by(member).filter(
        load=firing.load_id, pot__undone_at__isnull=True
    )
    left = Count("pk", filter=~Exists(said) & ~Exists(again))
    found = placed.aggregate(left=left, pots=Count("pk"))
    return found["left"], found["pots"]


def hopes_on(member: Member, pot_ids: Iterable[str]) -> dict[str, list[Asked]]:
    """Give by pot what was hoped and feared of it, and whether it came true; one query."""
    answers = HopeAnswer.objects.standing().filter(hope=OuterRef("pk")).order_by("-at", "-kept_at")
    hopes = (
        Hope.objects.seen_by(member)
        .filter(pot__in=list(pot_ids))
        .annotate(came_true=Subquery(answers.values("came_true")[:1]))
        .order_by("at", "pk")
    )
    found: dict[str, list[Asked]] = {}
    for hope in hopes:
        found.setdefault(hope.pot_id, []).append(Asked(hope, hope.came_true))
    return found


def hopes_for(member: Member) -> QuerySet[Hope]:
    """Give hopes and fears with their pots."""
    return Hope.objects.seen_by(member).select_related("pot__form")


def _verdict_on_coat(thumb: str) -> Exists:
    """Whether the surface that a coat lies on was judged so."""
    side = ExpressionWrapper(OuterRef("side"), output_field=CharField())
    verdicts = (
        Verdict.objects.current()
        .filter(pot=OuterRef("pot"), thumb=thumb)
        .annotate(coat_side=side)
        .filter(
            Q(surface=F("coat_side"))
            | Q(surface=Surface.WHOLE)
            | Q(surface=Surface.OUTSIDE, coat_side=Side.BOTH)
        )
    )
    return Exists(verdicts)


def good_coats(member: Member, glaze: Glaze) -> QuerySet[Coat]:
    """Give the coats on surfaces that came out good, among the newest of a glaze."""
    buckets = Bucket.objects.filter(glaze=glaze).values("pk")
    newest = (
        Coat.objects.current()
        .filter(Q(bucket__in=buckets) | Q(glaze=glaze), studio=member.studio_id)
        .order_by("-at")
        .values("pk")[:LOOKED_THROUGH]
    )
    return Coat.objects.filter(pk__in=newest).filter(_verdict_on_coat(Thumb.UP)).order_by("-at")


def readings_of_good_pots(member: Member, glaze: Glaze) -> Sequence[Reading]:
    """Give the readings in force when the newest good pots of a glaze were coated."""
    coats = (
        good_coats(member, glaze)
        .annotate(
            reading=Subquery(latest_reading(OuterRef("bucket"), OuterRef("at")).values("pk")[:1])
        )
        .filter(reading__isnull=False)
        .values_list("reading", flat=True)[:ENOUGH_GOOD_POTS]
    )
    return list(Reading.objects.filter(pk__in=set(coats)).order_by(F("at").desc()))


def _readings_of_good_coats(member: Member) -> QuerySet[Any]:
    """Give the ids of the readings in force when the newest good pots were coated."""
    good: QuerySet[Any] = (
        Coat.objects.current()
        .filter(studio=member.studio_id, bucket__isnull=False)
        .filter(_verdict_on_coat(Thumb.UP))
        .order_by("-at")
        .annotate(
            reading=Subquery(latest_reading(OuterRef("bucket"), OuterRef("at")).values("pk")[:1])
        )
        .values("reading")[:NEWEST_GOOD_COATS]
    )
    return good


def readings_of_all_good_pots(member: Member) -> dict[str, list[Reading]]:
    """Give by glaze the readings in force when the newest good pots were coated; one query."""
    good = _readings_of_good_coats(member)
    found: dict[str, list[Reading]] = {}
    readings = Reading.objects.filter(pk__in=good).select_related("bucket")
    for reading in readings:
        found.setdefault(reading.bucket.glaze_id, []).append(reading)
    return found


def newest_and_good_readings(member: Member) -> tuple[list[Reading], dict[str, list[Reading]]]:
    """Give the newest reading of each bucket, and by glaze those of its good pots; one query.

    The newest ones carry ``changed_as``: what was last done to the slop after
    the weighing, None where nothing was.
    """
    newest = Reading.objects.current().filter(bucket=OuterRef("pk")).order_by("-at", "-kept_at")
    buckets = Bucket.objects.seen_by(member).annotate(newest=Subquery(newest.values("pk")[:1]))
    good = _readings_of_good_coats(member)
    litres = Coalesce(OuterRef("in_bucket_l"), LITRES_WHERE_NOT_KNOWN)
    pinch = Q(kind=BucketEventKind.POWDER_IN, amount_g__lte=POWDER_TELLS_G_L * litres)
    changed = BucketEvent.objects.current().filter(
        ~pinch, bucket=OuterRef("bucket"), at__gt=OuterRef("at"), kind__in=CHANGES
    )
    both = buckets.values("newest").union(Reading.objects.filter(pk__in=good).values("pk"))
    rows = (
        Reading.objects.filter(pk__in=both)
        .select_related("bucket__glaze")
        .annotate(
            of_good=Case(When(pk__in=good, then=True), default=False),
            changed_as=Subquery(changed.order_by("-at", "-kept_at").values("kind")[:1]),
        )
        .order_by("bucket__glaze__name", "bucket__name", "at", "kept_at")
    )
    newest_of: dict[str, Reading] = {}
    of_glaze: dict[str, list[Reading]] = {}
    for row in rows:
        if row.bucket.undone_at is None:
            newest_of[row.bucket_id] = row
        if row.of_good:
            of_glaze.setdefault(row.bucket.glaze_id, []).append(row)
    return list(newest_of.values()), of_glaze


def clock_with_verdicts(member: Member) -> list[Firing]:
    """Give the newest firings as the kiln's clock does; one query.

    Each carries ``to_judge`` beside ``shut_at`` and ``opened_at``: of the last
    one that was lit, the pots nobody has judged since; of the others none.
    """
    judged = Verdict.objects.current().filter(pot=OuterRef("pot"), at__gte=OuterRef("lit_at"))
    unjudged = (
        Placing.objects.standing()
        .filter(load=OuterRef("load"), pot__undone_at__isnull=True)
        .annotate(lit_at=OuterRef("at"))
        .filter(~Exists(judged))
        .order_by()
        .values("load")
        .annotate(n=Count("pk"))
        .values("n")
    )
    firings = timed_firings(member)
    last = Case(
        When(pk=Subquery(firings.values("pk")[:1]), then=Subquery(unjudged)),
        output_field=IntegerField(),
    )
    return list(firings.annotate(to_judge=Coalesce(last, 0))[:LAST_FIRINGS])
