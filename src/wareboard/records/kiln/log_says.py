"""What a firing log says beside its first sentence: cones, the hour, reduction, milestones."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.translation import gettext as _

from wareboard.core.answer import Answer, Interval
from wareboard.core.doubt import NORMAL_90
from wareboard.core.drying import SLOW_START_C
from wareboard.core.firing.ahead import PATH_SHARE
from wareboard.core.firing.bending import UPRIGHT_CLOCK
from wareboard.core.firing.beside import SLOWEST_C_H, Milestone, next_milestone
from wareboard.core.firing.chain import ConeReading as Reading
from wareboard.core.firing.chain import Place as Where
from wareboard.core.firing.chain import reading_at
from wareboard.core.firing.cone import ConeResult
from wareboard.core.firing.flame import hours_with
from wareboard.records.people.shown import Shown

from . import spoken
from .bridge import hours_since
from .logs import Course
from .words import REDUCING

STEAM_FROM_C, STEAM_TO_C, STEAM_C_H = 60.0, 200.0, 60.0
"""Where steam bursts pots, and the rate not to go over for thin walls (common practice)."""

LATE_REDUCTION_C = 25.0
NOT_YET_C = 15.0
STEAM_C = 100.0
"""Where water boils: past it the steam has gone. What a slow start stays below is another."""

QUARTZ_C = 573.0
WIDEST_FORECAST_H = 5.0
FAR_CONES = 20
WIDEST_CONES = 4.0
"""A reading that may be off by more from end to end is not told as a cone."""

DOWN_FROM_CLOCK = 5.0
FARTHEST_MILESTONE_H = 4.0
SHORTEST_REDUCTION_H = 0.1
TEN_MIN, STEP_MIN = 10, 5
QUARTERS = ("", "¼", "½", "¾")


@dataclass(frozen=True)
class Said:
    """One thing a log says: its doubt, how far it may be believed, and the line it rests on."""

    say: str
    doubt: str = ""
    trust: str = ""
    n: int = 0
    line_id: str = ""


def cone_words(reading: Reading) -> str:
    """Write a reading to a quarter of a cone, for the ends of a doubt; 01 and below whole."""
    if reading.place is not Where.WITHIN:
        return reading.words
    if reading.cone.startswith("0"):
        return reading.nearer
    quarter = round(reading.fraction * 4)
    cone = reading.next_cone if quarter == len(QUARTERS) else reading.cone
    return f"{cone}{QUARTERS[quarter % len(QUARTERS)]}"


def cones_between(course: Course, doubt: Interval | None) -> str:
    """Write a doubt of a reading in cones: (7¾–8¾)."""
    if doubt is None:
        return ""
    low, high = (reading_at(course.series.table, end) for end in (doubt.low, doubt.high))
    return f"({cone_words(low)}–{cone_words(high)})"


def _too_wide(course: Course, doubt: Interval | None) -> bool:
    """Tell whether a reading is known to no fewer than some cones."""
    if doubt is None:
        return False
    chain = [course.series.table.cones[i] for i in course.series.table.chain]
    low, high = (reading_at(course.series.table, end) for end in (doubt.low, doubt.high))
    apart = chain.index(high.cone) + high.fraction - chain.index(low.cone) - low.fraction
    return apart > WIDEST_CONES


def _far_to_go(course: Course, reading: Reading) -> bool:
    """Tell whether a reading is so far below the end cone that it is of no use yet."""
    chain = [course.series.table.cones[i] for i in course.series.table.chain]
    end = course.firing.load.kiln.end_cone
    return end in chain and chain.index(end) - chain.index(reading.cone) > FAR_CONES


def _stage(course: Course, answer: Answer[ConeResult], name: str, say: str) -> Said | None:
    """Say the reading of one stage; None outside the chart, or long before the end cone."""
    equivalent_c = getattr(answer.result, name).equivalent_c
    if equivalent_c is None:
        return None
    reading = reading_at(course.series.table, equivalent_c)
    if _far_to_go(course, reading):
        return None
    doubt = answer.doubt.get(f"{name}.equivalent_c")
    if _too_wide(course, doubt):
        burns = course.shut_hours is None
        return Said(say % (_("too early to tell") if burns else _("too few lines to tell")))
    return Said(say % reading.words, cones_between(course, doubt), "worked-out")


def readings(course: Course) -> list[Said]:
    """Say which cone the log comes to, so far or at shut-off and when cold."""
    answer = course.reading
    if answer is None:
        return []
    if course.shut_hours is None:
        found = [_stage(course, answer, "when_cold", _("By the log so far: %s."))]
    else:
        found = [
            _stage(course, answer, "at_peak", _("By the log at shut-off: %s.")),
            _stage(course, answer, "when_cold", _("With the cooling: %s.")),
        ]
    return [one for one in found if one is not None]


def forecast(course: Course, now: datetime) -> list[Said]:
    """Say when the end cone will be down, where that can be told."""
    hour = course.end_cone_hour
    cone = course.firing.load.kiln.end_cone
    seen = _seen_down(course, cone, now)
    if seen is not None:
        return [seen]
    if hour is None or hour.hours_to is None or hour.doubt is None:
        return []
    if hour.hours_to <= 0:
        return [Said(_("Cone %s is down by the log.") % cone, "", "worked-out")]
    if hour.doubt.high - hour.doubt.low > WIDEST_FORECAST_H:
        return []
    last = course.lines[-1].at
    ends = (hour.hours_to, hour.doubt.low, hour.doubt.high)
    at, low, high = (
        spoken.clock(last + timedelta(hours=hours), step_min=TEN_MIN, now=now) for hours in ends
    )
    say = _("Cone %(cone)s down at about %(at)s.") % {"cone": cone, "at": at}
    return [Said(say, f"({low}–{high})", "worked-out")]


def _seen_down(course: Course, cone: str, now: datetime) -> Said | None:
    """Say that the end cone was seen down, and what the log says of it; None where it was not."""
    hot = [one for one in course.cones if one.cone == cone and not one.when_cold]
    down = [one for one in hot if one.clock % UPRIGHT_CLOCK >= DOWN_FROM_CLOCK]
    if not down or down[-1] is not hot[-1]:
        return None
    facts = {"cone": cone, "at": spoken.clock(down[0].at, now=now)}
    hour = course.end_cone_hour
    if hour is None or hour.hours_to is None:
        return Said(_("Cone %(cone)s was seen down at %(at)s.") % facts, "", "measured")
    if hour.hours_to <= 0:
        say = _("Cone %(cone)s was seen down at %(at)s, and is down by the log.")
    else:
        say = _("Cone %(cone)s was seen down at %(at)s; by the log it is not down yet.")
    return Said(say % facts, "", "measured")


def reduction(course: Course, shown: Shown) -> tuple[list[Said], list[str]]:
    """Say when reduction began, beside the good one; warn where it was late."""
    began = course.logged.reduction
    good = course.good_logged.reduction if course.good_logged else None
    good_c = good.temp_c if good else None
    if began is None:
        burning_c = course.log.now_c if course.log is not None else None
        late = burning_c is not None and good_c is not None and burning_c > good_c + NOT_YET_C
        if not late or good_c is None:
            return [], []
        caution = _("The good one was in reduction from %s on; this one is not yet.")
        return [], [caution % shown.temperature(good_c)]
    end = course.shut_hours
    if end is None:
        end = course.log.now_hours if course.log is not None else began.hours
    lasted = hours_with(course.logged.flames, REDUCING, until_hours=end)
    at = spoken.clock(course.firing.at + timedelta(hours=began.hours))
    temp = "" if began.temp_c is None else shown.temperature(began.temp_c)
    where = _("%(at)s at %(temp)s") % {"at": at, "temp": temp} if temp else at
    line_id = next(
        line.pk
        for line in course.lines
        if line.flame in REDUCING and hours_since(course.firing.at, line.at) == began.hours
    )
    said = [Said(_("Reduction from %s.") % where, "", "measured", line_id=line_id)]
    if lasted >= SHORTEST_REDUCTION_H:
        say = _("Reduction from %(where)s, %(long)s in all.")
        facts = {"where": where, "long": spoken.long(lasted)}
        said = [Said(say % facts, "", "measured", line_id=line_id)]
    if began.temp_c is None or good_c is None:
        return said, []
    off_c = began.temp_c - good_c
    if abs(off_c) < LATE_REDUCTION_C:
        return said, []
    much = spoken.degrees(off_c, shown)
    caution = (
        _("Reduction began at %(temp)s, %(much)s hotter than in the good one.")
        if off_c > 0
        else _("Reduction began at %(temp)s, %(much)s cooler than in the good one.")
    )
    return said, [caution % {"temp": temp, "much": much}]


def steam(course: Course, rate: float | None, shown: Shown) -> list[str]:
    """Warn of a fast rise where water leaves the pots."""
    log = course.log
    if log is None or rate is None or course.shut_hours is not None:
        return []
    if not (STEAM_FROM_C <= log.now_c <= STEAM_TO_C and rate > STEAM_C_H):
        return []
    return [
        _(
            "Rising %(rate)s below %(steam)s: water in the pots can burst them. Hold below "
            "%(hold)s until a cold mirror at the spy-hole stays clear."
        )
        % {
            "rate": spoken.rate(rate, shown),
            "steam": shown.temperature(STEAM_TO_C),
            "hold": shown.temperature(SLOW_START_C),
        }
    ]


def milestones(course: Course, rate: float | None, now: datetime, shown: Shown) -> list[Said]:
    """Say which temperature to wait for next."""
    log = course.log
    if log is None or rate is None or rate < SLOWEST_C_H:
        return []
    ahead = [Milestone(_("steam"), STEAM_C), Milestone(_("the quartz change"), QUARTZ_C)]
    began = course.good_logged.reduction if course.good_logged else None
    if began is not None and began.temp_c is not None and course.logged.reduction is None:
        ahead.append(Milestone(_("where the good one went into reduction"), began.temp_c))
    found = next_milestone(log, ahead)
    if found is None or found.hours_to is None or found.hours_to > FARTHEST_MILESTONE_H:
        return []
    half = NORMAL_90 * PATH_SHARE * found.hours_to
    at, low, high = (
        spoken.clock(
            course.lines[-1].at + timedelta(hours=found.hours_to + off), step_min=STEP_MIN, now=now
        )
        for off in (0.0, -half, half)
    )
    say = _("Next: %(temp)s, %(what)s, at about %(at)s.") % {
        "what": found.milestone.name,
        "temp": shown.temperature(found.milestone.temp_c),
        "at": at,
    }
    return [Said(say, f"({low}–{high})", "worked-out")]
