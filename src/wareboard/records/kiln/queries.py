"""What the kiln room holds, as a member may see it."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db.models import Count, Exists, OuterRef, Q, QuerySet, Subquery
from django.utils import timezone

from wareboard.records.people.models import Member
from wareboard.records.people.read_once import read_once
from wareboard.records.people.undoing import UNDO_WINDOW
from wareboard.records.ware.models import Pot, Standing, Weighing
from wareboard.records.ware.queries import MOST_ON_BOARDS, pots_for, standings_now
from wareboard.records.ware.words import WeighingState
from wareboard.refdata.cones import all_cone_points

from .models import (
    ConeReading,
    Firing,
    FuelWeight,
    GoodFiring,
    Kiln,
    Load,
    LogLine,
    Moment,
    Place,
    Placing,
    ShelfPhoto,
)
from .words import REDUCING, Level, MomentKind

PAGE = 50
LAST_LOADS = 6
LEVELS = {Level.TOP: 0, Level.MIDDLE: 1, Level.BOTTOM: 2}


def kilns_for(member: Member) -> QuerySet[Kiln]:
    """Give kilns by name."""
    return Kiln.objects.seen_by(member).order_by("name", "pk")


def places_by_kiln(member: Member) -> dict[str, list[Place]]:
    """Give the places of every kiln from top to bottom; one query."""
    found: dict[str, list[Place]] = {}
    for place in from_the_top(Place.objects.seen_by(member).order_by("name", "pk")):
        found.setdefault(place.kiln_id, []).append(place)
    return found


def places_of(kiln: Kiln) -> list[Place]:
    """Give the places of a kiln from top to bottom; one query."""
    places = Place.objects.standing().filter(kiln=kiln).order_by("name", "pk")
    return from_the_top(places)


def from_the_top(places: Iterable[Place]) -> list[Place]:
    """Sort places as they lie in the kiln, the top shelf first."""
    return sorted(places, key=lambda place: LEVELS[Level(place.level)])


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
    return Firing.objects.seen_by(member).select_related("load__kiln").order_by("-at", "-pk")


def last_lit_with(member: Member, pot: Pot) -> datetime | None:
    """Give when a load with a pot in it was last lit; None for a pot that never was."""
    placed = Placing.objects.standing().filter(pot=pot).values("load")
    lit: QuerySet[Firing] = Firing.objects.seen_by(member).filter(load__in=placed)
    return lit.order_by("-at").values_list("at", flat=True).first()


def _moment(kind: str) -> Subquery:
    moments = Moment.objects.standing().filter(firing=OuterRef("pk"), kind=kind)
    return Subquery(moments.order_by("at").values("at")[:1])


def timed_firings(member: Member) -> QuerySet[Firing]:
    """Give firings, newest first, with ``shut_at`` and ``opened_at`` where it has happened."""
    firings: QuerySet[Firing] = (
        Firing.objects.seen_by(member)
        .select_related("load__kiln")
        .annotate(shut_at=_moment(MomentKind.SHUT_OFF), opened_at=_moment(MomentKind.OPENED))
        .order_by("-at", "-pk")
    )
    return firings


def firings_after(member: Member, last: Firing | None) -> tuple[list[Firing], bool]:
    """Give the page of firings that follows one of them, and whether more follow.

    Parameters
    ----------
    member : Member
        Who asks.
    last : Firing or None
        The last one that was shown; None for the first page.
    """
    firings = timed_firings(member)
    if last is not None:
        firings = firings.filter(Q(at__lt=last.at) | Q(at=last.at, pk__lt=last.pk))
    found = list(firings[: PAGE + 1])
    return found[:PAGE], len(found) > PAGE


def good_ones(member: Member) -> set[str]:
    """Give the firing that is the good one of each kiln; one query."""
    called = GoodFiring.objects.seen_by(member).filter(firing__undone_at__isnull=True)
    rows = called.order_by("at", "kept_at").values_list("firing__load__kiln", "firing")
    return set(dict(rows).values())


def called_good(member: Member, kiln: Kiln) -> GoodFiring | None:
    """Give the last time a firing of a kiln was called the good one, with the firing."""
    called: GoodFiring | None = (
        GoodFiring.objects.seen_by(member)
        .filter(firing__load__kiln=kiln, firing__undone_at__isnull=True)
        .select_related("firing__load__kiln")
        .order_by("-at", "-kept_at")
        .first()
    )
    return called


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


def firings_of_many(member: Member, pot_ids: Sequence[str]) -> Mapping[str, list[Placing]]:
    """Give by pot its placings in every firing, the first lit first; three queries.

    They carry what :func:`firings_of_pots` gives; each firing and place is read once.
    """
    placings = list(Placing.objects.seen_by(member).filter(pot__in=pot_ids))
    reducing = (
        LogLine.objects.current()
        .filter(firing=OuterRef("pk"), flame__in=REDUCING, temp_c__isnull=False)
        .order_by("at")
    )
    firings = Firing.objects.standing().filter(load__in={one.load_id for one in placings})
    facts = {
        load_id: (pk, number, at, temp_c)
        for load_id, pk, number, at, temp_c in firings.values_list(
            "load", "pk", "number", "at", Subquery(reducing.values("temp_c")[:1])
        )
    }
    places = {place.pk: place for place in Place.objects.filter(kiln__studio=member.studio_id)}
    fired = [placing for placing in placings if placing.load_id in facts]
    for one in fired:
        one.place = places.get(one.place_id or "")
        one.firing_id, one.firing_number, one.lit_at, one.reduction_c = facts[one.load_id]
    found: dict[str, list[Placing]] = {}
    for one in sorted(fired, key=lambda one: one.lit_at):
        found.setdefault(one.pot_id, []).append(one)
    return found


def cones_of_firings(firing_ids: Iterable[str]) -> Mapping[tuple[str, str], list[ConeReading]]:
    """Give the cones as read cold, by firing and level, softest cone first as on the chart."""
    order = {point.cone: point.order for point in all_cone_points()}
    found: dict[tuple[str, str], list[ConeReading]] = {}
    readings = (
        ConeReading.objects.current()
        .filter(firing__in=list(firing_ids), when_cold=True, place__isnull=False)
        .select_related("place")
    )
    for reading in sorted(readings, key=lambda one: (order.get(one.cone, len(order)), one.cone)):
        if reading.place is not None:
            found.setdefault((reading.firing_id, reading.place.level), []).append(reading)
    return found


def standing_in(load: Load) -> list[Placing]:
    """Give what stands in a load, with pots, forms and places; one query."""
    placings = Placing.objects.standing().filter(load=load, pot__undone_at__isnull=True)
    return read_once(placings.order_by("at", "pk"), "pot__form", "place")


def pots_in(load: Load) -> list[Pot]:
    """Give the pots of a load with their forms; one query."""
    return [placing.pot for placing in standing_in(load)]


def placings_for(member: Member) -> QuerySet[Placing]:
    """Give what stands in loads."""
    return Placing.objects.seen_by(member).select_related("load__kiln", "pot__form", "place")


def placings_ever(member: Member) -> QuerySet[Placing]:
    """Give what stands in loads, or stood in them and was taken out."""
    return Placing._base_manager.filter(studio=member.studio_id).select_related("load", "pot")


def waiting_placings(member: Member, pot_ids: Sequence[str]) -> list[Placing]:
    """Give where some pots stand in loads that were not lit; one query."""
    lit = Firing.objects.standing().filter(load=OuterRef("load"))
    waits = placings_for(member).filter(~Exists(lit), load__undone_at__isnull=True)
    return list(waits.filter(pot__in=pot_ids).order_by("at", "pk"))


def in_and_just_out(load: Load) -> tuple[list[Placing], Placing | None]:
    """Give what stands in a load, and what was taken out of it last and may go back; one query."""
    since = timezone.now() - UNDO_WINDOW
    placings = Placing._base_manager.filter(
        Q(undone_at__isnull=True) | Q(undone_at__gte=since),
        load=load,
        pot__undone_at__isnull=True,
    )
    found = read_once(placings.order_by("at", "pk"), "pot__form", "place")
    stands = [placing for placing in found if placing.undone_at is None]
    inside = {placing.pot_id for placing in stands}
    out = [one for one in found if one.undone_at is not None and one.pot_id not in inside]
    return stands, max(out, key=lambda one: one.undone_at or since, default=None)


def unlit(member: Member) -> QuerySet[Load]:
    """Give the loads that were not lit, the newest first."""
    lit = Firing.objects.standing().filter(load=OuterRef("pk"))
    return loads_for(member).filter(~Exists(lit)).order_by("-at", "-kept_at")


def sizes_of_last_loads(kiln: Kiln) -> list[int]:
    """Give how many pots the last loads of a kiln had when they were lit; one query."""
    last = Firing.objects.standing().filter(load__kiln=kiln).order_by("-at").values("load")
    sizes = (
        Placing.objects.standing()
        .filter(load__in=last[:LAST_LOADS])
        .order_by()
        .values("load")
        .annotate(pots=Count("pk"))
    )
    return list(sizes.values_list("pots", flat=True))


def waiting_pots(member: Member, *, again: bool = False) -> QuerySet[Pot]:
    """Give the pots that may go into a load, newest first.

    Parameters
    ----------
    member : Member
        Who asks.
    again : bool
        Those that were fired and stand in no load that waits, instead of those
        that never were in one.
    """
    placed = Placing.objects.standing().filter(pot=OuterRef("pk"))
    lit = Firing.objects.standing().filter(load=OuterRef("load"))
    fired = Weighing.objects.current().filter(pot=OuterRef("pk"), state=WeighingState.FIRED)
    pots = pots_for(member)
    if again:
        waits = placed.filter(~Exists(lit))
        return pots.filter(Exists(placed) | Exists(fired)).filter(~Exists(waits))
    return pots.filter(~Exists(placed), ~Exists(fired))


def known_pots(member: Member, pot_ids: Sequence[str]) -> list[Pot]:
    """Give some pots in the order they were made; unknown ids are left out."""
    return list(pots_for(member).filter(pk__in=pot_ids).order_by("at", "pk"))


def waiting_on_boards(member: Member) -> list[Standing]:
    """Give the pots that stand on boards and may go into a load, board by board; one query."""
    waits = waiting_pots(member).order_by().values("pk")
    standings = standings_now(member).filter(pot__in=waits).select_related("board")
    return list(standings.order_by("board__name", "at", "pk")[:MOST_ON_BOARDS])


def boards_that_wait(member: Member) -> list[Standing]:
    """Give all that stands on the boards of these pots, each with ``waits``; one query."""
    waits = waiting_pots(member).order_by().filter(pk=OuterRef("pot"))
    standings: QuerySet[Any] = standings_now(member).select_related("board")
    found = standings.annotate(waits=Exists(waits)).order_by("board__name", "at", "pk")
    every = list(found[: 4 * MOST_ON_BOARDS])
    with_them = {one.board_id for one in every if one.waits}
    return [one for one in every if one.board_id in with_them]


def shelf_photos(firing: Firing) -> list[ShelfPhoto]:
    """Give the photos of the shelves as they were found."""
    photos = ShelfPhoto.objects.standing().filter(firing=firing)
    return list(photos.select_related("original").order_by("at", "pk"))


def moments_of(firing: Firing) -> dict[str, Moment]:
    """Give what happened once in a firing, by kind."""
    moments = Moment.objects.standing().filter(firing=firing).order_by("at")
    return {moment.kind: moment for moment in moments}


def last_temp_c(firing: Firing) -> float | None:
    """Give the last temperature of a firing's log [°C]."""
    read = lines_of(firing).filter(temp_c__isnull=False).order_by("-at")
    return read.values_list("temp_c", flat=True).first()


def fuel_of(firing: Firing) -> tuple[list[FuelWeight], datetime | None]:
    """Give the cylinders of a firing as they were weighed, and when its door was sealed."""
    weights = FuelWeight.objects.current().filter(firing=firing).order_by("at", "kept_at")
    sealed = Moment.objects.standing().filter(firing=firing, kind=MomentKind.SEALED)
    return list(weights), sealed.values_list("at", flat=True).first()


def lines_for(member: Member) -> QuerySet[LogLine]:
    """Give the current log lines."""
    lines: QuerySet[LogLine] = LogLine.objects.current().filter(studio=member.studio_id)
    return lines.select_related("firing__load__kiln")


def waiting_load(member: Member) -> list[Placing]:
    """Give what stands in the newest load that has not been lit; one query."""
    lit = Firing.objects.standing().filter(load=OuterRef("pk"))
    newest = (
        Load.objects.seen_by(member)
        .filter(~Exists(lit))
        .order_by("-at", "-kept_at")
        .values("pk")[:1]
    )
    placings = Placing.objects.seen_by(member).filter(
        load=Subquery(newest), pot__undone_at__isnull=True
    )
    return read_once(placings.order_by("at", "pk"), "load__kiln", "pot__form", "place")
