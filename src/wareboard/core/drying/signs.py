"""The rule: which sign a pot gets from its grams.

Sources
-------
The limits were set on simulated damp studios, where two weighings that agree
were wrong for more than half of the pots.
"""

from dataclasses import dataclass
from enum import StrEnum

from wareboard.core.doubt import NORMAL_90
from wareboard.core.drying.air import Air, air_share
from wareboard.core.drying.dry_weight import DryWeight, Standing
from wareboard.core.drying.proof import LIMIT, SCALE_ERRORS, Verdict

GO_SHARE = 0.02
"""Over what the air explains, at most, for a go [of the dry clay]."""

STOP_SHARE = 0.03
"""Over what the air explains, above which it is a stop [of the dry clay]."""

AGAINST = 2.33
"""Standard deviations counted against a pot: wrong for one in a hundred.

With a bone-dry weighing and one now, on the same scale, that is the 3.7 scale
errors of the proof weighing."""

TOO_LIGHT_SHARE = 0.01
"""So much under its own dry weight a pot cannot be [of the dry clay]."""

SLOW_START_C = 95.0
"""What a slow start stays below until the steam has gone [°C]: under the boil, with room for
what a pyrometer may be off (common practice). A go is meant with it, a pot that waits is held
below it."""

PROVED = "It passed the proof weighing."


class Sign(StrEnum):
    """What to do with a pot."""

    GO = "go"
    WAIT = "wait"
    STOP = "stop"
    CANNOT_TELL = "cannot tell"

    @property
    def reads(self) -> str:
        """The sign as a page says it."""
        if self is Sign.GO:
            return f"go, with the slow start below {SLOW_START_C:.0f} \N{DEGREE SIGN}C"
        return self.value


class NextWeighing(StrEnum):
    """The cheapest weighing that would tell more."""

    NONE = "none needed"
    LATER = "dry it on, best on a warm tray, and weigh it again"
    PROOF = "weigh it, two hours at about 50 \N{DEGREE SIGN}C, weigh it again"
    PROOF_TOGETHER = (
        "weigh the small ones together, two hours at about 50 \N{DEGREE SIGN}C, weigh them again"
    )
    AGAIN = "look at its number and weigh it again"


@dataclass(frozen=True)
class Over:
    """A pot over its dry weight.

    Attributes
    ----------
    dry : DryWeight
        Its dry clay, known or estimated.
    over_dry_g : float
        Weight now over dry clay and dry coat [g].
    air_g : float
        What the air explains of that [g].
    sd_g : float
        Standard deviation of `over_dry_g` [g].
    """

    dry: DryWeight
    over_dry_g: float
    air_g: float
    sd_g: float

    @property
    def over_air_g(self) -> float:
        """What the air does not explain [g]."""
        return self.over_dry_g - self.air_g

    @property
    def counted_g(self) -> float:
        """Weighing errors counted against the pot [g]."""
        return AGAINST * self.sd_g

    @property
    def share(self) -> float:
        """What the air does not explain, of the dry clay [ratio]."""
        return self.over_air_g / self.dry.dry_clay_g


def which_proof(clay_g: float, step_g: float) -> NextWeighing:
    """Ask for a proof alone, or together where scale errors eat half of the allowance."""
    if SCALE_ERRORS * step_g > LIMIT * clay_g / 2.0:
        return NextWeighing.PROOF_TOGETHER
    return NextWeighing.PROOF


def _sign_own(over: Over, *, still_falling: bool, step_g: float) -> tuple[Sign, str, NextWeighing]:
    """Judge by the pot's own dry weight, where it is not a stop."""
    go_g = GO_SHARE * over.dry.dry_clay_g
    if over.over_air_g > go_g:
        return (
            Sign.WAIT,
            "Between 2 and 3 % over: it needs more time or warmth.",
            NextWeighing.LATER,
        )
    if over.over_air_g + over.counted_g > go_g:
        return (
            Sign.WAIT,
            "At most 2 % over by this weighing, but the scale’s error could hide more.",
            which_proof(over.dry.dry_clay_g, step_g),
        )
    if still_falling:
        return (
            Sign.WAIT,
            "It is still losing weight, and a falling board is never a go.",
            NextWeighing.LATER,
        )
    return (
        Sign.GO,
        "At most 2 % over, with the scale’s error counted against it.",
        NextWeighing.NONE,
    )


def sign_of(
    over: Over,
    proof: Verdict | None,
    *,
    still_falling: bool,
    held_against_itself: bool,
    step_g: float,
) -> tuple[Sign, str, NextWeighing]:
    """Judge a pot whose dry weight is known or estimated."""
    own = over.dry.standing is Standing.OWN
    clay_g = over.dry.dry_clay_g
    if own and over.over_dry_g < -TOO_LIGHT_SHARE * clay_g:
        return (
            Sign.CANNOT_TELL,
            "It cannot weigh less than its own dry weight: a wrong pot, or a slip in a weighing.",
            NextWeighing.AGAIN,
        )
    surely_g = over.over_air_g if own else over.over_air_g - NORMAL_90 * over.sd_g
    if surely_g > STOP_SHARE * clay_g:
        even_so = "" if own else ", even if it was a light pot of its kind"
        return Sign.STOP, f"More than 3 % over{even_so}: too wet to light.", NextWeighing.LATER
    if proof is not None and proof.passed:
        return Sign.GO, PROVED, NextWeighing.NONE
    if own and held_against_itself:
        return (
            Sign.CANNOT_TELL,
            "Its dry weight is this very weighing: nothing else says that it was dry.",
            which_proof(clay_g, step_g),
        )
    if own:
        return _sign_own(over, still_falling=still_falling, step_g=step_g)
    wet = over.over_air_g > STOP_SHARE * clay_g
    return (
        Sign.WAIT,
        "Only an estimated dry weight says so, and that never says go.",
        NextWeighing.LATER if wet else which_proof(clay_g, step_g),
    )


def rests_on_damp_air(over: Over, air: Air | None) -> bool:
    """Tell whether the air, at its driest, would leave more than a go allows."""
    if air is None:
        return False
    clay_g = over.dry.dry_clay_g
    least_g = clay_g * air_share(air.low_percent)
    return over.over_dry_g - least_g + over.counted_g > GO_SHARE * clay_g
