"""What to do to a bucket, and how many pots are still in it.

Water to add depends on the SG alone, not on the powder. Taking clear water
off is the same sum with the sign turned, but what had dissolved in that water
leaves with it.

Sources
-------
The sums follow from weights and volumes that add up; see
:mod:`wareboard.core.slop.content`.
"""

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from wareboard.core.answer import Answer
from wareboard.core.bounds import WEIGHED_G, within
from wareboard.core.doubt import around, reach, student_90, together
from wareboard.core.errors import DensityError, WeighingError
from wareboard.core.slop.content import (
    SG_DOUBT,
    SOURCES,
    WATER_G_L,
    check_sg,
    check_solid,
    dry_fraction,
)
from wareboard.core.units import MASS_G, VOLUME_L

LITRES_DOUBT = 0.05
"""Half width of a volume read off a bucket, as a share of it (common practice)."""

FEW = 3
"""Below so many weighed dips the scatter between pots is the general one."""

GENERAL_SCATTER = 0.25
"""Half width of one dip about the next, as a share, where little is known (general)."""

ML_L = 1000.0
"""Millilitres in a litre."""

DECANTING = (
    "Let it settle and take only clear water off; soda ash and other soluble materials "
    "leave with it."
)
SHALLOW = "The last of a bucket is too shallow to dip in: count on pouring, or on a narrower tub."


@dataclass(frozen=True)
class Water:
    """Water to add to a bucket.

    Attributes
    ----------
    water_ml : float
        Water to add [ml]; negative: clear water to take off.
    """

    water_ml: float


@dataclass(frozen=True)
class Powder:
    """Powder to add to a bucket.

    Attributes
    ----------
    add_g : float
        Dry glaze to stir in [g].
    """

    add_g: float


@dataclass(frozen=True)
class PotsLeft:
    """What is left in a bucket.

    Attributes
    ----------
    dry_g : float
        Powder left in the bucket [g].
    dry_g_per_pot : float
        What a pot takes, mean of the dips given [g].
    pots : float
        How many such pots that is.
    """

    dry_g: float
    dry_g_per_pot: float
    pots: float


def _water_ml(litres: float, sg: float, want: float) -> float:
    return litres * ML_L * (sg - want) / (want - 1.0)


def water(
    litres: float,
    sg: float,
    want: float,
    *,
    sg_doubt: float = SG_DOUBT,
    want_doubt: float = 0.0,
    litres_doubt: float = LITRES_DOUBT,
) -> Answer[Water]:
    """Water that brings a bucket to the SG wanted.

    Parameters
    ----------
    litres : float
        Slop in the bucket [l].
    sg : float
        Its specific gravity.
    want : float
        The specific gravity wanted.
    sg_doubt : float
        Half of the 90 % interval of `sg`.
    want_doubt : float
        Half of the 90 % interval of `want`; none where it was chosen.
    litres_doubt : float
        Half of the 90 % interval of `litres`, as a share of it [ratio].

    Returns
    -------
    Answer of Water
        Millilitres to add; negative: so much clear water to take off. Where
        its doubt holds zero, the bucket cannot be told from the one wanted.

    Raises
    ------
    DensityError
        If a number cannot be.
    """
    within(litres, VOLUME_L, field="litres", error=DensityError)
    check_sg(sg)
    check_sg(want, field="want")
    water_ml = _water_ml(litres, sg, want)
    half = reach(
        lambda litres, sg: _water_ml(litres, sg, want),
        {"litres": litres, "sg": sg},
        {"litres": litres_doubt * litres, "sg": sg_doubt},
    )
    # By the slope: half a doubt down the SG wanted may not be one any more.
    half = together([half, litres * ML_L * (sg - 1.0) / (want - 1.0) ** 2 * want_doubt])
    basis = f"SG good to {sg_doubt:g}, volume to {100.0 * litres_doubt:g} %"
    if want_doubt:
        basis += f", SG wanted to {want_doubt:g}"
    return Answer(
        Water(water_ml),
        doubt={"water_ml": around(water_ml, half, basis)},
        working=(
            f"{litres:g} l x ({sg:g} - {want:g}) / ({want:g} - 1) = {water_ml / ML_L:.2f} l.",
        ),
        cautions=(DECANTING,) if water_ml < 0.0 else (),
        sources=SOURCES,
    )


def powder(
    litres: float, sg: float, want: float, solid: float, *, sg_doubt: float = SG_DOUBT
) -> Answer[Powder]:
    """Dry glaze that brings a thin bucket up to the SG wanted.

    Parameters
    ----------
    litres : float
        Slop in the bucket [l].
    sg, want : float
        Specific gravity now and wanted; `want` is not below `sg`.
    solid : float
        Density of the powder [g/cm3].
    sg_doubt : float
        Half of the 90 % interval of `sg`.

    Returns
    -------
    Answer of Powder
        Grams to stir in.

    Raises
    ------
    DensityError
        If a number cannot be, or the bucket is heavier than wanted.
    """
    within(litres, VOLUME_L, field="litres", error=DensityError)
    check_solid(solid)
    check_sg(sg, solid)
    check_sg(want, solid, field="want")
    if want < sg:
        raise DensityError(
            f"Powder makes a slop heavier: SG {sg:g} is already over {want:g}, add water instead.",
            field="want",
            seen=want,
            accepted=f"a number from {sg:g} to below {solid:g}",
        )
    per_sg = ML_L * litres / (1.0 - want / solid)
    add_g = per_sg * (want - sg)
    return Answer(
        Powder(add_g),
        doubt={
            "add_g": around(add_g, per_sg * sg_doubt, f"SG good to {sg_doubt:g}", lowest=0.0),
        },
        working=(
            f"{litres:g} kg x ({want:g} - {sg:g}) / (1 - {want:g} / {solid:g}) = {add_g:.0f} g.",
        ),
        sources=SOURCES,
    )


def water_for_batch(dry_g: float, want: float, solid: float) -> float:
    """Water for a fresh batch of powder.

    Parameters
    ----------
    dry_g : float
        Powder weighed out [g].
    want : float
        Specific gravity wanted.
    solid : float
        Density of the powder [g/cm3].

    Returns
    -------
    float
        Water [g, the same in ml].

    Raises
    ------
    DensityError
        If the SG or the density cannot be.
    WeighingError
        If the weight cannot be.
    """
    within(dry_g, WEIGHED_G, field="dry-g")
    check_solid(solid)
    check_sg(want, solid, field="want")
    return dry_g * (1.0 / dry_fraction(want, solid) - 1.0)


def litres_in_bucket(gross_g: float, tare_g: float, sg: float) -> float:
    """Volume of slop in a bucket that was weighed.

    Parameters
    ----------
    gross_g, tare_g : float
        The bucket with its slop, and the bucket alone [g].
    sg : float
        Specific gravity of the slop.

    Returns
    -------
    float
        Volume of the slop [l].

    Raises
    ------
    WeighingError
        If the full bucket is not heavier than the empty one.
    DensityError
        If the SG cannot be.
    """
    within(gross_g, WEIGHED_G, field="gross-g", name="weight of the bucket")
    within(tare_g, MASS_G, field="tare-g", name="weight of the empty bucket")
    check_sg(sg)
    if gross_g <= tare_g:
        raise WeighingError(
            f"The bucket weighs {gross_g:g} g, no more than its {tare_g:g} g when empty.",
            field="gross-g",
            seen=gross_g,
            accepted=f"more than {tare_g:g} g",
        )
    return (gross_g - tare_g) / (sg * WATER_G_L)


def pots_left(
    litres: float,
    sg: float,
    solid: float,
    dry_g_per_pot: Sequence[float],
    *,
    sg_doubt: float = SG_DOUBT,
    litres_doubt: float = LITRES_DOUBT,
) -> Answer[PotsLeft]:
    """Powder left in a bucket and the pots it would do.

    Parameters
    ----------
    litres : float
        Slop left [l].
    sg : float
        Its specific gravity.
    solid : float
        Density of its powder [g/cm3].
    dry_g_per_pot : sequence of float, at least one
        Dry coat of pots like those waiting, one number a pot [g].
    sg_doubt : float
        Half of the 90 % interval of `sg`.
    litres_doubt : float
        Half of the 90 % interval of `litres`, as a share of it [ratio].

    Returns
    -------
    Answer of PotsLeft
        Powder, mean coat, and pots as a number that need not be whole.

    Raises
    ------
    DensityError
        If the volume, the SG or the density cannot be.
    WeighingError
        If no dip was given, or one of them is not above 0.

    Notes
    -----
    The doubt of the mean coat is Student's from three dips on; with fewer, a
    single dip is taken to be good to a quarter (general).
    """
    within(litres, VOLUME_L, field="litres", error=DensityError)
    check_solid(solid)
    check_sg(sg, solid)
    if not dry_g_per_pot:
        raise WeighingError(
            "How many pots are left cannot be told before one dip was weighed.",
            field="dry-g-per-pot",
            seen=(),
            accepted="the dry coat of at least one pot",
        )
    for grams in dry_g_per_pot:
        within(grams, WEIGHED_G, field="dry-g-per-pot", name="dry coat of a pot")
    count = len(dry_g_per_pot)
    dry_g = litres * WATER_G_L * sg * dry_fraction(sg, solid)
    dry_half = reach(
        lambda litres, sg: litres * WATER_G_L * sg * dry_fraction(sg, solid),
        {"litres": litres, "sg": sg},
        {"litres": litres_doubt * litres, "sg": sg_doubt},
    )
    each_g = statistics.fmean(dry_g_per_pot)
    if count < FEW:
        each_half = GENERAL_SCATTER * each_g / math.sqrt(count)
        scatter = f"general scatter, {count} dip{'s' if count > 1 else ''}"
    else:
        each_half = (
            student_90(count - 1) * statistics.stdev(dry_g_per_pot, each_g) / math.sqrt(count)
        )
        scatter = f"usual ({count})"
    pots = dry_g / each_g
    pots_half = pots * together([dry_half / dry_g, each_half / each_g])
    bucket = f"SG good to {sg_doubt:g}, volume to {100.0 * litres_doubt:g} %"
    return Answer(
        PotsLeft(dry_g, each_g, pots),
        doubt={
            "dry_g": around(dry_g, dry_half, bucket, lowest=0.0),
            "dry_g_per_pot": around(each_g, each_half, scatter, lowest=0.0),
            "pots": around(pots, pots_half, f"{bucket}, coat {scatter}", lowest=0.0),
        },
        working=(f"{dry_g:.0f} g dry in the bucket, {each_g:.3g} g a pot: {pots:.1f} pots.",),
        cautions=(SHALLOW,),
        sources=SOURCES,
    )
