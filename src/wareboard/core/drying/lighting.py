"""Go, wait, stop or cannot tell: a raw pot before the kiln is lit.

Steam bursts a pot and peppers the rest, so a false yes is the one mistake not
to make. What counts is the water over what today's air explains:

- go: the pot's own bone-dry weight is known and, scale errors counted against
  it, it holds at most 2 % of its dry clay more than the air explains; or it
  passed a proof weighing.
- stop: it holds more than 3 % more.
- wait: between, or only an estimated dry weight says anything at all.
- cannot tell: nothing is known of its dry weight.

That two weighings agree proves nothing in damp air, and a board that is still
losing weight is never a go. Go always means with the slow start, held
below `SLOW_START_C` until the steam has gone.

Sources
-------
The limits were set on simulated damp studios, where two weighings that agree
were wrong for more than half of the pots. The slow start is common practice.
"""

import math
from dataclasses import dataclass

from wareboard.core.answer import Answer, Interval
from wareboard.core.bounds import DOUBT_G, STEP_G, WEIGHED_G, within
from wareboard.core.doubt import NORMAL_90, around
from wareboard.core.drying.air import SOURCES, Air, air_explains, air_share
from wareboard.core.drying.dry_weight import SCALE_SD, DryWeight, Standing, checked
from wareboard.core.drying.proof import Proof, Verdict, judge
from wareboard.core.drying.signs import (
    PROVED,
    SLOW_START_C,
    NextWeighing,
    Over,
    Sign,
    rests_on_damp_air,
    sign_of,
    which_proof,
)
from wareboard.core.units import MASS_G

SLOW_START = f"Keep the slow start below {SLOW_START_C:.0f} \N{DEGREE SIGN}C."

DRIER_AIR = (
    "This go rests on the air being as damp as given: at the dry end of its doubt it would be "
    "a wait."
)


@dataclass(frozen=True)
class BeforeLighting:
    """What the scale says of one pot.

    Attributes
    ----------
    over_dry_g : float or None
        Over its dry clay and dry coat [g]; None where no dry weight is known.
    air_g : float or None
        What the air explains of that [g].
    over_air_g : float or None
        What is left [g].
    over_percent : float or None
        What is left, of the dry clay [%].
    sign : Sign
        Go, wait, stop or cannot tell.
    reasons : tuple of str
        Sentences that say why.
    next_weighing : NextWeighing
        What would tell more.
    """

    over_dry_g: float | None
    air_g: float | None
    over_air_g: float | None
    over_percent: float | None
    sign: Sign
    reasons: tuple[str, ...]
    next_weighing: NextWeighing


def is_falling(earlier_g: float, later_g: float, *, scale_step_g: float = 1.0) -> bool:
    """Tell whether a pot or a board lost more than a step of the scale.

    Parameters
    ----------
    earlier_g, later_g : float
        Two weighings with no dip between them [g].
    scale_step_g : float
        Smallest difference the scale shows [g].

    Returns
    -------
    bool
        True while it falls. False proves nothing: in damp air nothing dries.

    Raises
    ------
    WeighingError
        If a weight or the step cannot be.
    """
    within(earlier_g, WEIGHED_G, field="earlier-g", name="earlier weight")
    within(later_g, WEIGHED_G, field="later-g", name="later weight")
    within(scale_step_g, STEP_G, field="scale-g")
    return earlier_g - later_g > scale_step_g


def _facts(over: Over, air: Air | None) -> str:
    of_what = {
        Standing.OWN: "its own bone-dry weight",
        Standing.FORM: "the usual dry weight of its form",
        Standing.PLASTIC: "the dry weight its plastic clay should have",
    }[over.dry.standing]
    share = f"{100.0 * over.share:.1f} % of the clay"
    if air is None:
        explained = "nobody said how the air is"
        rest = f", so all of it counts, {share}" if over.over_air_g > 0.0 else ""
    else:
        explained = f"this air explains {over.air_g:.0f} g"
        left = f"{over.over_air_g:.0f} g are left, {share}"
        rest = f", {left}" if over.over_air_g > 0.0 else ", nothing is left"
    side = "over" if over.over_dry_g >= 0.0 else "under"
    return (
        f"It weighs {abs(over.over_dry_g):.0f} g {side} {of_what} and its coat; {explained}{rest}."
    )


def before_lighting(
    now_g: float,
    dry: DryWeight | None,
    *,
    air: Air | None,
    coat_g: float = 0.0,
    coat_sd_g: float = 0.0,
    scale_step_g: float = 1.0,
    proof: Proof | None = None,
    still_falling: bool = False,
    held_against_itself: bool = False,
) -> Answer[BeforeLighting]:
    """Say of one raw pot whether it may be lit tonight.

    Parameters
    ----------
    now_g : float
        The pot now [g].
    dry : DryWeight or None
        Its dry clay, own or estimated; None where nothing is known.
    air : Air or None
        The room's air of the last day; None explains nothing, which errs
        against the pot.
    coat_g, coat_sd_g : float
        Dry glaze on it, worked out from its dips, and the standard deviation
        of that [g].
    scale_step_g : float
        Smallest difference the scale shows [g].
    proof : Proof, optional
        A proof weighing since the last dip.
    still_falling : bool
        Whether it still lost weight between its last two weighings.
    held_against_itself : bool
        Whether the dry weight is taken from the weighing now, and from no other.

    Returns
    -------
    Answer of BeforeLighting
        Sign, grams, reasons, and the cheapest weighing that would tell more.

    Raises
    ------
    WeighingError
        If a weight cannot be.

    Notes
    -----
    A heavier pot is never nearer to go, a coarser scale never makes it easier
    to go, and an estimated dry weight never says go. A stop outweighs a
    passed proof: if the two disagree, one of them is wrong.
    """
    within(now_g, WEIGHED_G, field="now-g", name="weight of the pot now")
    within(coat_g, MASS_G, field="coat-g", name="dry coat on the pot")
    within(coat_sd_g, DOUBT_G, field="coat-sd-g", name="doubt of the coat")
    within(scale_step_g, STEP_G, field="scale-g")
    share = 0.0 if air is None else air_share(air.rh_percent)
    verdict = None
    if proof is not None:
        clay_g = None
        if dry is not None:
            own = dry.standing is Standing.OWN
            clay_g = checked(dry).dry_clay_g - (0.0 if own else NORMAL_90 * dry.sd_g)
        verdict = judge(proof, now_g=now_g, dry_clay_g=clay_g, air_share=share)
    if dry is None:
        return _without_dry_weight(now_g - coat_g, verdict, scale_step_g)
    checked(dry)
    over = Over(
        dry,
        now_g - dry.dry_clay_g - coat_g,
        dry.dry_clay_g * share,
        math.hypot(SCALE_SD * scale_step_g, dry.sd_g, coat_sd_g),
    )
    sign, why, next_weighing = sign_of(
        over,
        verdict,
        still_falling=still_falling,
        held_against_itself=held_against_itself,
        step_g=scale_step_g,
    )
    reasons = (_facts(over, air), why, *((verdict.say,) if verdict else ()))
    explained = None if air is None else air_explains(dry.dry_clay_g, air)
    by_weight = sign is Sign.GO and not (verdict and verdict.passed)
    return Answer(
        BeforeLighting(
            over.over_dry_g,
            over.air_g,
            over.over_air_g,
            100.0 * over.share,
            sign,
            reasons,
            next_weighing,
        ),
        doubt=_doubt(over, None if explained is None else explained.doubt["air_g"]),
        working=(
            f"{now_g:g} - {dry.dry_clay_g:.1f} clay - {coat_g:.1f} coat = {over.over_dry_g:.1f} g.",
            f"{over.over_dry_g:.1f} - {over.air_g:.1f} air = {over.over_air_g:.1f} g.",
        ),
        cautions=(
            SLOW_START,
            *(verdict.cautions if verdict else ()),
            *((DRIER_AIR,) if by_weight and rests_on_damp_air(over, air) else ()),
            *(() if explained is None else explained.cautions),
        ),
        sources=SOURCES,
    )


def _without_dry_weight(
    bare_g: float, verdict: Verdict | None, step_g: float
) -> Answer[BeforeLighting]:
    if verdict is not None and verdict.passed:
        sign, why, next_weighing = (
            Sign.GO,
            PROVED,
            NextWeighing.NONE,
        )
    else:
        sign = Sign.CANNOT_TELL
        why = "Its dry weight is not known; that two weighings agree proves nothing in damp air."
        next_weighing = which_proof(bare_g, step_g)
    return Answer(
        BeforeLighting(
            None,
            None,
            None,
            None,
            sign,
            (why, *((verdict.say,) if verdict else ())),
            next_weighing,
        ),
        cautions=(SLOW_START, *(verdict.cautions if verdict else ())),
        sources=SOURCES,
    )


def _doubt(over: Over, air: Interval | None) -> dict[str, Interval]:
    half = NORMAL_90 * over.sd_g
    basis = f"scale, coat and {over.dry.standing.value} dry weight"
    if air is None:
        air = Interval(over.air_g, over.air_g, "air not known, counted as nothing")
    left = Interval(
        over.over_air_g - math.hypot(half, air.high - over.air_g),
        over.over_air_g + math.hypot(half, over.air_g - air.low),
        f"{basis}; {air.basis}",
    )
    to_percent = 100.0 / over.dry.dry_clay_g
    return {
        "over_dry_g": around(over.over_dry_g, half, basis),
        "air_g": air,
        "over_air_g": left,
        "over_percent": Interval(left.low * to_percent, left.high * to_percent, left.basis),
    }
