"""How heavy a slop is: the full bottle, the pint, the old Twaddell scale.

A bottle filled to the brim is the instrument; a graduated cylinder is not: one
millilitre in a hundred is 0.015 of SG, one gram in half a litre only 0.002.
An SG is not a flow: a gelled slop can be right on the scale and thick on the
pot.

Sources
-------
[TomBuck2000]_ quotes Cardew for the pint of 20 ounces. A US pint holds 16.69
ounces of water, so pint weights do not cross the sea. Twaddell's scale is
common practice: 200 degrees for each whole of SG.

.. [TomBuck2000] T. Buck, "re: glaze error?", potters' mailing list,
   9 October 2000, potters.org/subject34220.
"""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Literal

from wareboard.core.answer import Answer
from wareboard.core.bounds import WEIGHED_G, within
from wareboard.core.doubt import around, reach, together
from wareboard.core.errors import DensityError
from wareboard.core.slop.content import SG_DOUBT, check_sg, check_solid
from wareboard.core.units import LOST_POINT, MASS_G, SLOP_SG, VOLUME_ML, Quantity, Slip

PINT_OZ = {"imperial": 20.0, "us": 16.69}
"""Water in a pint [oz]."""

TWADDELL_STEP = 200.0
"""Degrees Twaddell for each whole of SG."""

HEAVIEST_SG = 3.0
"""No slop that is dipped in is heavier (common practice)."""

SLIPS = (*LOST_POINT, Slip(0.1), Slip(0.001))
"""A point lost, a digit lost, kilograms read off as grams."""

_BOTTLE_ML = replace(
    VOLUME_ML, above=True, words="millilitres above 0 and up to 10000000, such as 500"
)
_PINT = replace(
    MASS_G,
    name="pint weight",
    unit="oz",
    words="ounces for a pint of slop, such as 29",
    above=True,
)
_TWADDELL = replace(
    SLOP_SG,
    name="Twaddell reading",
    unit="twaddell",
    lowest=0.0,
    highest=(SLOP_SG.highest - 1.0) * TWADDELL_STEP,
    words="degrees above 0 and up to 1800, such as 90",
    usual=None,
)


@dataclass(frozen=True)
class BottleDensity:
    """What a full bottle says.

    Attributes
    ----------
    sg : float
        Specific gravity of the slop.
    slop_g : float
        Slop in the bottle [g].
    """

    sg: float
    slop_g: float


class SlopWord(StrEnum):
    """How a slop stands against the one that was liked."""

    THIN = "thin"
    RIGHT = "right"
    THICK = "thick"


@dataclass(frozen=True)
class Thickness:
    """A slop against the SG it was liked at.

    Attributes
    ----------
    word : SlopWord
        Thin, right or thick.
    sg_over : float
        SG now less SG liked.
    """

    word: SlopWord
    sg_over: float


def density_from_bottle(
    full_g: float,
    empty_g: float,
    volume_ml: float,
    *,
    scale_step_g: float = 1.0,
    volume_error_ml: float = 1.0,
) -> Answer[BottleDensity]:
    """SG of a slop from a bottle filled to the brim.

    Parameters
    ----------
    full_g, empty_g : float
        The bottle full of slop, and empty and dry [g]. On a scale set to zero
        with the bottle on it, `empty_g` is 0.
    volume_ml : float
        What the bottle holds [ml]: its weight of water in grams.
    scale_step_g : float
        Smallest difference the scale shows [g]; a reading is taken to be good
        to one step either way, nine times in ten.
    volume_error_ml : float
        Half of the 90 % interval of the volume [ml].

    Returns
    -------
    Answer of BottleDensity
        SG with its doubt.

    Raises
    ------
    WeighingError
        If the full bottle is not heavier than the empty one.
    DensityError
        If the volume cannot be, or no slop has the SG that comes out.
    """
    within(full_g, WEIGHED_G, field="full-g", name="weight of the full bottle")
    within(empty_g, MASS_G, field="empty-g", name="weight of the empty bottle")
    within(volume_ml, _BOTTLE_ML, field="volume-ml", name="bottle", error=DensityError)
    within(scale_step_g, MASS_G, field="scale-g", name="step of the scale")
    within(volume_error_ml, VOLUME_ML, field="volume-error-ml", name="doubt of the volume")
    slop_g = full_g - empty_g
    sg = slop_g / volume_ml
    if not SLOP_SG.allows(sg):
        raise DensityError(
            f"{slop_g:g} g in {volume_ml:g} ml is an SG of {sg:.3g}, which no slop has: "
            "look at the empty weight and at the volume of the bottle.",
            field="full-g",
            seen=full_g,
            accepted=f"more than {empty_g + volume_ml:g} g",
        )
    steps = 1 if empty_g == 0.0 else 2
    weight_half = together([scale_step_g] * steps)
    half = reach(
        lambda slop_g, volume_ml: slop_g / volume_ml,
        {"slop_g": slop_g, "volume_ml": volume_ml},
        {"slop_g": weight_half, "volume_ml": min(volume_error_ml, volume_ml / 2.0)},
    )
    return Answer(
        BottleDensity(sg, slop_g),
        doubt={
            "sg": around(
                sg,
                half,
                f"scale to {scale_step_g:g} g, bottle to {volume_error_ml:g} ml",
                lowest=0.0,
            ),
            "slop_g": around(slop_g, weight_half, f"scale to {scale_step_g:g} g", lowest=0.0),
        },
        working=(f"{full_g:g} g less {empty_g:g} g, over {volume_ml:g} ml, is SG {sg:.3f}.",),
    )


def full_bottle(empty_g: float, volume_ml: float) -> Quantity:
    """Say what a bottle may weigh full of slop.

    Parameters
    ----------
    empty_g : float
        The bottle empty and dry [g].
    volume_ml : float
        What it holds [ml].

    Returns
    -------
    Quantity
        From full of water, which is no slop yet, to full of the heaviest slop; it
        knows the slips of the hand that lead there.

    Examples
    --------
    >>> full = full_bottle(212, 365)
    >>> full.allows(770)
    True
    >>> [meant for _slip, meant in full.likely_slips(7700)]
    [770.0]
    """
    low, high = empty_g + volume_ml, empty_g + HEAVIEST_SG * volume_ml
    return replace(
        WEIGHED_G,
        name="full bottle",
        lowest=low,
        highest=high,
        words=f"grams from {low:g} to {high:g}",
        usual=(low, high),
        slips=SLIPS,
    )


def how_thick(sg: float, liked_sg: float, doubt: float = SG_DOUBT) -> Answer[Thickness]:
    """Say whether a slop is thin, right or thick against the SG that was liked.

    Parameters
    ----------
    sg : float
        Specific gravity now.
    liked_sg : float
        Specific gravity on its good pots.
    doubt : float
        Half of the 90 % interval of the difference; a difference within it is
        no difference.

    Returns
    -------
    Answer of Thickness
        The word and the difference.

    Raises
    ------
    DensityError
        If an SG or the doubt cannot be.
    """
    check_sg(sg)
    check_sg(liked_sg, field="liked-sg")
    if not 0.0 <= doubt < 1.0:
        raise DensityError(
            f"The doubt of an SG cannot be {doubt:g}: a number from 0 to 1 would do, such as 0.01.",
            field="doubt",
            seen=doubt,
            accepted="a number from 0 to 1, such as 0.01",
        )
    over = sg - liked_sg
    word = SlopWord.RIGHT
    if over > doubt:
        word = SlopWord.THICK
    elif over < -doubt:
        word = SlopWord.THIN
    return Answer(
        Thickness(word, over),
        doubt={"sg_over": around(over, doubt, f"difference of two SG good to {doubt:g}")},
        working=(f"SG {sg:.3f} now, {liked_sg:.3f} liked: {over:+.3f}.",),
        cautions=("Weight is not flow: a gelled slop can weigh right and still go on thick.",),
    )


def sg_from_pint_oz(pint_oz: float, pint: Literal["imperial", "us"] = "imperial") -> float:
    """SG of a slop from the weight of a pint of it.

    Parameters
    ----------
    pint_oz : float
        Weight of the pint [oz].
    pint : {"imperial", "us"}
        Which pint.

    Returns
    -------
    float
        Specific gravity.

    Raises
    ------
    DensityError
        If no slop weighs that.
    """
    within(pint_oz, _PINT, field="pint-oz", error=DensityError)
    return check_sg(pint_oz / PINT_OZ[pint], field="pint-oz")


def pint_oz_from_sg(sg: float, pint: Literal["imperial", "us"] = "imperial") -> float:
    """Weight of a pint of slop [oz]; the reverse of :func:`sg_from_pint_oz`."""
    return check_sg(sg) * PINT_OZ[pint]


def dry_oz_per_imperial_pint(pint_oz: float, solid: float) -> float:
    """Powder in an imperial pint of slop, in the old form of the formula.

    Parameters
    ----------
    pint_oz : float
        Weight of the pint [oz].
    solid : float
        Density of the powder [g/cm3].

    Returns
    -------
    float
        Dry ounces in the pint [oz].

    Raises
    ------
    DensityError
        If the pint weight or the density cannot be.

    Notes
    -----
    ``W = (P - 20) d / (d - 1)``, as Cardew prints it [TomBuck2000]_.
    """
    check_solid(solid)
    check_sg(sg_from_pint_oz(pint_oz), solid, field="pint-oz")
    return (pint_oz - PINT_OZ["imperial"]) * solid / (solid - 1.0)


def sg_from_twaddell(degrees: float) -> float:
    """SG from degrees Twaddell; ``SG = 1 + degrees / 200``.

    Parameters
    ----------
    degrees : float
        Reading of the hydrometer [degrees Twaddell].

    Returns
    -------
    float
        Specific gravity.

    Raises
    ------
    DensityError
        If no slop reads that.
    """
    within(degrees, _TWADDELL, field="twaddell", error=DensityError)
    return 1.0 + degrees / TWADDELL_STEP


def twaddell_from_sg(sg: float) -> float:
    """Degrees Twaddell from SG; the reverse of :func:`sg_from_twaddell`."""
    return (check_sg(sg) - 1.0) * TWADDELL_STEP
