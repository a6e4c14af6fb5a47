"""``reckon unity``: the unity formula of a recipe."""

from wareboard.cli.answers import Told, about, rounded
from wareboard.cli.calculation import calculation
from wareboard.cli.reckon.recipes import given_lines, own_sheets, recipe_lines
from wareboard.cli.values import file_argument, materials_option
from wareboard.core.recipe.unity import unity_formula


@calculation("unity", example="limestone.csv")
@file_argument("recipe", "a CSV file with the columns material and parts")
@materials_option()
def command(recipe: str, materials: str | None) -> Told:
    """Reckon the unity formula (Seger formula) of a recipe.

    RECIPE.csv has the columns material and parts, and if wanted addition (yes:
    on top of the hundred). A material is an id of the built-in library or of
    --materials.
    """
    lines = recipe_lines(recipe, own_sheets(materials))
    answer = unity_formula(lines)
    found, doubt = answer.result, answer.doubt
    formula = ", ".join(f"{oxide} {rounded(n, 3)}" for oxide, n in found.unity.items())
    ratio = about(found.sio2_al2o3, doubt.get("sio2_al2o3"))
    loss = about(found.loi_percent, doubt.get("loi_percent"), "%")
    return Told(
        answer,
        [
            f"Unity formula: {formula}.",
            f"Silica to alumina {ratio}; loss in the fire {loss}.",
        ],
        given={"lines": given_lines(lines)},
    )
