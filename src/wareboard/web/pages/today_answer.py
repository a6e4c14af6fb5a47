"""What waits today, in sentences: the question of the day first."""

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from wareboard.core.drying import Sign
from wareboard.core.slop import SlopWord
from wareboard.records.glazes.bridge import against, density_of, liked_density
from wareboard.records.glazes.models import BucketEventKind, Reading
from wareboard.records.kiln.lighting import holds, sign_of, urgency
from wareboard.records.kiln.models import Firing
from wareboard.records.people.shown import Shown
from wareboard.records.ware.drying import Lit

FEWEST_COOLING_H = 2.0
"""Opened sooner it was no cooling to reckon by, or a slip of the hand (common practice)."""

TEN_MINUTES = timedelta(minutes=10)
FEWEST = 1
SINCE = {
    BucketEventKind.WATER_IN: gettext_lazy("water was put in after the weighing: weigh it again"),
    BucketEventKind.WATER_OFF: gettext_lazy(
        "water was taken off after the weighing: weigh it again"
    ),
    BucketEventKind.POWDER_IN: gettext_lazy("powder was put in after the weighing: weigh it again"),
    BucketEventKind.TOPPED_UP: gettext_lazy("it was topped up after the weighing: weigh it again"),
    BucketEventKind.FILLED: gettext_lazy("it was filled after the weighing: weigh it again"),
}


@dataclass(frozen=True)
class KilnClock:
    """A kiln's own past hours.

    Attributes
    ----------
    firing_h, cooling_h : tuple of (shortest, usual, longest) or None
        Lighting to shut-off, and shut-off to opening [h].
    n : int
        How many past firings tell.
    """

    firing_h: tuple[float, float, float] | None
    cooling_h: tuple[float, float, float] | None
    n: int


def _spread(hours: Sequence[float]) -> tuple[float, float, float] | None:
    if len(hours) < FEWEST:
        return None
    return min(hours), statistics.median(hours), max(hours)


def kiln_clock(firings: Sequence[Firing]) -> KilnClock:
    """Learn the kiln's hours from its past firings.

    Parameters
    ----------
    firings : sequence of Firing
        With ``shut_at`` and ``opened_at``.
    """
    up, down = [], []
    for firing in firings:
        shut, opened = firing.shut_at, firing.opened_at
        if shut is not None:
            up.append((shut - firing.at).total_seconds() / 3600)
            cooled_h = 0.0 if opened is None else (opened - shut).total_seconds() / 3600
            if cooled_h >= FEWEST_COOLING_H:
                down.append(cooled_h)
    return KilnClock(_spread(up), _spread(down), len(up))


def _to_ten(when: datetime) -> datetime:
    """Round a time to ten minutes, by the clock of the studio."""
    local = timezone.localtime(when)
    step = TEN_MINUTES.total_seconds()
    return datetime.fromtimestamp(round(local.timestamp() / step) * step, tz=local.tzinfo)


def between(low: datetime, high: datetime) -> str:
    """Write a span of two times, the day once where it is the same."""
    first, last = _to_ten(low), _to_ten(high)
    if first.date() != last.date():
        return f"({_clock(low)}–{_clock(high)})"
    if first.date() > timezone.localdate() + timedelta(days=1):
        return f"({_clock(low)}–{last:%H:%M})"
    return f"({first:%H:%M}–{_clock(high)})"


def _clock(when: datetime) -> str:
    """Write a time of day to ten minutes, with the day where it is not today."""
    rounded = _to_ten(when)
    if rounded.date() == timezone.localdate():
        return f"{rounded:%H:%M}"
    if rounded.date() == timezone.localdate() + timedelta(days=1):
        return _("%s tomorrow") % f"{rounded:%H:%M}"
    return f"{rounded:%a %H:%M}"


def _next_ten(now: datetime) -> datetime:
    """Give the next full ten minutes."""
    step = TEN_MINUTES.total_seconds()
    return datetime.fromtimestamp((now.timestamp() // step + 1) * step, tz=now.tzinfo)


@dataclass(frozen=True)
class Question:
    """The question of the day, answered.

    Attributes
    ----------
    title : str
        The sentence.
    text : str
        What it rests on.
    doubt : str
        The span of the hours.
    n : int
        Past firings it rests on.
    """

    title: str
    text: str
    doubt: str
    n: int


def running(firing: Firing, clock: KilnClock, now: datetime) -> Question:
    """Say how far a firing is that was lit and is not opened yet."""
    shut = firing.shut_at
    if shut is None:
        hours = int((now - firing.at).total_seconds() / 3600)
        going = ngettext("Firing %(n)d is one hour in.", "Firing %(n)d is %(h)d hours in.", hours)
        title = (going if hours else _("Firing %(n)d was just lit.")) % {
            "n": firing.number,
            "h": hours,
        }
        if clock.firing_h is None:
            return Question(title, _("There is no past firing to say when it will be off."), "", 0)
        low, usual, high = (firing.at + timedelta(hours=h) for h in clock.firing_h)
        return Question(
            title + " " + _("Off at about %s.") % _clock(usual),
            _("By this kiln's own past hours."),
            between(low, high),
            clock.n,
        )
    title = _("Firing %d is cooling.") % firing.number
    if clock.cooling_h is None:
        return Question(title, _("There is no past opening to say when it may be opened."), "", 0)
    low, usual, high = (shut + timedelta(hours=h) for h in clock.cooling_h)
    return Question(
        title + " " + _("Open at about %s, not before.") % _clock(max(usual, now)),
        _("By this kiln's own past hours. Below 100 °C is the careful rule."),
        between(low, high),
        clock.n,
    )


def before(lits: Sequence[Lit], clock: KilnClock, now: datetime, shown: Shown) -> Question:
    """Say when to light a load that waits, and when it would be off and open."""
    light = _next_ten(now)
    stops = [lit for lit in lits if sign_of(lit) is Sign.STOP]
    waits = [lit for lit in lits if sign_of(lit) is Sign.WAIT]
    unknown = [lit for lit in lits if sign_of(lit) is Sign.CANNOT_TELL]
    first = min([*stops, *waits], key=urgency, default=None)
    text = ""
    if first is not None and first.answer is not None:
        text = holds(first, shown)
        if len(stops) + len(waits) == 1 and not unknown:
            text += " " + _("Without it you could light now.")
    elif unknown:
        text = ngettext(
            "Of one pot it cannot be told; the load's page says what would tell.",
            "Of %(n)d pots it cannot be told; the load's page says what would tell.",
            len(unknown),
        ) % {"n": len(unknown)}
    if clock.firing_h is None:
        title = _("Not tonight as it stands.") if stops else _("The load waits.")
        none = _("There is no past firing of this kiln, so its hours are not known.")
        return Question(title, f"{text} {none}".strip(), "", 0)
    if stops:
        return Question(_("Not tonight as it stands."), text, "", 0)
    low, usual, high = (light + timedelta(hours=h) for h in clock.firing_h)
    sure = not (waits or unknown)
    said = (
        _("Light by %(light)s and it is off about %(off)s")
        if sure
        else _("Lit by %(light)s it would be off about %(off)s")
    )
    hours = said % {
        "light": _clock(light),
        "off": _clock(usual),
    }
    doubt = between(low, high)
    if clock.cooling_h is not None:
        hours += _(", open about %s") % _clock(usual + timedelta(hours=clock.cooling_h[1]))
    return Question(f"{hours}.", text, doubt, clock.n)


def drifted(
    readings: Sequence[Reading], good: Mapping[str, Sequence[Reading]], shown: Shown
) -> list[dict[str, str]]:
    """Name the buckets whose last reading is off what their glaze liked.

    Where the slop was changed after that weighing, it says nothing of the slop
    there is now, and is to be done again.

    Parameters
    ----------
    readings : sequence of Reading
        The newest of each bucket, with ``changed_as``.
    good : mapping of str to sequence of Reading
        By glaze those that its good pots had.
    shown : Shown
        How this studio reads numbers.
    """
    step = shown.studio.scale_step_g
    found = []
    for reading in readings:
        liked = liked_density(good.get(reading.bucket.glaze_id, ()), scale_step_g=step)
        if liked is None:
            continue
        density = density_of(reading, scale_step_g=step)
        word = against(density, liked)
        changed = reading.changed_as
        if word is SlopWord.RIGHT or changed == BucketEventKind.EMPTIED:
            continue
        say = _("%(word)s: %(sg)s, its good pots had %(liked)s") % {
            "word": _("thin") if word is SlopWord.THIN else _("thick"),
            "sg": shown.sg(density.result.sg),
            "liked": shown.sg(liked.sg),
        }
        if changed is not None:
            say = str(SINCE[BucketEventKind(changed)])
        found.append({"id": reading.bucket_id, "name": reading.bucket.name, "say": say})
    return found
