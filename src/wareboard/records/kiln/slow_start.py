"""The slow start of a load that went in wet: one line on top of its log until the steam is gone."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.core.answer import Interval
from wareboard.core.drying import SLOW_START_C, Sign
from wareboard.records.people.models import Member
from wareboard.records.people.shown import Shown
from wareboard.records.ware.drawn import name_of
from wareboard.records.ware.drying import Lit, judge_pots

from . import queries
from .lighting import sign_of
from .log_says import STEAM_C
from .logs import Course
from .models import Firing
from .words import MomentKind

SOONEST = timedelta(hours=2)
"""A slow start is below the steam for this long at least (common practice)."""
OVER = {MomentKind.SHUT_OFF, MomentKind.OPENED}


def past_steam(course: Course) -> bool:
    """Tell whether a log shows that it is past the steam, or that its fire is out.

    Heat that came sooner than a slow start can bring it drove no steam out.
    """
    slowly = course.firing.at + SOONEST
    hot = any(
        line.temp_c is not None and line.temp_c >= STEAM_C and line.at >= slowly
        for line in course.lines
    )
    return hot or not OVER.isdisjoint(course.moments)


def too_soon(course: Course, shown: Shown) -> str:
    """Say that a kiln was near the steam sooner than a slow start brings it there."""
    hot = (line for line in course.lines if line.temp_c is not None and line.temp_c >= SLOW_START_C)
    first = next(hot, None)
    if first is None or first.at >= course.firing.at + SOONEST or past_steam(course):
        return ""
    minutes = max(round((first.at - course.firing.at).total_seconds() / 60), 0)
    say = ngettext(
        "It passed %(hold)s %(n)d minute after lighting: turn it down if pots went in wet.",
        "It passed %(hold)s %(n)d minutes after lighting: turn it down if pots went in wet.",
        minutes,
    )
    return say % {"n": minutes, "hold": shown.temperature(SLOW_START_C)}


@dataclass(frozen=True)
class Wet:
    """What went into the kiln that was no go.

    Attributes
    ----------
    name : str
        The pot that held most over its dry weight; empty where that is known of none.
    over_dry_g : float
        How much that was [g].
    doubt : Interval or None
        Of that.
    more : int
        How many others held water too.
    pots : int
        Of how many it was wet or could not be told.
    """

    name: str
    over_dry_g: float
    doubt: Interval | None
    more: int
    pots: int


def _over_dry_g(lit: Lit) -> float:
    return (lit.answer.result.over_dry_g if lit.answer else None) or 0.0


def wet_in(lits: Sequence[Lit]) -> Wet:
    """Say what of a load was no go when it was lit."""
    doubtful = [lit for lit in lits if sign_of(lit) is not Sign.GO]
    wet = [lit for lit in doubtful if lit.answer and _over_dry_g(lit) > 0 and _says_wet(lit)]
    if not wet:
        return Wet("", 0.0, None, 0, len(doubtful))
    worst = max(wet, key=_over_dry_g)
    doubt = worst.answer.doubt.get("over_dry_g") if worst.answer else None
    return Wet(name_of(worst.pot), _over_dry_g(worst), doubt, len(wet) - 1, len(doubtful))


def _says_wet(lit: Lit) -> bool:
    return sign_of(lit) in {Sign.STOP, Sign.WAIT}


def slow_start(member: Member, firing: Firing, shown: Shown) -> str | None:
    """Say how long to hold a kiln low in which wet pots stand, or pots nobody knows dry.

    Parameters
    ----------
    member : Member
        Who asks.
    firing : Firing
        Which one; its pots are looked at as they were when it was lit.
    shown : Shown
        How this studio reads numbers.

    Returns
    -------
    str or None
        Empty where every pot was a go, None where no pot stood in it.
    """
    lits, _today, _coats = judge_pots(member, queries.pots_in(firing.load), firing.at)
    wet = wet_in(lits)
    if not wet.pots:
        return "" if lits else None
    return _("Below %(hold)s until the steam has gone: %(why)s.") % {
        "hold": shown.temperature(SLOW_START_C),
        "why": _why(wet, shown),
    }


def _why(wet: Wet, shown: Shown) -> str:
    if not wet.name:
        say = ngettext(
            "of %(n)d pot it could not be told whether it was dry",
            "of %(n)d pots it could not be told whether they were dry",
            wet.pots,
        )
        return say % {"n": wet.pots}
    much = f"{shown.mass(wet.over_dry_g)} {shown.span(wet.doubt, 1.0)}".strip()
    say = _("“%(pot)s” was %(much)s over its dry weight") % {"pot": wet.name, "much": much}
    if wet.more:
        more = ngettext("%(n)d more was wet too", "%(n)d more were wet too", wet.more)
        say += ", " + more % {"n": wet.more}
    untold = wet.pots - wet.more - 1
    if untold:
        say += ", " + _("of %(n)d it could not be told") % {"n": untold}
    return say
