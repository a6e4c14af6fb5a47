"""``reckon solid``: the density of a recipe's dry powder."""

from wareboard.cli.answers import Told, about
from wareboard.cli.calculation import calculation
from wareboard.cli.reckon.recipes import given_lines, own_sheets, recipe_lines
from wareboard.cli.values import file_argument, materials_option
from wareboard.core.recipe.solid import solid_density


@calculation("solid", example="limestone.csv")
@file_argument("recipe", "a CSV file with the columns material and parts")
@materials_option()
def command(recipe: str, materials: str | None) -> Told:
    """Reckon the density of the dry powder of a recipe.

    It is what --solid of the other calculations asks for.
    """
    lines = recipe_lines(recipe, own_sheets(materials))
    answer = solid_density(lines)
    density = about(
        answer.result.solid_density_g_cm3, answer.doubt.get("solid_density_g_cm3"), "g/cm3"
    )
    return Told(answer, [f"The powder has {density}."], given={"lines": given_lines(lines)})
