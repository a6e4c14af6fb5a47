"""What the kiln room holds, as a member may see it."""

from collections.abc import Iterable, Mapping

from django.db.models import Count, Exists, OuterRef, QuerySet, Subquery

from wareboard.records.people.models import Member
from wareboard.records.ware.models import Pot

from .models import ConeReading, Firing, GoodFiring, Kiln, Load, LogLine, Moment, Placing
from .words import REDUCING, MomentKind


def kilns_for(member: Member) -> QuerySet[Kiln]:
    """Give kilns by name."""
    return Kiln.objects.seen_by(member).order_by("name")


def loads_for(member: Member) -> QuerySet[Load]:
    """Give loads with how many pots they hold and when they were lit, newest first."""
    placed = (
        Placing.objects.standing()
        .filter(load=OuterRef("pk"))
        .order_by()
        .values("load")
        .annotate(n=Count("pk"))
        .values("n")
    )
    lit = Firing.objects.standing().filter(load=OuterRef("pk")).order_by("-at")
    loads: QuerySet[Load] = (
        Load.objects.seen_by(member)
        .select_related("kiln")
        .annotate(
            pots=Subquery(placed),
            firing_id=Subquery(lit.values("pk")[:1]),
            lit_at=Subquery(lit.values("at")[:1]),
        )
        .order_by("-at")
    )
    return loads


def firings_for(member: Member) -> QuerySet[Firing]:
    """Give firings, newest first."""
    return Firing.objects.seen_by(member).select_related("load__kiln").order_by("-at")


def good_firing(member: Member, kiln: Kiln) -> Firing | None:
    """Give the firing last called the good one of a kiln."""
    called = (
        GoodFiring.objects.seen_by(member)
        .filter(firing__load__kiln=kiln)
        .select_related("firing__load__kiln")
        .order_by("-at")
        .first()
    )
    return called.firing if called else None


def lines_of(firing: Firing) -> QuerySet[LogLine]:
    """Give the current lines of a firing's log in order."""
    return LogLine.objects.current().filter(firing=firing).order_by("at")


def firings_of_pots(member: Member, pot_ids: Iterable[str]) -> Mapping[str, Placing]:
    """Give for each pot the placing of its last firing, with firing and place.

    Each placing carries ``firing_id``, ``firing_number``, ``lit_at`` and
    ``reduction_c``: the temperature of the first line with a reducing flame.
    """
    firing = Firing.objects.standing().filter(load=OuterRef("load"))
    reducing = (
        LogLine.objects.current()
        .filter(
            firing__load=OuterRef("load"),
            firing__undone_at__isnull=True,
            flame__in=REDUCING,
            temp_c__isnull=False,
        )
        .order_by("at")
    )
    placings = (
        Placing.objects.seen_by(member)
        .filter(
            pot__in=list(pot_ids),
            load__firings__undone_at__isnull=True,
            load__firings__isnull=False,
        )
        .select_related("place")
        .annotate(
            firing_id=Subquery(firing.values("pk")[:1]),
            firing_number=Subquery(firing.values("number")[:1]),
            lit_at=Subquery(firing.values("at")[:1]),
            reduction_c=Subquery(reducing.values("temp_c")[:1]),
        )
        .order_by("lit_at")
    )
    return {placing.pot_id: placing for placing in placings}


def cones_of_firings(firing_ids: Iterable[str]) -> Mapping[tuple[str, str], list[ConeReading]]:
    """Give the cones as read cold, by firing and level, lowest cone first."""
    found: dict[tuple[str, str], list[ConeReading]] = {}
    readings = (
        ConeReading.objects.current()
        .filter(firing__in=list(firing_ids), when_cold=True, place__isnull=False)
        .select_related("place")
        .order_by("cone")
    )
    for reading in readings:
        if reading.place is not None:
            found.setdefault((reading.firing_id, reading.place.level), []).append(reading)
    return found


def pots_in(load: Load) -> list[Pot]:
    """Give the pots of a load with their forms; one query."""
    placings = (
        Placing.objects.standing()
        .filter(load=load, pot__undone_at__isnull=True)
        .select_related("pot__form")
        .order_by("at", "pk")
    )
    return [placing.pot for placing in placings]


def clock_of(member: Member, *, last: int = 12) -> list[Firing]:
    """Give the newest firings with when they were shut off and opened.

    Each carries ``shut_at`` and ``opened_at``, None where it has not happened.
    """

    def moment(kind: str) -> Subquery:
        moments = Moment.objects.standing().filter(firing=OuterRef("pk"), kind=kind)
        return Subquery(moments.order_by("at").values("at")[:1])

    firings = (
        Firing.objects.seen_by(member)
        .select_related("load__kiln")
        .annotate(shut_at=moment(MomentKind.SHUT_OFF), opened_at=moment(MomentKind.OPENED))
        .order_by("-at")
    )
    return list(firings[:last])


def waiting_load(member: Member) -> list[Placing]:
    """Give what stands in the newest load that has not been lit; one query."""
    lit = Firing.objects.standing().filter(load=OuterRef("pk"))
    newest = (
        Load.objects.seen_by(member)
        .filter(~Exists(lit))
        .order_by("-at", "-kept_at")
        .values("pk")[:1]
    )
    return list(
        Placing.objects.seen_by(member)
        .filter(load=Subquery(newest), pot__undone_at__isnull=True)
        .select_related("load__kiln", "pot__form", "place")
        .order_by("at", "pk")
    )
