"""``reckon pot``: area, volume and clay of a pot from its outline."""

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import file_argument, number_option
from wareboard.core.pot.outline import pot
from wareboard.core.units import LENGTH_MM
from wareboard.exchange.profile_csv import read_profile_csv


@calculation("pot", example="bowl.csv --wall-mm 6")
@file_argument("profile", "a CSV file with the columns r_cm and z_cm")
@number_option("--wall-mm", LENGTH_MM, "Wall, square to the surface; gives the inside.")
def command(profile: str, wall_mm: float | None) -> Told:
    """Reckon area, volume and clay of a pot from its outline.

    PROFILE.csv has the columns r_cm and z_cm: points of the outside, in order
    from the foot to the rim.
    """
    points = read_profile_csv(profile)
    answer = pot(points, wall_mm)
    found, doubt = answer.result, answer.doubt
    outside = about(found.outside_dm2, doubt.get("outside_dm2"), "dm2")
    foot = about(found.foot_dm2, doubt.get("foot_dm2"), "dm2")
    lines = [f"Outside {outside}, of it the foot {foot}."]
    if wall_mm is not None:
        inside = about(found.inside_dm2, doubt.get("inside_dm2"), "dm2")
        brim = about(found.brim_ml, doubt.get("brim_ml"), "ml")
        clay = about(found.clay_g, doubt.get("clay_g"), "g")
        lines.append(f"Inside {inside}; holds {brim} to the brim; dry clay {clay}.")
    return Told(answer, lines, given={"points": len(points)})
