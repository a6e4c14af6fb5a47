"""``reckon slop``: powder and water in a slop."""

from wareboard.cli.answers import Told, about, rounded
from wareboard.cli.calculation import calculation
from wareboard.cli.values import number_option
from wareboard.core import slop
from wareboard.core.units import SLOP_SG, SOLID_G_CM3, VOLUME_L


@calculation("slop", example="--sg 1.45 --solid 2.6 --litres 5")
@number_option("--sg", SLOP_SG, "Specific gravity of the slop.", required=True)
@number_option("--solid", SOLID_G_CM3, "Density of the powder in g/cm3.", required=True)
@number_option("--litres", VOLUME_L, "How much of the slop.", default=1.0)
def command(sg: float, solid: float, litres: float) -> Told:
    """Reckon how much powder and how much water a slop holds."""
    answer = slop.slop(sg, solid, litres)
    dry = about(answer.result.dry_g, answer.doubt.get("dry_g"), "g")
    water = about(answer.result.water_g, answer.doubt.get("water_g"), "g")
    return Told(answer, [f"{rounded(litres)} l hold {dry} of powder and {water} of water."])
