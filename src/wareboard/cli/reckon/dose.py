"""``reckon dose``: an addition to a wet slop."""

from typing import Literal

import click

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import OneOf, number_option
from wareboard.core import slop
from wareboard.core.units import DOSE_PERCENT, MASS_G, SLOP_SG, SOLID_G_CM3


@calculation("dose", example="--wet-g 7250 --sg 1.45 --solid 2.6 --percent 2")
@number_option("--wet-g", MASS_G, "Net weight of the slop in grams.", required=True)
@number_option("--sg", SLOP_SG, "Its specific gravity.", required=True)
@number_option("--solid", SOLID_G_CM3, "Density of its powder in g/cm3.", required=True)
@number_option("--percent", DOSE_PERCENT, "Strength wanted, per cent.", required=True)
@click.option(
    "--of",
    type=OneOf(("base", "finished")),
    metavar="base|finished",
    default="base",
    help="Per cent on top of the dry base, or of the dry weight once it is in. "
    "[base where not given]",
)
def command(
    wet_g: float, sg: float, solid: float, percent: float, of: Literal["base", "finished"]
) -> Told:
    """Reckon the grams to add to a wet slop for so many per cent."""
    answer = slop.dose(wet_g, sg, solid, percent, of=of)
    dry = about(answer.result.dry_g, answer.doubt.get("dry_g"), "g")
    add = about(answer.result.add_g, answer.doubt.get("add_g"), "g")
    return Told(answer, [f"Add {add}; the slop holds {dry} of dry powder."])
