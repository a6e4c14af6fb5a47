"""What the log of a firing says first: behind or ahead of the good one, cooling, or done."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.core.answer import Answer
from wareboard.core.firing.beside import beside, minutes_in_doubt, rate_c_h
from wareboard.core.firing.cone import ConeResult
from wareboard.core.firing.cooling import hours_to_fall
from wareboard.core.firing.reading_doubt import Probe
from wareboard.records.people.shown import Shown, rounded

from . import log_says, spoken
from .cautions import OPENING
from .cone_answer import cones_told, pack_words, seen_against_log, which_is_trusted
from .log_says import Said
from .logs import Course
from .slipped import odd_last_line
from .words import MomentKind

FINE_MIN = 45.0
"""So far behind or ahead of the good one is called fine (common practice)."""

ON_THE_LINE_MIN = 7.5
MINUTES_STEP = 5.0
COOL_C = 100.0
AGREES_C = 1.0
HALF_HOUR_MIN = 30
SOON = timedelta(hours=1)
"""A kiln read hot before its shut-off and opened this soon after is still hot."""


@dataclass(frozen=True)
class LogAnswer:
    """What stands on the page of a firing.

    Attributes
    ----------
    title : str
        The one sentence.
    doubt, trust : str
        How far the title may be believed.
    under : str
        What it rests on.
    said : list of Said
        What else the log says.
    cautions : list of str
        Where loss is real.
    why, working, sources : list of str
        Behind "why?".
    """

    title: str
    under: str = ""
    doubt: str = ""
    trust: str = ""
    said: list[Said] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    why: list[str] = field(default_factory=list)
    working: list[str] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)


def _minutes(behind: float) -> str:
    minutes = int(rounded(abs(behind), MINUTES_STEP))
    if minutes >= 2 * 60:
        return spoken.long(minutes / 60)
    return ngettext("%(n)d minute", "%(n)d minutes", minutes) % {"n": minutes}


def _climbs(rate: float | None, shown: Shown) -> str:
    """Say whether a kiln climbs, stands still or falls; empty where that cannot be told."""
    if rate is None:
        return ""
    if abs(rate) < spoken.RATE_STEP / 2:
        return _("standing still")
    say = _("climbing %s") if rate > 0 else _("falling %s")
    return say % spoken.rate(rate, shown)


def _burning(course: Course, rate: float | None, now: datetime, shown: Shown) -> LogAnswer:
    """Say where a firing stands that is still going on."""
    log = course.log
    if log is None:
        read = [line for line in course.lines if line.temp_c is not None]
        if not read or read[-1].temp_c is None:
            lit = spoken.on_day(course.firing.at, now)
            return LogAnswer(_("Lit at %s.") % lit, _("Write the first line below."))
        last = {"temp": shown.temperature(read[-1].temp_c), "at": spoken.on_day(read[-1].at, now)}
        return LogAnswer(_("%(temp)s at %(at)s.") % last, trust="measured")
    at = {"temp": shown.temperature(log.now_c), "at": spoken.on_day(course.lines[-1].at, now)}
    under = _("%(temp)s at %(at)s.") % at
    climbs = _climbs(rate, shown)
    there = beside(course.good_log, log) if course.good_log is not None else None
    if there is None or there.minutes_behind is None or there.cooling or rate is None:
        title = f"{climbs[:1].upper()}{climbs[1:]}." if climbs else under
        return LogAnswer(title, under if climbs else "", trust="worked-out")
    behind, half = there.minutes_behind, there.half_minutes or 0.0
    if rate < 0 or minutes_in_doubt(rate) > FINE_MIN:
        title = _stalled(behind, half, rate)
    else:
        title = _beside_the_good_one(behind, half)
    doubt = f"(± {rounded(half, MINUTES_STEP)} minutes)"
    return LogAnswer(title, f"{under[:-1]}, {climbs}.", doubt, "worked-out")


def _beside_the_good_one(behind: float, half: float) -> str:
    """Say how far a kiln that climbs is behind the good one."""
    if abs(behind) <= min(half, FINE_MIN):
        return _("On the line of the good one, within the doubt of the pyrometer.")
    if abs(behind) < ON_THE_LINE_MIN:
        return _("On the line of the good one.")
    say = _("%s behind the good one.") if behind > 0 else _("%s ahead of the good one.")
    title = say % _minutes(behind)
    return f"{title} {_('Fine.')}" if abs(behind) <= FINE_MIN else title


def _stalled(behind: float, half: float, rate: float) -> str:
    """Say of a kiln that hardly climbs how far it is behind: it is on no line."""
    says = _("It falls") if rate <= -spoken.RATE_STEP else _("It hardly climbs")
    if abs(behind) < max(half, ON_THE_LINE_MIN):
        if half > FINE_MIN:
            return _("%s, and here the good one was slow too.") % says
        return _("%s, and is not behind the good one yet.") % says
    say = _("%s behind the good one.") if behind > 0 else _("%s ahead of the good one.")
    return f"{says}: {say % _minutes(behind)}"


def _cooling(course: Course, now: datetime, shown: Shown) -> LogAnswer:
    """Say where a kiln stands that cools."""
    shut = course.moments[MomentKind.SHUT_OFF].at
    title = _("Shut off at %s.") % spoken.on_day(shut, now)
    if course.log is not None and course.log.now_c < float(course.log.temp_c[course.log.peak]):
        last = {
            "temp": shown.temperature(course.log.now_c),
            "at": spoken.on_day(course.lines[-1].at, now),
        }
        title = _("Cooling: %(temp)s at %(at)s.") % last
    good, off = course.good_log, course.good_hours(MomentKind.SHUT_OFF)
    if good is None or off is None or not float(good.hours[0]) <= off <= good.now_hours:
        return LogAnswer(title, trust="measured")
    hours = hours_to_fall(good, [COOL_C], shut_off_hours=off)[COOL_C]
    if hours is None:
        return LogAnswer(title, trust="measured")
    when = shut + timedelta(hours=hours) + timedelta(minutes=HALF_HOUR_MIN / 2)
    under = _("If it cools as the good one did, it is below %(cool)s at about %(at)s.") % {
        "cool": shown.temperature(COOL_C),
        "at": spoken.clock(when, step_min=HALF_HOUR_MIN, now=now),
    }
    return LogAnswer(title, under, "", "usual")


def _done(course: Course) -> LogAnswer:
    """Say what a firing was that is over."""
    hours = course.hours(MomentKind.SHUT_OFF)
    good_hours = course.good_hours(MomentKind.SHUT_OFF)
    if hours is None:
        return LogAnswer(_("Opened."))
    title = _("%s from lighting to shut-off.") % spoken.long(hours)
    if course.is_good:
        return LogAnswer(title, _("This is the good one."), trust="measured")
    if good_hours is None:
        return LogAnswer(title, trust="measured")
    longer = hours - good_hours
    if abs(longer) * 60 < MINUTES_STEP:
        return LogAnswer(title, _("As long as the good one."), trust="measured")
    under = _("%s longer than the good one.") if longer > 0 else _("%s shorter than the good one.")
    return LogAnswer(title, under % spoken.long(abs(longer)), trust="measured")


def _opened_hot(course: Course) -> list[str]:
    """Caution where a kiln was opened that cannot have cooled, or was never shut off."""
    opened, shut = (course.moments.get(kind) for kind in (MomentKind.OPENED, MomentKind.SHUT_OFF))
    if opened is None:
        return []
    unshut = [] if shut else [_("It says opened, and no shut-off is written: say when it was.")]
    if shut is not None and opened.at - shut.at > SOON:
        return []
    before = (line for line in course.lines if line.at <= opened.at)
    read = [line.temp_c for line in before if line.temp_c is not None]
    return [*unshut, *([str(OPENING)] if read and read[-1] > COOL_C else [])]


def answer_for(course: Course, now: datetime, shown: Shown) -> LogAnswer:
    """Say what the log of a firing says.

    Parameters
    ----------
    course : Course
        The firing as it went so far.
    now : datetime
        At which moment.
    shown : Shown
        How this studio reads numbers.
    """
    burns = course.shut_hours is None
    rate = rate_c_h(course.log) if course.log is not None else None
    if MomentKind.OPENED in course.moments:
        top = _done(course)
    elif burns:
        top = _burning(course, rate, now, shown)
    else:
        top = _cooling(course, now, shown)
    reduction, late = log_says.reduction(course, shown)
    pack = pack_words(course.cones, course.firing.load.kiln.end_cone)
    packs = [Said(_("In the pack, cold: %s.") % pack, "", "measured")] if pack else []
    beside = cones_told(course, shown) if course.cones else []
    trusted = which_is_trusted(beside) if pack else seen_against_log(beside, now)
    packs += [Said(trusted)] if trusted else []
    said = [*packs, *log_says.readings(course), *reduction]
    if burns:
        said = [
            *log_says.forecast(course, now),
            *said,
            *log_says.milestones(course, rate, now, shown),
        ]
    cautions = [
        *_opened_hot(course),
        *odd_last_line(course, shown),
        *log_says.steam(course, rate, shown),
        *late,
    ]
    if course.logged.refused:
        cautions.append(course.logged.refused)
    answer = course.reading
    why = [
        _(
            "A cone falls by heat and time together: every line adds to how far each cone has "
            "fallen, holds and slow cooling too."
        ),
        _(
            "Minutes behind are taken at the same temperature, both counted from lighting; two "
            "readings of one pyrometer differ by some degrees from firing to firing."
        ),
    ]
    if course.seen_probe.packs or course.seen_probe != course.probe:
        why.append(_pyrometer(course.seen_probe, shown))
    return LogAnswer(
        top.title,
        top.under,
        top.doubt,
        top.trust,
        said,
        cautions,
        why if course.log is not None else [],
        [*answer.working, *answer.cautions, *_basis(answer)] if answer else [],
        list(answer.sources) if answer else [],
    )


def _pyrometer(probe: Probe, shown: Shown) -> str:
    """Say what cones have told about the pyrometer."""
    if abs(probe.offset_c) < AGREES_C:
        say = _("Cones read here agree with the pyrometer.")
    elif probe.offset_c > 0:
        say = _("Cones read here show that the pyrometer reads %s too low; that is counted.")
        say %= spoken.degrees(probe.offset_c, shown)
    else:
        say = _("Cones read here show that the pyrometer reads %s too high; that is counted.")
        say %= spoken.degrees(probe.offset_c, shown)
    if not probe.packs:
        return say
    n = probe.packs
    packs = ngettext("(%(n)d earlier pack)", "(%(n)d earlier packs)", n) % {"n": n}
    return f"{say} {packs}"


def _basis(answer: Answer[ConeResult]) -> list[str]:
    doubt = answer.doubt.get("equivalent_c")
    return [doubt.basis] if doubt else []
