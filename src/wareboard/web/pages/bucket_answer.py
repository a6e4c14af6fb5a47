"""What a reading of a bucket means, in sentences."""

from dataclasses import dataclass, field

from django.utils.translation import gettext as _

from wareboard.core.slop import SlopWord, how_thick, water
from wareboard.records.glazes.bridge import Liked, density_of
from wareboard.records.glazes.models import Reading, ReadingFlow
from wareboard.records.people.shown import Shown, rounded


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
    """

    say: str
    working: str
    doubt: str
    trust: str
    why: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)


WORDS = {
    SlopWord.THIN: _("A little thin."),
    SlopWord.RIGHT: _("Right."),
    SlopWord.THICK: _("A little thick."),
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
    sg, spread = density.result.sg, density.doubt["sg"]
    half = (spread.high - spread.low) / 2
    working = _("%(full)s − %(empty)s bottle = %(slop)s in %(ml)s: %(sg)s") % {
        "full": shown.mass(reading.full_g),
        "empty": shown.mass(reading.empty_g),
        "slop": shown.mass(density.result.slop_g),
        "ml": f"{rounded(reading.volume_ml, 1)} ml",
        "sg": rounded(sg, 0.001),
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
            doubt=shown.span(spread, 0.01),
            trust="worked-out",
            why=[
                _("No pot with this glaze has come out good yet: there is nothing to hold it to.")
            ],
            cautions=cautions,
        )
    word = how_thick(sg, liked.sg, half).result.word
    wanted = _("wanted %(sg)s") % {"sg": shown.sg(liked.sg)}
    why = [
        _("Wanted is what the bucket had when its good pots were dipped (%(n)d readings).")
        % {"n": liked.readings},
        _("A thin slop puts more water into an unfired wall for the same coat."),
        _("Density is not how it hangs: stir, look at the drip, and trust your eye."),
    ]
    if word is SlopWord.RIGHT:
        return BucketAnswer(
            _("Right. Leave it."), f"{working}, {wanted}.", "", "worked-out", why, cautions
        )
    if litres is None:
        say = _("%(word)s Say how much is in the bucket, and I say how much water.")
        return BucketAnswer(
            say % {"word": WORDS[word]}, f"{working}, {wanted}.", "", "worked-out", why, cautions
        )
    needed = water(litres, sg, liked.sg, sg_doubt=half)
    amount = abs(needed.result.water_ml)
    doubt = needed.doubt["water_ml"]
    ends = sorted(abs(end) for end in (doubt.low, doubt.high))
    say = (
        _("%(word)s Add %(water)s of water.")
        if needed.result.water_ml > 0
        else _("%(word)s Take off %(water)s of clear water.")
    )
    arithmetic = _("%(litres)s × %(change)s ÷ %(over)s") % {
        "litres": f"{rounded(litres, 0.1)} l",
        "change": rounded(abs(sg - liked.sg), 0.001),
        "over": rounded(liked.sg - 1, 0.01),
    }
    return BucketAnswer(
        say=say % {"word": WORDS[word], "water": shown.volume(amount)},
        working=f"{working}, {wanted}. {arithmetic}",
        doubt=f"({shown.volume(ends[0]).split()[0]}–{shown.volume(ends[1])})",
        trust="worked-out",
        why=why,
        cautions=cautions,
    )
