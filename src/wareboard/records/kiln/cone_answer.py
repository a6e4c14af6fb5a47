"""What a cone pack says: where the tips pointed, and how that sits beside the log."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from wareboard.core.firing.bending import DOWN_CLOCK, UPRIGHT_CLOCK
from wareboard.core.firing.pack import ConeBeside
from wareboard.records.people.shown import Shown

from . import spoken
from .bridge import beside_log, hours_since
from .logs import Course
from .models import ConeReading, Place
from .queries import LEVELS
from .words import Level

HALF = 0.5
ON_ITS_WAY = (0.5, 5.5)
SAME_C = 1.0
SEVERAL = 2


def o_clock(clock: float) -> str:
    """Write where a tip points, to the half hour: 12, 12½, 1 … 6."""
    hour = 0.0 if clock == UPRIGHT_CLOCK else clock
    halves = round(hour / HALF)
    whole, half = divmod(halves, 2)
    return f"{whole or 12}{'½' if half else ''}"


def place_words(place: Place) -> str:
    """Name a place in the kiln."""
    return f"{place.get_level_display()} {place.name}".strip()


def _telling(readings: Sequence[ConeReading], end_cone: str) -> str:
    """Choose the cone a pack is told by: the end cone, else the one that moved last."""
    cones = {reading.cone for reading in readings}
    if end_cone in cones:
        return end_cone
    moving = [r for r in readings if ON_ITS_WAY[0] < r.clock % UPRIGHT_CLOCK < ON_ITS_WAY[1]]
    return (moving or list(readings))[-1].cone


def pack_words(readings: Sequence[ConeReading], end_cone: str) -> str:
    """Say the cold packs of a firing in one line: cone 9 at 5 o'clock top and middle, 3 bottom.

    Parameters
    ----------
    readings : sequence of ConeReading
        Of one firing, with places at hand.
    end_cone : str
        The cone that the kiln is usually fired to.
    """
    cold = [reading for reading in readings if reading.when_cold]
    if not cold:
        return ""
    cone = _telling(cold, end_cone)
    by_clock: dict[str, list[str]] = {}
    found = [reading for reading in cold if reading.cone == cone]
    found.sort(key=lambda r: LEVELS[Level(r.place.level)] if r.place else len(LEVELS))
    for reading in found:
        where = place_words(reading.place) if reading.place else ""
        by_clock.setdefault(o_clock(reading.clock), []).append(where)
    if len(by_clock) == 1 and len(found) > SEVERAL:
        clock = next(iter(by_clock))
        say = _("cone %(cone)s at %(clock)s o’clock on every shelf")
        return say % {"cone": cone, "clock": clock}
    parts: list[str] = []
    for clock, places in by_clock.items():
        where = _(" and ").join(place for place in places if place)
        hour = clock if parts else _("%s o’clock") % clock
        parts.append(f"{hour} {where}".strip())
    return _("cone %(cone)s at %(clocks)s") % {"cone": cone, "clocks": ", ".join(parts)}


@dataclass(frozen=True)
class ConeTold:
    """A cone that was read, beside the log.

    Attributes
    ----------
    reading : ConeReading
        What was read.
    seen, by_log : str
        Where it pointed, and where it would point by the log; empty where that is not known.
    differs, doubt : str
        What it had less what the log says.
    """

    reading: ConeReading
    seen: str
    by_log: str
    differs: str
    doubt: str


def _differs(beside: ConeBeside, shown: Shown) -> tuple[str, str]:
    """Say the difference, or which way it goes."""
    if beside.differs_c is None or beside.low_c is None:
        if beside.agrees:
            return _("as the log says"), ""
        down = beside.clock >= DOWN_CLOCK
        return (_("more than the log says") if down else _("less than the log says")), ""
    half_c = beside.differs_c - beside.low_c
    if beside.high_c is not None:
        half_c = (beside.high_c - beside.low_c) / 2
    doubt = f"(± {spoken.degrees(half_c, shown)})"
    if abs(beside.differs_c) < SAME_C:
        return _("as the log says"), doubt
    words = _("%s more than the log") if beside.differs_c > 0 else _("%s less than the log")
    return words % spoken.degrees(beside.differs_c, shown), doubt


def cones_told(course: Course, shown: Shown) -> list[ConeTold]:
    """Hold every cone that was read in a firing against its log, from the top shelf down.

    Parameters
    ----------
    course : Course
        The firing.
    shown : Shown
        How this studio reads numbers.
    """
    told = []
    for reading in course.cones:
        hours = hours_since(course.firing.at, reading.at)
        beside = beside_log(course.series, course.log, reading, hours)
        differs, doubt = _differs(beside, shown) if beside else ("", "")
        told.append(
            ConeTold(
                reading,
                o_clock(reading.clock),
                o_clock(beside.log_clock) if beside else "",
                differs,
                doubt,
            )
        )

    def order(one: ConeTold) -> tuple[Any, ...]:
        place = one.reading.place
        shelf = LEVELS[Level(place.level)] if place else len(LEVELS)
        cold = one.reading.when_cold
        cone = one.reading.cone
        known = course.series.table.cones
        rank = known.index(cone) if cone in known else len(known)
        return (not cold, shelf if cold else one.reading.at.timestamp(), rank)

    return sorted(told, key=order)


def usual_cones(course: Course) -> list[str]:
    """Give the cones that stand in a pack: those read before, else around the end cone."""
    chain = [course.series.table.cones[i] for i in course.series.table.chain]
    read = {reading.cone for reading in course.cones}
    end = course.firing.load.kiln.end_cone
    if end in chain:
        at = chain.index(end)
        read |= set(chain[max(at - 1, 0) : at + 2])
    return [cone for cone in course.series.table.cones if cone in read]
