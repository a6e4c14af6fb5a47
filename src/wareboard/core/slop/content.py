"""How much powder and how much water a slop holds, and how much to add to it.

Brongniart's formula is exact if the volumes of powder and water add up and
nothing dissolves. A slop that was measured 0.01 too heavy is reckoned 2 % too
rich at SG 1.45, so every answer carries the doubt of its SG.

Sources
-------
[Altmann1998]_ gives the formula in grams and litres and a worked litre;
[Handbook]_ names where Brongniart first printed it and prints a table.

.. [Altmann1998] S. Altmann, "Brongniart's formula", potters' mailing list,
   30 January and 26 April 1998, potters.org/subject11877 and subject13664.
.. [Handbook] J. Harrison et al., Handbook for Australian Potters, as quoted
   in the sheet "Brongniart's Formula: made easy for ceramists".
"""

from dataclasses import dataclass
from typing import Literal

from wareboard.core.answer import Answer
from wareboard.core.bounds import WEIGHED_G, within
from wareboard.core.doubt import around, reach
from wareboard.core.errors import CoreError, DensityError
from wareboard.core.units import DOSE_PERCENT, FINISHED_PERCENT, SLOP_SG, SOLID_G_CM3, VOLUME_L

WATER_G_L = 1000.0
"""A litre of water [g]."""

SG_DOUBT = 0.01
"""Half width of an SG that was measured with ordinary care."""

SOLID_DOUBT = 0.05
"""Half width of the density of the powder, where it comes from a recipe [g/cm3]."""

SOURCES = ("brongniart1854", "altmann1998")


@dataclass(frozen=True)
class SlopContent:
    """What a volume of slop holds.

    Attributes
    ----------
    dry_g, water_g : float
        Powder and water in the volume asked about [g].
    dry_fraction : float
        Powder in the slop, by weight [ratio].
    solid_volume_fraction : float
        Powder in the slop, by volume [ratio].
    """

    dry_g: float
    water_g: float
    dry_fraction: float
    solid_volume_fraction: float


@dataclass(frozen=True)
class Dose:
    """What to add to a wet slop.

    Attributes
    ----------
    dry_g : float
        Powder already in the slop [g].
    add_g : float
        What to weigh out and add [g].
    """

    dry_g: float
    add_g: float


def check_solid(solid: float, *, field: str = "solid") -> float:
    """Give the density of the powder back, or refuse it.

    Parameters
    ----------
    solid : float
        Density of the dry particles [g/cm3].
    field : str
        What the caller calls it.

    Returns
    -------
    float
        The same density.

    Raises
    ------
    DensityError
        If it is not above 1, or above what any powder has.
    """
    return within(solid, SOLID_G_CM3, field=field, error=DensityError)


def check_sg(sg: float, solid: float | None = None, *, field: str = "sg") -> float:
    """Give the SG of a slop back, or refuse it.

    Parameters
    ----------
    sg : float
        Specific gravity of the slop.
    solid : float, optional
        Density of its powder [g/cm3], where known: a slop is lighter.
    field : str
        What the caller calls it.

    Returns
    -------
    float
        The same SG.

    Raises
    ------
    DensityError
        If it is not above 1, above 10 (the sentence then names the likely
        value), or not below the density of the powder.
    """
    within(sg, SLOP_SG, field=field, error=DensityError)
    if solid is not None and sg >= solid:
        raise DensityError(
            f"A slop of SG {sg:g} would be as heavy as its own powder ({solid:g}): "
            "weigh the full bottle again, or look at the density of the powder.",
            field=field,
            seen=sg,
            accepted=f"a number above 1 and below {solid:g}, such as 1.45",
        )
    return float(sg)


def dry_fraction(sg: float, solid: float) -> float:
    """Powder in a slop, by weight, for numbers that were checked before.

    Parameters
    ----------
    sg : float
        Specific gravity of the slop.
    solid : float
        Density of the powder [g/cm3].

    Returns
    -------
    float
        Grams of powder in a gram of slop [ratio].
    """
    return (sg - 1.0) * solid / ((solid - 1.0) * sg)


def _volume_fraction(sg: float, solid: float) -> float:
    return (sg - 1.0) / (solid - 1.0)


def slop(
    sg: float,
    solid: float,
    litres: float = 1.0,
    *,
    sg_doubt: float = SG_DOUBT,
    solid_doubt: float = SOLID_DOUBT,
) -> Answer[SlopContent]:
    """Powder and water in a slop of known SG.

    Parameters
    ----------
    sg : float
        Specific gravity of the slop, above 1 and below `solid`.
    solid : float
        Density of the dry particles [g/cm3], above 1.
    litres : float
        How much of the slop [l].
    sg_doubt, solid_doubt : float
        Half of the 90 % interval of `sg` and of `solid` [g/cm3].

    Returns
    -------
    Answer of SlopContent
        With the doubt of all four numbers.

    Raises
    ------
    DensityError
        If the SG, the density or the volume cannot be.

    Notes
    -----
    ``dry = 1000 V (SG - 1) d / (d - 1)`` [Altmann1998]_ [Handbook]_, and the
    rest of the weight is water.
    """
    check_solid(solid)
    check_sg(sg, solid)
    within(litres, VOLUME_L, field="litres", error=DensityError)
    given = {"sg": sg, "solid": solid}
    errors = {"sg": sg_doubt, "solid": solid_doubt}
    weight_g = sg * litres * WATER_G_L
    fraction = dry_fraction(sg, solid)
    dry_g = weight_g * fraction
    water_g = weight_g - dry_g
    basis = f"SG good to {sg_doubt:g}, density of the powder to {solid_doubt:g}"
    dry_half = reach(
        lambda sg, solid: sg * litres * WATER_G_L * dry_fraction(sg, solid), given, errors
    )
    water_half = reach(
        lambda sg, solid: sg * litres * WATER_G_L * (1.0 - dry_fraction(sg, solid)), given, errors
    )
    volume = _volume_fraction(sg, solid)
    return Answer(
        SlopContent(dry_g, water_g, fraction, volume),
        doubt={
            "dry_g": around(dry_g, dry_half, basis, lowest=0.0),
            "water_g": around(water_g, water_half, basis, lowest=0.0),
            "dry_fraction": around(
                fraction, reach(dry_fraction, given, errors), basis, lowest=0.0, highest=1.0
            ),
            "solid_volume_fraction": around(
                volume, reach(_volume_fraction, given, errors), basis, lowest=0.0, highest=1.0
            ),
        },
        working=(
            f"{litres:g} kg x ({sg:g} - 1) x {solid:g} / ({solid:g} - 1) = {dry_g:.0f} g dry.",
            f"The slop weighs {weight_g:.0f} g, so the other {water_g:.0f} g are water.",
        ),
        sources=SOURCES,
    )


def sg_from_dry(dry_g: float, litres: float, solid: float) -> float:
    """SG of a slop made up to a volume with this much powder.

    Parameters
    ----------
    dry_g : float
        Powder [g].
    litres : float
        Volume of the whole slop [l].
    solid : float
        Density of the powder [g/cm3].

    Returns
    -------
    float
        Specific gravity; the reverse of :func:`slop`.

    Raises
    ------
    DensityError
        If the powder alone fills the volume, or a number cannot be.
    """
    check_solid(solid)
    within(dry_g, WEIGHED_G, field="dry-g", error=DensityError)
    within(litres, VOLUME_L, field="litres", error=DensityError)
    if dry_g >= litres * WATER_G_L * solid:
        raise DensityError(
            f"{dry_g:g} g of powder do not go into {litres:g} l, even without any water.",
            field="dry-g",
            seen=dry_g,
            accepted=f"less than {litres * WATER_G_L * solid:g} g",
        )
    return 1.0 + dry_g * (solid - 1.0) / (solid * litres * WATER_G_L)


def dose(
    wet_g: float,
    sg: float,
    solid: float,
    percent: float,
    *,
    of: Literal["base", "finished"] = "base",
    sg_doubt: float = SG_DOUBT,
    wet_doubt_g: float = 0.0,
    solid_doubt: float = 0.0,
) -> Answer[Dose]:
    """Grams to add to a wet slop for so many per cent of its dry weight.

    Parameters
    ----------
    wet_g : float
        Net weight of the slop [g].
    sg : float
        Its specific gravity.
    solid : float
        Density of its powder [g/cm3].
    percent : float
        Strength wanted [%].
    of : {"base", "finished"}
        Whether the per cent are on top of the dry base, as additions in a
        recipe are, or of the dry weight once the addition is in.
    sg_doubt, wet_doubt_g, solid_doubt : float
        Half of the 90 % interval of `sg`, of `wet_g` [g], where it was not
        weighed but read off a bucket, and of `solid` [g/cm3].

    Returns
    -------
    Answer of Dose
        Dry weight of the slop and weight of the addition.

    Raises
    ------
    WeighingError
        If the weight or the strength cannot be.
    DensityError
        If the SG or the density cannot be.
    CoreError
        If `of` is neither.
    """
    within(wet_g, WEIGHED_G, field="wet-g")
    check_solid(solid)
    check_sg(sg, solid)
    if of not in ("base", "finished"):
        raise CoreError(
            f"Per cent of what? {of!r} is not known: say base or finished.",
            field="of",
            seen=of,
            accepted="base or finished",
        )
    if of == "base":
        within(percent, DOSE_PERCENT, field="percent")
        share = percent / 100.0
        said = f"{percent:g} parts to 100 of dry base"
    else:
        within(percent, FINISHED_PERCENT, field="percent")
        share = percent / (100.0 - percent)
        said = f"{percent:g} of 100 parts of the finished dry weight"
    dry_g = wet_g * dry_fraction(sg, solid)
    half = reach(
        lambda wet_g, sg, solid: wet_g * dry_fraction(sg, solid),
        {"wet_g": wet_g, "sg": sg, "solid": solid},
        {"wet_g": wet_doubt_g, "sg": sg_doubt, "solid": solid_doubt},
    )
    basis = f"SG good to {sg_doubt:g}"
    if wet_doubt_g:
        basis += f", weight of the slop to {wet_doubt_g:.0f} g"
    if solid_doubt:
        basis += f", density of the powder to {solid_doubt:.2g}"
    return Answer(
        Dose(dry_g, dry_g * share),
        doubt={
            "dry_g": around(dry_g, half, basis, lowest=0.0, highest=wet_g),
            "add_g": around(dry_g * share, half * share, basis, lowest=0.0, highest=wet_g * share),
        },
        working=(
            f"{wet_g:g} g at SG {sg:g} hold {dry_g:.0f} g dry; {said} is {dry_g * share:.1f} g.",
        ),
        sources=SOURCES,
    )
