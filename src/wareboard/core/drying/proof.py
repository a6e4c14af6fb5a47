"""The proof weighing: weigh, two hours at about 50 degrees, weigh.

A pot whose dry weight nobody knows can still show that little water is left:
what two warm hours do not drive out is not there. Small pots are weighed
together, since a gram of scale error is much of a cup and little of a board.

Sources
-------
The limit, 1.0 % of the dry clay with 3.7 scale errors counted in, was set on
simulated damp studios, where it vouched for at most 3 % of water left and was
wrong for 0.45 % of the pots that passed.
"""

from dataclasses import dataclass

from wareboard.core.bounds import STEP_G, WEIGHED_G, within
from wareboard.core.errors import WeighingError
from wareboard.core.units import HOURS, MASS_G, TEMP_C

LIMIT = 0.010
"""Loss with its scale errors, at most, of the dry clay [ratio]."""

SCALE_ERRORS = 3.7
"""Scale errors counted on a difference of two weighings [steps]."""

FEWEST_HOURS = 1.75
"""Shorter than that is not about two hours."""

MOST_HOURS = 4.0
"""Longer than that it may have dried and taken up water again (common practice)."""

MINUTES_H = 60

COOLEST_C = 45.0
"""Cooler than that is not about 50 degrees."""

HEAVIER_ON_PAN = 1.10
"""What a pan shows, at most, against its dry clay, where that is not known."""

HIDES = (
    "It was weighed with others, and one wet pot hides among dry ones: hold each to your cheek, "
    "a cool one is not dry."
)
"""What a pan cannot tell; damp clay feels cool (common practice)."""

REGAINED = 0.005
"""What a pot may take up on the way to the scale, where the air explains less [ratio]."""


@dataclass(frozen=True)
class Proof:
    """One proof weighing, of a pot or of small pots together.

    Attributes
    ----------
    before_g, after_g : float
        What was on the pan before and after the warm hours [g].
    hours, temp_c : float
        How long, and how warm.
    scale_step_g : float
        Smallest difference the scale shows [g].
    pots : int
        How many pots stood on the pan.
    dry_clay_g : float or None
        Dry clay on the pan [g], where known.
    coat_g : float
        Dry glaze on the pan [g].
    gained_g : float
        What the pots of a shared pan have gained since [g]; for a single pot
        it is read from its weight now.
    """

    before_g: float
    after_g: float
    hours: float = 2.0
    temp_c: float = 50.0
    scale_step_g: float = 1.0
    pots: int = 1
    dry_clay_g: float | None = None
    coat_g: float = 0.0
    gained_g: float = 0.0


@dataclass(frozen=True)
class Verdict:
    """What a proof weighing came to.

    Attributes
    ----------
    passed : bool
        Whether it vouches for the pot.
    say : str
        One sentence why.
    cautions : tuple of str
        What it cannot tell.
    """

    passed: bool
    say: str
    cautions: tuple[str, ...] = ()


def _clay_on_pan(proof: Proof, dry_clay_g: float | None) -> float:
    """Dry clay on the pan [g], rather too little than too much."""
    if proof.dry_clay_g is not None:
        return within(proof.dry_clay_g, WEIGHED_G, field="proof-dry-clay-g")
    if proof.pots == 1 and dry_clay_g is not None:
        return dry_clay_g
    return (proof.after_g - proof.coat_g) / HEAVIER_ON_PAN


def _long(hours: float) -> str:
    """Say how long the warm hours were."""
    minutes = round(60.0 * hours)
    if minutes < MINUTES_H:
        return f"{minutes} minute{'' if minutes == 1 else 's'}"
    return f"{hours:.1f} hours"


def judge(proof: Proof, *, now_g: float, dry_clay_g: float | None, air_share: float) -> Verdict:
    """Say whether a proof weighing vouches for a pot as it is now.

    Parameters
    ----------
    proof : Proof
        The two weighings.
    now_g : float
        The pot now [g].
    dry_clay_g : float or None
        Its dry clay, rather too little than too much [g].
    air_share : float
        What the air may have put back [g to a gram of clay].

    Returns
    -------
    Verdict
        Passed or not, and why.

    Raises
    ------
    WeighingError
        If a number cannot be, or the pan gained weight in the warmth.
    """
    within(proof.before_g, WEIGHED_G, field="proof-before-g", name="first proof weighing")
    within(proof.after_g, WEIGHED_G, field="proof-after-g", name="second proof weighing")
    within(proof.scale_step_g, STEP_G, field="proof-scale-g")
    within(proof.hours, HOURS, field="proof-hours")
    within(proof.temp_c, TEMP_C, field="proof-temp-c")
    within(proof.coat_g, MASS_G, field="proof-coat-g", name="coat on the pan")
    within(proof.gained_g, MASS_G, field="proof-gained-g", name="gain since the proof")
    if proof.after_g - proof.before_g > REGAINED * proof.before_g:
        raise WeighingError(
            f"The pan cannot weigh more after the warm hours, {proof.after_g:g} g, than before, "
            f"{proof.before_g:g} g: weigh it again.",
            field="proof-after-g",
            seen=proof.after_g,
            accepted=f"at most {proof.before_g:g} g",
        )
    if not FEWEST_HOURS <= proof.hours <= MOST_HOURS or proof.temp_c < COOLEST_C:
        return Verdict(
            passed=False,
            say=f"{_long(proof.hours)} at {proof.temp_c:g} \N{DEGREE SIGN}C is no proof weighing: "
            "it takes two hours at about 50 \N{DEGREE SIGN}C.",
        )
    clay_g = _clay_on_pan(proof, dry_clay_g)
    gained_g = now_g - proof.after_g if proof.pots == 1 else proof.gained_g
    if gained_g > max(air_share, REGAINED) * clay_g:
        return Verdict(
            passed=False,
            say=f"It has gained {gained_g:.1f} g since the proof weighing, more than the air "
            "explains: the proof no longer counts.",
        )
    errors_g = SCALE_ERRORS * proof.scale_step_g
    loss_g = max(proof.before_g - proof.after_g, 0.0)
    limit_g = LIMIT * clay_g
    passed = loss_g + errors_g <= limit_g
    said = "at most" if passed else "more than"
    return Verdict(
        passed=passed,
        say=f"The proof weighing lost {loss_g:.1f} g, {loss_g + errors_g:.1f} g with the scale's "
        f"errors: {said} the {limit_g:.1f} g that are 1 % of the clay.",
        cautions=(HIDES,) if passed and proof.pots > 1 else (),
    )
