"""What a reading of a bucket means, in sentences."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from wareboard.core.answer import Interval
from wareboard.core.doubt import together
from wareboard.core.errors import CoreError
from wareboard.core.slop import SlopWord, pots_left
from wareboard.exchange.typed_number import written
from wareboard.records.glazes.bridge import (
    SG_STEP,
    Liked,
    against,
    as_shown,
    density_of,
    half_of,
    water_for,
)
from wareboard.records.glazes.change_said import event_said
from wareboard.records.glazes.in_bucket import InBucket
from wareboard.records.glazes.level import ML_L
from wareboard.records.glazes.models import BucketEvent, BucketEventKind, Reading, ReadingFlow
from wareboard.records.people.shown import Shown, day, rounded
from wareboard.records.shelf.filling import CameOut

MOST_NAMED = 4
SHALLOW_L = 4.0
"""Below so much slop an ordinary bucket is too shallow to dip in (common practice)."""


@dataclass(frozen=True)
class Deed:
    """Something advised that one tap keeps once it is done.

    Attributes
    ----------
    kind : str
        Kind of the bucket's event.
    amount_l : str
        How much, as the form reads it.
    say : str
        What stands on the button.
    """

    kind: str
    amount_l: str
    say: str


@dataclass(frozen=True)
class BucketAnswer:
    """What stands where the question was.

    Attributes
    ----------
    say : str
        The sentence.
    working : str
        One line of arithmetic.
    doubt : str
        The span, as (0.3–0.6 l).
    trust : str
        One of the five words.
    why : list of str
        Up to three sentences behind "why?".
    cautions : list of str
        Where loss is real.
    deed : Deed or None
        What one tap keeps, once it is done.
    fill : bool
        Whether the next thing is to fill it.
    """

    say: str
    working: str
    doubt: str
    trust: str
    why: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    deed: Deed | None = None
    fill: bool = False


WORDS = {
    SlopWord.THIN: gettext_lazy("A little thin."),
    SlopWord.RIGHT: gettext_lazy("Right."),
    SlopWord.THICK: gettext_lazy("A little thick."),
}


def answer_for(
    reading: Reading, liked: Liked | None, litres: float | None, shown: Shown
) -> BucketAnswer:
    """Say whether a bucket is right, and how much water it wants.

    Parameters
    ----------
    reading : Reading
        The full bottle.
    liked : Liked or None
        What this glaze had on its good pots.
    litres : float or None
        What is in the bucket [l].
    shown : Shown
        How this studio reads numbers.
    """
    density = density_of(reading, scale_step_g=shown.studio.scale_step_g)
    sg = density.result.sg
    working = _("%(full)s − %(empty)s bottle = %(slop)s in %(ml)s: %(sg)s") % {
        "full": shown.weighed(reading.full_g),
        "empty": shown.weighed(reading.empty_g),
        "slop": shown.weighed(density.result.slop_g),
        "ml": f"{written(round(reading.volume_ml, 1))} ml",
        "sg": rounded(sg, SG_STEP),
    }
    cautions = []
    if reading.flow == ReadingFlow.GELLED:
        cautions.append(
            _("It hangs thicker than it weighs: a gelled slop puts on more than its density says.")
        )
    if liked is None:
        return BucketAnswer(
            say=_("It is at %(sg)s.") % {"sg": shown.sg(sg)},
            working=working,
            doubt=shown.span(density.doubt["sg"], 0.01),
            trust="worked-out",
            why=[
                _("No pot with this glaze has come out good yet: there is nothing to hold it to.")
            ],
            cautions=cautions,
        )
    word = against(density, liked)
    held = _("%(working)s, wanted %(sg)s.") % {"working": working, "sg": rounded(liked.sg, SG_STEP)}
    why = _why(liked)
    if word is SlopWord.RIGHT:
        alike = rounded(together([half_of(density), liked.half]), SG_STEP)
        nearer = _("Nearer than %s the two cannot be told apart.") % alike
        return BucketAnswer(
            _("Right. No water."), f"{held} {nearer}", "", "worked-out", why, cautions
        )
    if litres is None:
        say = _("%(word)s Say how much is in the bucket, and I say how much water.")
        return BucketAnswer(say % {"word": WORDS[word]}, held, "", "worked-out", why, cautions)
    needed = water_for(litres, density, liked)
    doubt = needed.doubt["water_ml"]
    amount, off = abs(needed.result.water_ml), word is SlopWord.THIN
    if off:
        doubt = replace(doubt, low=-doubt.high, high=-doubt.low)
    kind = BucketEventKind.WATER_OFF if off else BucketEventKind.WATER_IN
    done = _("Done: %s taken off") if off else _("Done: %s of water in")
    say = (
        _("%(word)s Take off %(water)s of clear water.")
        if off
        else _("%(word)s Add %(water)s of water.")
    )
    arithmetic = _("%(litres)s × %(change)s ÷ %(over)s = %(water)s") % {
        "litres": shown.volume_worked(litres * ML_L),
        "change": rounded(abs(as_shown(sg) - as_shown(liked.sg)), SG_STEP),
        "over": rounded(as_shown(liked.sg) - 1, SG_STEP),
        "water": shown.volume_worked(amount),
    }
    much, said_l = shown.volume(amount, doubt), shown.volume_said(amount, doubt) / ML_L
    return BucketAnswer(
        say=say % {"word": WORDS[word], "water": much},
        working=f"{held} {arithmetic}",
        doubt=shown.volume_span(doubt),
        trust="worked-out",
        why=why,
        cautions=[*cautions, *needed.cautions],
        deed=Deed(kind, written(round(said_l, 3)), done % much),
    )


def _why(liked: Liked) -> list[str]:
    """Tell what the wanted density rests on, and what density does not tell."""
    wanted = ngettext(
        "Wanted is what the bucket had when its good pots were dipped (%(n)d reading, good to "
        "%(half)s).",
        "Wanted is what the bucket had when its good pots were dipped (%(n)d readings, good to "
        "%(half)s).",
        liked.readings,
    )
    return [
        wanted % {"n": liked.readings, "half": rounded(liked.half, SG_STEP)},
        _("A thin slop puts more water into an unfired wall for the same coat."),
        _("Density is not how it hangs: stir, look at the drip, and trust your eye."),
    ]


def again_for(since: Sequence[BucketEvent], shown: Shown) -> BucketAnswer:
    """Say that a bucket has to be weighed again, and what went into it or out of it.

    Parameters
    ----------
    since : sequence of BucketEvent
        What changed the slop after its last reading.
    shown : Shown
        How this studio reads numbers.
    """
    done = "; ".join(event_said(event, shown) for event in since)
    return BucketAnswer(
        say=_("Stir, and weigh it again."),
        working=_("Since the last reading: %s.") % done,
        doubt="",
        trust="",
    )


def empty_for(events: Sequence[BucketEvent], *, emptied: bool) -> BucketAnswer:
    """Say that nothing is in a bucket, and what to do.

    Parameters
    ----------
    events : sequence of BucketEvent
        What was done to it, newest first.
    emptied : bool
        Whether it was emptied; else it was drawn from until nothing can be left.
    """
    if not emptied:
        return BucketAnswer(
            say=_("Nothing can be left in it."),
            working=_(
                "All of it was drawn off. If there is some: weigh it, and say how full it is."
            ),
            doubt="",
            trust="",
            fill=True,
        )
    when = next(event.at for event in events if event.kind == BucketEventKind.EMPTIED)
    return BucketAnswer(
        say=_("It is empty."),
        working=_("Emptied on %s. Fill it, and weigh it then.") % day(when, "j F"),
        doubt="",
        trust="",
        fill=True,
    )


def came_out_said(worst: CameOut | None) -> dict[str, Any] | None:
    """Say which fault most pots out of a bucket have, and whether half of them have it."""
    if worst is None:
        return None
    words = {"pots": worst.pots, "judged": worst.judged, "fault": worst.fault.label}
    say = ngettext(
        "Of %(judged)d judged pot dipped in it since it was filled, %(pots)d: %(fault)s.",
        "Of %(judged)d judged pots dipped in it since it was filled, %(pots)d: %(fault)s.",
        worst.judged,
    )
    return {
        "say": say % words,
        "fault": worst.fault.value,
        "often": 2 * worst.pots >= worst.judged,
    }


def when_for(reading: Reading | None) -> str:
    """Say of which day an answer is where it is not of today."""
    if reading is None or timezone.localdate(reading.at) == timezone.localdate():
        return ""
    return _("On %s. Weigh it today.") % day(reading.at, "j F")


def roughly(mass_g: float) -> float:
    """Round a mass that rests on a tide line: two figures are all there is."""
    return float(f"{mass_g:.2g}")


def more_said(inside: InBucket, dry_g: Interval, shown: Shown) -> str:
    """Say that more dry glaze is reckoned than was weighed out; else nothing."""
    weighed_g = inside.more_than_weighed_out(dry_g)
    if weighed_g is None:
        return ""
    say = _("That is more dry glaze than the %s weighed out for it: look at the litres.")
    return say % shown.mass(weighed_g)


def left_said(inside: InBucket, shown: Shown) -> dict[str, str] | None:
    """Say how much is left in a bucket, wet and dry; None where it cannot be told."""
    litres = inside.level.litres
    if inside.sg is None or inside.level.since or not litres:
        return None
    try:
        dry = inside.dose(1.0)
    except CoreError:
        return None
    exact = dry.doubt["dry_g"]
    doubt = replace(exact, low=roughly(exact.low), high=roughly(exact.high))
    words = {
        "litres": shown.volume(litres * ML_L),
        "dry": shown.mass(roughly(dry.result.dry_g), doubt),
    }
    return {
        "say": _("Left: %(litres)s, %(dry)s of it dry glaze") % words,
        "span": shown.mass_span(doubt),
        "trust": "worked-out" if inside.solid_known else "general",
        "caution": more_said(inside, exact, shown),
    }


def pots_said(
    inside: InBucket, dipped: int, coats_g: Sequence[float], names: Sequence[str], shown: Shown
) -> dict[str, Any] | None:
    """Say how many more pots a bucket will do; None where it cannot be told.

    Parameters
    ----------
    inside : InBucket
        What is in the bucket, as it was told.
    dipped : int
        How many pots were dipped in it since.
    coats_g : sequence of float
        Dry glaze that weighed pots took, one number a pot [g].
    names : sequence of str
        What these pots are called.
    shown : Shown
        How this studio reads numbers.
    """
    litres = inside.level.litres
    if inside.sg is None or inside.level.since or not litres or not coats_g:
        return None
    try:
        left = pots_left(litres, inside.sg, inside.solid, coats_g, sg_doubt=inside.sg_half)
    except CoreError:
        return None
    spread = left.doubt["pots"]
    low, high = (max(end - dipped, 0.0) for end in (spread.low, spread.high))
    count, doubt = max(round(left.result.pots) - dipped, 0), replace(spread, low=low, high=high)
    working = _("%(dry)s dry in the bucket, %(each)s a pot.") % {
        "dry": shown.mass(left.result.dry_g),
        "each": shown.mass(left.result.dry_g_per_pot),
    }
    if dipped:
        off = _("The pots dipped since, %d of them, are taken off.") % dipped
        working = f"{working} {off}"
    say = ngettext("Enough for about %(n)d more pot", "Enough for about %(n)d more pots", count)
    return {
        "say": say % {"n": count},
        "span": shown.span(doubt, 1.0),
        "n": len(coats_g),
        "like": _("Like the ones weighed: %s.") % ", ".join(names[:MOST_NAMED]),
        "working": working,
        "caution": _("The last of a bucket is too shallow to dip in: pour it, or use a narrow tub.")
        if litres < SHALLOW_L
        else "",
    }
