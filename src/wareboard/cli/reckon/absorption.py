"""``reckon absorption``: how tight a fired body is."""

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.values import number_option
from wareboard.core.pot.fired import absorption
from wareboard.core.units import MASS_G


@calculation("absorption", example="--dry-g 248.3 --suspended-g 149.6 --saturated-g 252.1")
@number_option("--dry-g", MASS_G, "The unglazed piece dry, in grams.", required=True)
@number_option("--suspended-g", MASS_G, "Soaked and hanging in water.", required=True)
@number_option("--saturated-g", MASS_G, "Soaked, wiped and back in air.", required=True)
def command(dry_g: float, suspended_g: float, saturated_g: float) -> Told:
    """Reckon the pores of a fired, unglazed piece from three weighings."""
    answer = absorption(dry_g, suspended_g, saturated_g)
    found, doubt = answer.result, answer.doubt
    water = about(found.absorption_percent, doubt.get("absorption_percent"), "%")
    pores = about(found.apparent_porosity_percent, doubt.get("apparent_porosity_percent"), "%")
    bulk = about(found.bulk_density_g_cm3, doubt.get("bulk_density_g_cm3"), "g/cm3")
    return Told(answer, [f"It takes up {water} of water; open pores {pores}, density {bulk}."])
