"""``reckon shrink``: how much a body shrank."""

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import number_option
from wareboard.core.pot.fired import shrink
from wareboard.core.units import LENGTH_MM


@calculation("shrink", example="--wet-mm 100 --dry-mm 94 --fired-mm 88.4")
@number_option("--wet-mm", LENGTH_MM, "A line on the wet clay, in millimetres.", required=True)
@number_option("--dry-mm", LENGTH_MM, "The same line once dry.", required=True)
@number_option("--fired-mm", LENGTH_MM, "The same line once fired.", required=True)
def command(wet_mm: float, dry_mm: float, fired_mm: float) -> Told:
    """Reckon shrinkage from three lengths of one line."""
    answer = shrink(wet_mm, dry_mm, fired_mm)
    found, doubt = answer.result, answer.doubt
    drying = about(found.drying_percent, doubt.get("drying_percent"), "%")
    firing = about(found.firing_percent, doubt.get("firing_percent"), "%")
    total = about(found.total_percent, doubt.get("total_percent"), "%")
    return Told(answer, [f"Drying {drying}, firing {firing} of the dry length, in all {total}."])
