"""What a potter does in the kiln room: each is kept whole or not at all."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from django.db import transaction
from django.db.models import Max
from django.utils import timezone
from django.utils.translation import gettext as _

from wareboard.records.people.entry import EntryRefused, id_under, keep, new_id, nth
from wareboard.records.people.models import Member
from wareboard.records.people.standing_for import stands_now
from wareboard.records.pictures.actions import keep_original
from wareboard.records.pictures.storage import Incoming
from wareboard.records.ware.drawn import name_of
from wareboard.records.ware.models import Air, Pot, Standing
from wareboard.records.ware.queries import standings_now

from . import queries
from .models import (
    ConeReading,
    Firing,
    FuelWeight,
    GoodFiring,
    Kiln,
    Load,
    LogLine,
    Place,
    Placing,
    ShelfPhoto,
)
from .spoken import same_minute
from .words import Level

SAID = ("temp_c", "damper", "pressure_kpa", "flame", "note", "remembered")
"""What a line of the log says, beside its time."""


def say_air(member: Member, **facts: Any) -> Air:
    """Keep how the air is today."""
    return keep(Air, member, **facts)


@transaction.atomic
def new_kiln(member: Member, *, entry_id: str = "", **facts: Any) -> Kiln:
    """Keep a kiln with its three shelves, to be taken back together."""
    tap = entry_id or new_id()
    kiln = keep(Kiln, member, entry_id=nth(tap, 0), together=tap, **facts)
    for number, level in enumerate(Level, start=1):
        keep(Place, member, entry_id=nth(tap, number), together=tap, kiln=kiln, level=level)
    return kiln


def new_load(member: Member, kiln: Kiln, **facts: Any) -> Load:
    """Begin a load."""
    return keep(Load, member, kiln=kiln, **facts)


def _refuse_if_lit(load: Load) -> None:
    if Firing.objects.standing().filter(load=load).exists():
        raise EntryRefused(_("This load was lit already: nothing goes in or out of it any more."))


@transaction.atomic
def put_in(
    member: Member, load: Load, pots: Sequence[Pot], place: Place | None, *, entry_id: str = ""
) -> list[Placing]:
    """Put pots into a load; those that stand in it already stay where they are.

    Raises
    ------
    EntryRefused
        If the load was lit, or a pot stands in another load that waits.
    """
    tap = entry_id or new_id()
    before = list(Placing.objects.filter(studio=member.studio_id, together=tap))
    if before:
        return before
    _refuse_if_lit(load)
    here: set[str] = set()
    for placing in queries.waiting_placings(member, [pot.pk for pot in pots]):
        if placing.load_id != load.pk:
            raise EntryRefused(
                _("%(pot)s stands in %(load)s: take it out there first.")
                % {"pot": name_of(placing.pot), "load": placing.load.name or placing.load.kiln}
            )
        here.add(placing.pot_id)
    now = timezone.now()
    going = [pot for pot in pots if pot.pk not in here]
    return [
        keep(
            Placing,
            member,
            entry_id=nth(tap, number),
            together=tap,
            at=now,
            load=load,
            pot=pot,
            place=place,
        )
        for number, pot in enumerate(going, start=1)
    ]


@transaction.atomic
def take_out(placing: Placing) -> None:
    """Take a pot out of a load that was not lit.

    Raises
    ------
    EntryRefused
        If the load was lit.
    """
    if placing.undone_at is not None:
        return
    _refuse_if_lit(placing.load)
    placing.undone_at = timezone.now()
    placing.save(update_fields=["undone_at"])


@transaction.atomic
def put_back(member: Member, placing: Placing) -> Placing:
    """Put a pot back where it was taken out; it stays where it stands meanwhile."""
    stands = queries.waiting_placings(member, [placing.pot_id])
    if stands:
        return stands[0]
    _refuse_if_lit(placing.load)
    return keep(
        Placing,
        member,
        at=placing.at,
        remembered=placing.remembered,
        load=placing.load,
        pot=placing.pot,
        place=placing.place,
    )


@transaction.atomic
def light(member: Member, load: Load, *, entry_id: str = "", **facts: Any) -> Firing:
    """Light a load: the next firing of its kiln begins now; its pots leave their boards.

    Raises
    ------
    EntryRefused
        If the load was lit before.
    """
    before: Firing | None = Firing.objects.standing().filter(load=load).first()
    if before is not None:
        if before.pk == entry_id:
            return before
        raise EntryRefused(_("This load was lit already: it is firing %d.") % before.number)
    last = Firing.objects.standing().filter(load__kiln=load.kiln).aggregate(n=Max("number"))["n"]
    tap = entry_id or new_id()
    firing = keep(
        Firing, member, entry_id=tap, together=tap, load=load, number=(last or 0) + 1, **facts
    )
    in_it = {pot.pk for pot in queries.pots_in(load)}
    leaving = [one.pot for one in standings_now(member) if one.pot_id in in_it]
    for number, pot in enumerate(leaving, start=1):
        keep(Standing, member, entry_id=nth(tap, number), together=tap, at=firing.at, pot=pot)
    return firing


def write_line(member: Member, firing: Firing, **facts: Any) -> LogLine:
    """Keep a line of the log; it is stamped with the time where it brings none."""
    return keep(LogLine, member, firing=firing, **facts)


def _says(line: LogLine, told: Mapping[str, Any]) -> bool:
    """Tell whether a line says what is told, its time to the minute."""
    same = all(getattr(line, name) == told[name] for name in SAID)
    return same and same_minute(line.at, told["at"])


@transaction.atomic
def correct_line(member: Member, line: LogLine, *, entry_id: str = "", **facts: Any) -> LogLine:
    """Put a line right: a second one names the first, and keeps what is not told anew.

    What was put right before is put right from where it stands now. Where it
    already says the same, nothing is kept; an old page that is sent again with
    something else in it is another correction.
    """
    stands = stands_now(line)
    told = {name: getattr(stands, name) for name in (*SAID, "at")} | facts
    if _says(stands, told):
        return stands
    sent: LogLine | None = LogLine._base_manager.filter(
        pk=entry_id, studio=member.studio_id
    ).first()
    if sent is not None and not _says(sent, told):
        entry_id = id_under(entry_id, sorted(told.items()))
    return keep(LogLine, member, entry_id=entry_id, firing=stands.firing, corrects=stands, **told)


@transaction.atomic
def read_cones(
    member: Member,
    firing: Firing,
    place: Place | None,
    clocks: Mapping[str, float],
    *,
    when_cold: bool,
    entry_id: str = "",
    **facts: Any,
) -> list[ConeReading]:
    """Keep how the cones of one pack stand.

    A cone read again in the cold kiln puts its earlier reading right; through
    the spy-hole each look is a reading of its own.
    """
    tap, now = entry_id or new_id(), timezone.now()
    before: dict[str, ConeReading] = {}
    if when_cold:
        cold = ConeReading.objects.current().filter(firing=firing, place=place, when_cold=True)
        before = {reading.cone: reading for reading in cold.exclude(together=tap)}
    return [
        keep(
            ConeReading,
            member,
            **{
                "at": now,
                **facts,
                "entry_id": nth(tap, number),
                "together": tap,
                "firing": firing,
                "place": place,
                "cone": cone,
                "clock": clock,
                "when_cold": when_cold,
                "corrects": before.get(cone),
            },
        )
        for number, (cone, clock) in enumerate(clocks.items(), start=1)
    ]


def weigh_cylinder(member: Member, firing: Firing, **facts: Any) -> FuelWeight:
    """Keep what the scale said of a gas cylinder."""
    return keep(FuelWeight, member, firing=firing, **facts)


@transaction.atomic
def call_good(member: Member, firing: Firing, *, entry_id: str = "") -> GoodFiring:
    """Call a firing the good one of its kiln, from now on."""
    called = GoodFiring.objects.standing().filter(firing__load__kiln=firing.load.kiln)
    last: GoodFiring | None = called.order_by("-at", "-kept_at").first()
    if last is not None and last.firing_id == firing.pk:
        return last
    return keep(GoodFiring, member, entry_id=entry_id, firing=firing)


@transaction.atomic
def photograph_shelf(
    member: Member,
    firing: Firing,
    level: Level,
    photos: Iterable[Incoming],
    *,
    entry_id: str = "",
    **facts: Any,
) -> list[ShelfPhoto]:
    """Keep photos of a shelf as it was found.

    Raises
    ------
    FileRefused
        If a file is no photo; then none of them is kept.
    """
    tap = entry_id or new_id()
    kept = []
    for number, photo in enumerate(photos, start=1):
        original = keep_original(member, photo, entry_id=nth(tap, 2 * number), together=tap)
        kept.append(
            keep(
                ShelfPhoto,
                member,
                entry_id=nth(tap, 2 * number + 1),
                together=tap,
                firing=firing,
                level=level,
                original=original,
                **facts,
            )
        )
    return kept
