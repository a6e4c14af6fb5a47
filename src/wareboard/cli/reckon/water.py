"""``reckon water``: water to add to a bucket."""

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import number_option
from wareboard.core import slop
from wareboard.core.answer import Interval
from wareboard.core.units import SLOP_SG, VOLUME_L


@calculation("water", example="--litres 5 --sg 1.52 --want 1.45")
@number_option("--litres", VOLUME_L, "Slop in the bucket.", required=True)
@number_option("--sg", SLOP_SG, "Its specific gravity now.", required=True)
@number_option("--want", SLOP_SG, "The specific gravity wanted.", required=True)
def command(litres: float, sg: float, want: float) -> Told:
    """Reckon the water that brings a slop to the specific gravity wanted."""
    answer = slop.water(litres, sg, want)
    water_ml, doubt = answer.result.water_ml, answer.doubt.get("water_ml")
    if water_ml < 0.0:
        off = doubt and Interval(-doubt.high, -doubt.low, doubt.basis)
        return Told(answer, [f"Take {about(-water_ml, off, 'ml')} of clear water off."])
    return Told(answer, [f"Add {about(water_ml, doubt, 'ml')} of water."])
