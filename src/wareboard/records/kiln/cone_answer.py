"""What a cone pack says: where the tips pointed, and how that sits beside the log."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from typing import Any

from django.utils.translation import gettext as _

from wareboard.core.doubt import NORMAL_90
from wareboard.core.firing.bending import DOWN_CLOCK, UPRIGHT_CLOCK
from wareboard.core.firing.pack import COUNTED_C, ConeBeside
from wareboard.core.firing.reading_doubt import FIRING_TO_FIRING_C
from wareboard.records.people.shown import Shown

from . import spoken
from .bridge import beside_log, hours_since
from .logs import Course
from .models import ConeReading, Place
from .queries import LEVELS
from .words import Level, MomentKind

HALF = 0.5
MOVED = 1.0
READ_APART = 1.0
"""Two tips are told apart from an hour on: each is read to half an hour."""

FASTEST_C_H = 400.0
FAR_BELOW_C = 150.0
"""How fast a small gas kiln climbs at most, and how far a log may be off (common practice)."""

PYROMETER_C = NORMAL_90 * FIRING_TO_FIRING_C
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
    agrees : bool
        Whether the log lies within the doubt of what was seen; also where it says nothing.
    far : bool
        Whether it is so far from the log that it is not counted in later firings.
    """

    reading: ConeReading
    seen: str
    by_log: str
    differs: str
    doubt: str
    agrees: bool = True
    far: bool = False


def _differs(beside: ConeBeside, shown: Shown) -> tuple[str, str]:
    """Say the difference, or which way it goes; of one that is far off no number is told."""
    if beside.far:
        more = (beside.differs_c or beside.low_c or beside.high_c or 0.0) > 0
        return (_("far more than the log says") if more else _("far less than the log says")), ""
    if beside.differs_c is None or beside.within_c is None:
        if beside.agrees:
            return _("as the log says"), ""
        down = beside.clock >= DOWN_CLOCK
        return (_("more than the log says") if down else _("less than the log says")), ""
    doubt = f"(± {spoken.degrees(beside.within_c, shown)})"
    if abs(beside.differs_c) < SAME_C:
        return _("as the log says"), doubt
    words = _("%s more than the log") if beside.differs_c > 0 else _("%s less than the log")
    return words % spoken.degrees(beside.differs_c, shown), doubt


def _agrees(beside: ConeBeside) -> bool:
    """Tell whether a cone lies within its own doubt and that of a pyrometer from day to day."""
    low_c, high_c = beside.low_c, beside.high_c
    too_high = low_c is not None and low_c > PYROMETER_C
    return not too_high and (high_c is None or high_c >= -PYROMETER_C)


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
                beside is None or _agrees(beside),
                beside is not None and beside.far,
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


def which_is_trusted(told: Sequence[ConeTold]) -> str:
    """Say which counts where a cold pack and the log disagree, and why; empty where they agree."""
    if all(one.agrees for one in told if one.reading.when_cold):
        return ""
    return _(
        "The pack and the log disagree. Trust the pack: it stood among the pots and felt heat and "
        "time as they did, the pyrometer feels one spot. Where no pack stood, the log counts."
    )


def seen_against_log(told: Sequence[ConeTold], now: datetime) -> str:
    """Say what the last look saw where the log says another thing; empty where they agree."""
    hot = [one for one in told if not one.reading.when_cold]
    if not hot:
        return ""
    last = max(one.reading.at for one in hot)
    odd = [one for one in hot if one.reading.at == last and not one.agrees]
    if not odd:
        return ""
    one = odd[-1]
    return _(
        "Cone %(cone)s was seen at %(seen)s o’clock at %(at)s; by the log it would point to "
        "%(by_log)s. Trust the cone: it feels heat and time as pots do."
    ) % {
        "cone": one.reading.cone,
        "seen": one.seen,
        "at": spoken.clock(one.reading.at, now=now),
        "by_log": one.by_log,
    }


def which_is_not_counted(told: Sequence[ConeTold], shown: Shown) -> str:
    """Say of cones far from the log that they are not counted; empty where none is."""
    if not any(one.far for one in told):
        return ""
    return _(
        "A cone more than %s from the log is not counted in later firings. Look again which cone "
        "it is, and whether a line of the log is missing."
    ) % spoken.degrees(COUNTED_C, shown)


def odd_order(course: Course, clocks: Mapping[str, float]) -> str:
    """Ask about a softer cone that stands more upright than a harder one; empty where none does.

    Parameters
    ----------
    course : Course
        The firing, which knows its cones from the softest on.
    clocks : mapping of str to float
        Where each cone of one pack points.
    """
    order = course.series.table.cones
    pack = sorted((order.index(cone), at % UPRIGHT_CLOCK) for cone, at in clocks.items())
    for (softer, its), (harder, other) in pairwise(pack):
        if other - its > READ_APART:
            facts = {
                "softer": order[softer],
                "its": o_clock(its),
                "harder": order[harder],
                "other": o_clock(other),
            }
            return (
                _(
                    "Cone %(softer)s at %(its)s o’clock and the harder cone %(harder)s at "
                    "%(other)s: the softer one falls first. Look again which is which."
                )
                % facts
            )
    return ""


def too_cold(course: Course, clocks: Mapping[str, float], when: datetime, shown: Shown) -> str:
    """Ask about a cone that moved although the log never came near its heat; else empty.

    Since the last line a kiln may have climbed, as fast as any does.
    """
    read = [line for line in course.lines if line.temp_c is not None]
    if not read:
        return ""
    shut = course.moments.get(MomentKind.SHUT_OFF)
    end = min(when, shut.at) if shut else when
    climbed_c = max(hours_since(read[-1].at, end), 0.0) * FASTEST_C_H
    hottest_c = max(line.temp_c or 0.0 for line in read)
    order = course.series.table.cones
    for cone, clock in clocks.items():
        falls_c = float(course.series.table.ordinary_c[order.index(cone)])
        if clock % UPRIGHT_CLOCK >= MOVED and hottest_c + climbed_c < falls_c - FAR_BELOW_C:
            return _(
                "Cone %(cone)s falls at about %(falls)s, and the log shows no more than "
                "%(hottest)s. Look again which cone it is, and whether a line is missing."
            ) % {
                "cone": cone,
                "falls": shown.temperature(round(falls_c, -1)),
                "hottest": shown.temperature(hottest_c),
            }
    return ""


def usual_cones(course: Course) -> list[str]:
    """Give the cones that stand in a pack: those read before, else around the end cone."""
    chain = [course.series.table.cones[i] for i in course.series.table.chain]
    read = {reading.cone for reading in course.cones}
    end = course.firing.load.kiln.end_cone
    if end in chain:
        at = chain.index(end)
        read |= set(chain[max(at - 1, 0) : at + 2])
    return [cone for cone in course.series.table.cones if cone in read]
