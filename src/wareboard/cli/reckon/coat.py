"""``reckon coat``: what one dip left on a pot."""

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import number_option
from wareboard.core.coat.weighed import (
    PACKING_WHERE_NOT_KNOWN,
    SOLID_WHERE_NOT_KNOWN,
    coat,
)
from wareboard.core.units import AREA_DM2, MASS_G, PACKING, SLOP_SG, SOLID_G_CM3


@calculation("coat", example="--before-g 612 --wet-g 655 --sg 1.45 --area-dm2 8")
@number_option("--before-g", MASS_G, "The pot just before the dip, in grams.", required=True)
@number_option("--wet-g", MASS_G, "The pot just after the dip, in grams.", required=True)
@number_option("--sg", SLOP_SG, "Specific gravity of the slop; right for a damp pot.")
@number_option("--dry-g", MASS_G, "The pot once it is dry again, instead of --sg.")
@number_option(
    "--solid", SOLID_G_CM3, "Density of the powder in g/cm3.", default=SOLID_WHERE_NOT_KNOWN
)
@number_option("--area-dm2", AREA_DM2, "Surface that was dipped; gives the thickness.")
@number_option(
    "--packing",
    PACKING,
    "Share of the dry coat that is powder, by volume.",
    default=PACKING_WHERE_NOT_KNOWN,
)
def command(
    before_g: float,
    wet_g: float,
    sg: float | None,
    dry_g: float | None,
    solid: float,
    area_dm2: float | None,
    packing: float,
) -> Told:
    """Reckon the dry coat and the water that one dip left on a pot."""
    answer = coat(
        before_g, wet_g, sg=sg, dry_g=dry_g, solid=solid, area_dm2=area_dm2, packing=packing
    )
    found, doubt = answer.result, answer.doubt
    glaze = about(found.coat_g, doubt.get("coat_g"), "g")
    water = about(found.water_g, doubt.get("water_g"), "g")
    share = about(found.water_percent_of_pot, doubt.get("water_percent_of_pot"), "%")
    lines = [f"Dry coat {glaze}; water {water}, {share} of the pot."]
    if found.coat_mm is not None:
        thick = about(found.coat_mm, doubt.get("coat_mm"), "mm")
        lines.append(f"Thickness {thick}, {about(found.coat_g_dm2, None, 'g/dm2')}.")
    return Told(answer, lines)
