"""A temperature that cannot follow from the lines around it: asked about before it is kept."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _

from wareboard.core.firing.reach import SLOW_KILN, Pace, pace_of, reach_c
from wareboard.core.slips import meant_by
from wareboard.records.people.models import StudioTemperature
from wareboard.records.people.shown import Shown

from . import spoken
from .bridge import hours_since
from .logs import Course
from .models import LogLine
from .words import MomentKind

AT_ONCE_H = 1 / 60
ROOM_C = 150.0
"""What was meant may lie this far out of reach, where what was written lies farther [°C]."""

OPENED_C = 300.0
"""Hotter than this no kiln is opened but to take glowing pots out (common practice) [°C]."""


@dataclass(frozen=True)
class Doubted:
    """What is asked about a temperature.

    Attributes
    ----------
    say : str
        The question; empty where nothing is asked.
    meant : str
        What was most likely meant, in the studio's unit; empty where that is not known.
    """

    say: str = ""
    meant: str = ""


@dataclass(frozen=True)
class Near:
    """A line beside the one that is written.

    Attributes
    ----------
    temp_c : float
        What it says [°C].
    hours : float
        From it to the one that is written [h]; less than nothing for one that comes after.
    """

    temp_c: float
    hours: float

    def out_of_reach_c(self, temp_c: float, pace: Pace) -> float:
        """Give how far a temperature lies beyond what a kiln can do between the two [°C]."""
        first, then = (self.temp_c, temp_c) if self.hours >= 0 else (temp_c, self.temp_c)
        low_c, high_c = reach_c(first, abs(self.hours), pace)
        return max(low_c - then, then - high_c, 0.0)


def _around(course: Course, at: datetime, left_out: str) -> list[Near]:
    """Give the nearest lines with a temperature before and after an instant."""
    told = [one for one in course.lines if one.temp_c is not None and one.pk != left_out]
    before = [one for one in told if one.at <= at][-1:]
    after = [one for one in told if one.at > at][:1]
    return [Near(float(one.temp_c or 0.0), hours_since(one.at, at)) for one in before + after]


def _pace(course: Course, at: datetime) -> Pace:
    """Learn the pace of this kiln; while the burner is on none cools fast."""
    pace = pace_of(log for log in (course.good_log, course.log) if log is not None)
    shut = course.moments.get(MomentKind.SHUT_OFF)
    if shut is not None and shut.at <= at:
        return pace
    return Pace(pace.climb_c_h, min(pace.cooling_share, SLOW_KILN.cooling_share))


def _meant_c(temp_c: float, around: Sequence[Near], pace: Pace, shown: Shown) -> float | None:
    """Guess which temperature was meant, by the digits as the studio writes them [°C]."""
    factor, zero = (1.8, 32) if shown.studio.temperature == StudioTemperature.FAHRENHEIT else (1, 0)

    def missed_c(one_c: float) -> float:
        return max(near.out_of_reach_c(one_c, pace) for near in around)

    least_c = min(ROOM_C, missed_c(temp_c) / 2)
    for kind in meant_by(abs(round(temp_c * factor + zero))):
        found_c = [(written - zero) / factor for written in kind]
        near_c = [one_c for one_c in found_c if missed_c(one_c) <= least_c]
        if near_c:
            return min(near_c, key=lambda one_c: (missed_c(one_c), abs(one_c - around[0].temp_c)))
    return None


def _beside(temp: str, near: Near, shown: Shown) -> str:
    """Say where a temperature stands beside another: 115 °C, 20 minutes after 870 °C."""
    facts = {"temp": temp, "other": shown.temperature(near.temp_c)}
    hours = abs(near.hours)
    if hours < AT_ONCE_H:
        return _("%(temp)s, just after %(other)s") % facts
    facts["long"] = spoken.long(hours)
    if near.hours > 0:
        return _("%(temp)s, %(long)s after %(other)s") % facts
    return _("%(temp)s, %(long)s before %(other)s") % facts


def cannot_follow(
    course: Course, temp_c: float, at: datetime, shown: Shown, *, left_out: str = ""
) -> Doubted:
    """Ask about a temperature that no kiln can have by then.

    Parameters
    ----------
    course : Course
        The firing with its lines.
    temp_c : float
        What is written [°C].
    at : datetime
        When it was seen.
    shown : Shown
        How this studio reads numbers.
    left_out : str
        The line that it takes the place of.
    """
    around = _around(course, at, left_out)
    if not around:
        return Doubted()
    pace = _pace(course, at)
    missed = next((near for near in around if near.out_of_reach_c(temp_c, pace)), None)
    if missed is None:
        return Doubted()
    say = _beside(shown.temperature(temp_c), missed, shown)
    if _follows_the_one_before(course, temp_c, missed, at, pace):
        wrong = _("if %s was wrong, put that line right first.")
        return Doubted(f"{say}: {wrong % shown.temperature(missed.temp_c)}")
    meant_c = _meant_c(temp_c, around, pace, shown)
    if meant_c is not None:
        meant = shown.temperature(meant_c)
        return Doubted(f"{say}: {_('do you mean %s?') % meant}", meant)
    if (temp_c < missed.temp_c) is (missed.hours >= 0):
        too_fast = _("is faster than a kiln falls: look at the temperature and the time again.")
    else:
        too_fast = _("is faster than a kiln climbs: look at the temperature and the time again.")
    return Doubted(f"{say}, {too_fast}")


def still_hot(last: LogLine | None, at: datetime, shown: Shown) -> str:
    """Ask whether a kiln is open that cannot have cooled by then; else empty.

    Parameters
    ----------
    last : LogLine or None
        The last line with a temperature before it was opened.
    at : datetime
        When it was opened.
    shown : Shown
        How this studio reads numbers.
    """
    if last is None or last.temp_c is None:
        return ""
    least_c, _most_c = reach_c(last.temp_c, max(hours_since(last.at, at), 0.0))
    if least_c <= OPENED_C:
        return ""
    return _("The last line says %s: is it open?") % shown.temperature(last.temp_c)


def odd_last_line(course: Course, shown: Shown) -> list[str]:
    """Ask about a last line that was kept although no kiln can have had it by then."""
    told = [one for one in course.lines if one.temp_c is not None]
    if course.shut_hours is not None or len(told) < 2:  # noqa: PLR2004 - the last and one before
        return []
    temp_c, last = float(told[-1].temp_c or 0.0), told[-1]
    (before,) = _around(course, last.at, last.pk)[:1]
    if not before.out_of_reach_c(temp_c, _pace(course, last.at)):
        return []
    say = _beside(shown.temperature(temp_c), before, shown)
    return [_("%s: if a digit slipped, put that line right.") % say]


def _follows_the_one_before(
    course: Course, temp_c: float, missed: Near, at: datetime, pace: Pace
) -> bool:
    """Tell whether the last line is the odd one: the line before it leads to this, not to that."""
    told = [one for one in course.lines if one.temp_c is not None and one.at <= at]
    if missed.hours < 0 or len(told) < 2:  # noqa: PLR2004 - the last line and the one before it
        return False
    earlier, last = told[-2:]
    here = Near(float(earlier.temp_c or 0.0), hours_since(earlier.at, at))
    there = Near(float(earlier.temp_c or 0.0), hours_since(earlier.at, last.at))
    return not here.out_of_reach_c(temp_c, pace) and there.out_of_reach_c(missed.temp_c, pace) > 0
