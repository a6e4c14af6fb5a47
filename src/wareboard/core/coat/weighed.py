"""What a dip left on a pot: dry coat, water in the wall, millimetres.

Two weighings and the SG of the slop tell the coat of a pot that was damp: what
it gained is slop. Two weighings and a third when it is dry again tell it only
if the pot was as dry before the dip as it is at the third, for a damp pot goes
on losing its own water.

Grams on a square decimetre need no guess. Millimetres need the packing of the
dry coat, which nobody measures: 0.45 to 0.60 is usual for a dip.

Sources
-------
Brongniart's formula stands in :mod:`wareboard.core.slop.content`; the rest is
weights that add up. The packing is common practice.
"""

from dataclasses import dataclass

from wareboard.core.answer import Answer, Interval
from wareboard.core.bounds import STEP_G, WEIGHED_G, within
from wareboard.core.doubt import around, reach, together
from wareboard.core.errors import CoreError, DensityError, ShapeError, WeighingError
from wareboard.core.slop.content import SG_DOUBT, SOURCES, check_sg, check_solid, dry_fraction
from wareboard.core.units import AREA_DM2, PACKING

SOLID_G_CM3_WHERE_NOT_KNOWN = 2.6
"""Density of a glaze's powder where its recipe does not tell (general)."""

SOLID_WHERE_NOT_KNOWN = SOLID_G_CM3_WHERE_NOT_KNOWN
"""The same, by the name of the option it fills in."""

PACKING_WHERE_NOT_KNOWN = 0.50
"""Packing of a dry dip coat where nobody measured it (common practice)."""

PACKING_DOUBT = 0.06
"""Half width of the packing of a dry dip coat (common practice)."""

AREA_DOUBT = 0.05
"""Half width of the area of a pot by its form, as a share of it (common practice)."""

SCALE_STEP_G = 1.0
"""A kitchen scale; a reading is taken to be good to one step, nine times in ten."""

MUCH_WATER_PERCENT = 8.0
"""From so much water in one dip, against the pot, walls soften (general)."""

SUPPORT_IT = "much for a raw wall. Support it, and keep off the handle."

CM3_IN_DM2_BY_MM = 10.0
"""A millimetre on a square decimetre [cm3]."""

AS_DRY_BEFORE = (
    "A third weighing tells the coat only if the pot was as dry before the dip as it is at the "
    "third weighing."
)


@dataclass(frozen=True)
class CoatWeighed:
    """What one dip left.

    Attributes
    ----------
    coat_g : float
        Dry glaze on the pot [g].
    water_g : float
        Water that went on and into the pot with it [g].
    water_percent_of_pot : float
        That water against the pot before the dip [%].
    coat_g_dm2 : float or None
        Dry glaze on a square decimetre [g/dm2]; None without the area.
    coat_mm : float or None
        Thickness of the dry coat [mm]; None without the area.
    """

    coat_g: float
    water_g: float
    water_percent_of_pot: float
    coat_g_dm2: float | None
    coat_mm: float | None


def coat_mm_from_g_dm2(coat_g_dm2: float, solid: float, packing: float) -> float:
    """Thickness of a dry coat, for numbers that were checked before.

    Parameters
    ----------
    coat_g_dm2 : float
        Dry glaze on a square decimetre [g/dm2].
    solid : float
        Density of the powder [g/cm3].
    packing : float
        Share of the coat's volume that is powder [ratio].

    Returns
    -------
    float
        Thickness [mm].
    """
    return coat_g_dm2 / (CM3_IN_DM2_BY_MM * packing * solid)


def _refuse_if_not_above(later_g: float, first_g: float, field: str, say: str) -> None:
    if later_g <= first_g:
        raise WeighingError(say, field=field, seen=later_g, accepted=f"more than {first_g:g} g")


@dataclass(frozen=True)
class _Dip:
    """Dry coat and the half widths of coat and water [g], and how they came about."""

    coat_g: float
    coat_half: float
    water_half: float
    basis: str
    how: str
    caution: str = ""


def _by_sg(
    before_g: float, wet_g: float, sg: float, solid: float, step_g: float, sg_doubt: float
) -> _Dip:
    check_sg(sg, solid)
    gain_g = wet_g - before_g
    given = {"gain": gain_g, "sg": sg}
    errors = {"gain": together([step_g, step_g]), "sg": sg_doubt}
    fraction = dry_fraction(sg, solid)
    return _Dip(
        gain_g * fraction,
        reach(lambda gain, sg: gain * dry_fraction(sg, solid), given, errors),
        reach(lambda gain, sg: gain * (1.0 - dry_fraction(sg, solid)), given, errors),
        f"scale to {step_g:g} g, SG good to {sg_doubt:g}",
        f"{wet_g:g} - {before_g:g} = {gain_g:.1f} g of slop; at SG {sg:g}, {fraction:.3f} is dry.",
    )


def _by_third_weighing(before_g: float, wet_g: float, dry_g: float, step_g: float) -> _Dip:
    within(dry_g, WEIGHED_G, field="dry-g", name="weight once dry again")
    _refuse_if_not_above(
        dry_g,
        before_g,
        "dry-g",
        f"The third weighing, {dry_g:g} g, is not above the first, {before_g:g} g: a third "
        "weighing tells the coat only if the pot was as dry before the dip as it is at the "
        "third weighing.",
    )
    if dry_g > wet_g:
        raise WeighingError(
            f"The pot cannot weigh more once dry, {dry_g:g} g, than just after the dip, "
            f"{wet_g:g} g.",
            field="dry-g",
            seen=dry_g,
            accepted=f"at most {wet_g:g} g",
        )
    half = together([step_g, step_g])
    coat_g = dry_g - before_g
    return _Dip(
        coat_g,
        half,
        half,
        f"scale to {step_g:g} g, if the pot was as dry before",
        f"{dry_g:g} - {before_g:g} = {coat_g:.1f} g stayed, {wet_g - dry_g:.1f} g dried off.",
        AS_DRY_BEFORE,
    )


def coat(
    before_g: float,
    wet_g: float,
    *,
    sg: float | None = None,
    dry_g: float | None = None,
    solid: float = SOLID_G_CM3_WHERE_NOT_KNOWN,
    area_dm2: float | None = None,
    packing: float = PACKING_WHERE_NOT_KNOWN,
    scale_step_g: float = SCALE_STEP_G,
    sg_doubt: float = SG_DOUBT,
) -> Answer[CoatWeighed]:
    """Dry coat and water that one dip left on a pot.

    Parameters
    ----------
    before_g, wet_g : float
        The pot just before and just after the dip [g].
    sg : float, optional
        Specific gravity of the slop; right for a damp pot.
    dry_g : float, optional
        The pot when it is dry again [g], instead of `sg`.
    solid : float
        Density of the powder [g/cm3].
    area_dm2 : float, optional
        Surface that was dipped [dm2].
    packing : float
        Share of the dry coat's volume that is powder [ratio].
    scale_step_g : float
        Smallest difference the scale shows [g].
    sg_doubt : float
        Half of the 90 % interval of `sg`.

    Returns
    -------
    Answer of CoatWeighed
        With the doubt of each number; a caution where the third weighing
        rests on the pot having been as dry before.

    Raises
    ------
    WeighingError
        If the pot gained nothing, or the third weighing does not lie between
        the other two.
    DensityError
        If the SG, the density or the packing cannot be.
    ShapeError
        If the area cannot be.
    CoreError
        If neither or both of `sg` and `dry_g` are given.

    Notes
    -----
    ``coat = (wet - before) x dry fraction`` or ``dry - before``; a millimetre
    of coat on a square decimetre weighs ``10 x packing x solid`` grams.
    """
    within(before_g, WEIGHED_G, field="before-g", name="weight before the dip")
    within(wet_g, WEIGHED_G, field="wet-g", name="weight after the dip")
    within(scale_step_g, STEP_G, field="scale-g")
    check_solid(solid)
    within(packing, PACKING, field="packing", error=DensityError)
    if area_dm2 is not None:
        within(area_dm2, AREA_DM2, field="area-dm2", error=ShapeError)
    _refuse_if_not_above(
        wet_g,
        before_g,
        "wet-g",
        f"The pot weighs {wet_g:g} g after the dip, no more than the {before_g:g} g before it.",
    )
    if sg is not None and dry_g is None:
        dip = _by_sg(before_g, wet_g, sg, solid, scale_step_g, sg_doubt)
    elif dry_g is not None and sg is None:
        dip = _by_third_weighing(before_g, wet_g, dry_g, scale_step_g)
    else:
        raise CoreError(
            "The coat needs either the SG of the slop or the weight once dry, one of the two.",
            field="sg" if sg is None else "dry-g",
            seen=None if sg is None else dry_g,
            accepted="the SG of the slop, or the weight once dry again",
        )
    water_g = wet_g - before_g - dip.coat_g
    percent = 100.0 * water_g / before_g
    percent_half = 100.0 * dip.water_half / before_g
    doubt = {
        "coat_g": around(dip.coat_g, dip.coat_half, dip.basis, lowest=0.0),
        "water_g": around(water_g, dip.water_half, dip.basis, lowest=0.0),
        "water_percent_of_pot": around(percent, percent_half, dip.basis, lowest=0.0),
    }
    soaked = f"{percent:.0f} % of the pot's weight in water at one dip: {SUPPORT_IT}"
    per_area = thick_mm = None
    working = [dip.how, f"Powder of {solid:g} g/cm3, dry coat packed to {_two_places(packing)}."]
    if area_dm2 is not None:
        per_area = dip.coat_g / area_dm2
        thick_mm = coat_mm_from_g_dm2(per_area, solid, packing)
        doubt |= _spread_doubt(dip, per_area, thick_mm, packing)
        working.append(
            f"{dip.coat_g:.1f} g on {area_dm2:g} dm2 is {per_area:.2f} g/dm2, {thick_mm:.2f} mm."
        )
    return Answer(
        CoatWeighed(dip.coat_g, water_g, percent, per_area, thick_mm),
        doubt=doubt,
        working=tuple(working),
        cautions=tuple(
            caution
            for caution in (dip.caution, soaked if percent >= MUCH_WATER_PERCENT else "")
            if caution
        ),
        sources=SOURCES,
    )


def _two_places(packing: float) -> str:
    plain = f"{packing:.2f}"
    return plain if float(plain) == packing else f"{packing:g}"


def _spread_doubt(
    dip: _Dip, per_area: float, thick_mm: float, packing: float
) -> dict[str, Interval]:
    """Doubt of grams on a square decimetre and of millimetres."""
    shares = [dip.coat_half / dip.coat_g, AREA_DOUBT]
    basis = f"{dip.basis}, area to {100.0 * AREA_DOUBT:g} %"
    return {
        "coat_g_dm2": around(per_area, per_area * together(shares), basis, lowest=0.0),
        "coat_mm": around(
            thick_mm,
            thick_mm * together([*shares, PACKING_DOUBT / packing]),
            f"{basis}, packing to {PACKING_DOUBT:g}",
            lowest=0.0,
        ),
    }
