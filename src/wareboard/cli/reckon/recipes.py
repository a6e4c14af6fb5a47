"""Recipes from files, as the calculations take them."""

from wareboard.core.chemistry.analysis import Analysis, analysis_of
from wareboard.core.errors import CoreError
from wareboard.core.recipe.lines import RecipeLine
from wareboard.exchange.materials_csv import read_materials_csv
from wareboard.exchange.recipe_csv import RecipeRow, read_recipe_csv
from wareboard.exchange.refusals import FileRefused


def own_sheets(materials: str | None) -> dict[str, Analysis]:
    """Read the potter's own sheets where a file was named."""
    return read_materials_csv(materials) if materials else {}


def recipe_lines(recipe: str, own: dict[str, Analysis]) -> list[RecipeLine]:
    """Read a recipe and find its materials.

    Parameters
    ----------
    recipe : str
        Name of the file.
    own : dict of str to Analysis
        The potter's own sheets, which win over the library.

    Returns
    -------
    list of RecipeLine
        In the order of the file.

    Raises
    ------
    FileRefused
        If the file cannot be read, or a material is not known.
    """
    return [_line(recipe, row, own) for row in read_recipe_csv(recipe)]


def given_lines(lines: list[RecipeLine]) -> list[dict[str, object]]:
    """Repeat the lines of a recipe for the record of what was given."""
    return [
        {"material": line.material, "parts": line.parts, "addition": line.addition}
        for line in lines
    ]


def _line(recipe: str, row: RecipeRow, own: dict[str, Analysis]) -> RecipeLine:
    try:
        analysis = analysis_of(row.material, own)
    except CoreError as error:
        raise FileRefused.at(error, file=recipe, line=row.line) from error
    return RecipeLine(row.material, row.parts, row.addition, analysis)
