"""RECIPE.csv: the lines of a recipe.

Columns ``material`` and ``parts``, and if wanted ``addition``: ``yes`` marks
what is weighed out on top of the hundred.
"""

from dataclasses import dataclass

from wareboard.core.errors import CoreError
from wareboard.core.units import PARTS
from wareboard.exchange.csv_table import CsvTable, Headings, read_csv_table
from wareboard.exchange.refusals import FileRefused, shown
from wareboard.exchange.typed_text import read_name

HEADINGS = Headings(needed=(("material",), ("parts",)), optional=("addition",))
MOST_LINES = 1_000
ADDITION = {"yes": True, "no": False, "": False}


@dataclass(frozen=True)
class RecipeRow:
    """One line of a recipe as it stands in the file.

    Attributes
    ----------
    material : str
        Id of the material.
    parts : float
        Parts by weight, not negative.
    addition : bool
        On top of the hundred.
    line : int
        Line of the file.
    """

    material: str
    parts: float
    addition: bool
    line: int


def read_recipe_csv(path: str, *, field: str = "recipe") -> tuple[RecipeRow, ...]:
    """Read the lines of a recipe in the order of the file.

    Parameters
    ----------
    path : str
        Where it lies.
    field : str
        Option or argument that named it.

    Returns
    -------
    tuple of RecipeRow
        At least one; a material may stand in several.

    Raises
    ------
    FileRefused
        If the file cannot be read as a recipe.
    """
    table = read_csv_table(path, HEADINGS, field=field, most_rows=MOST_LINES)
    parts = table.numbers("parts", PARTS)
    return tuple(
        RecipeRow(_material(table, row), parts[row], _addition(table, row), table.lines[row])
        for row in range(len(parts))
    )


def _material(table: CsvTable, row: int) -> str:
    try:
        name = read_name(table.columns["material"][row], field="material")
    except CoreError as error:
        raise table.refused(error, row) from error
    if not name:
        raise FileRefused(
            "material is blank.",
            field="material",
            seen="",
            accepted="the id of a material",
            file=table.file,
            line=table.lines[row],
        )
    return name


def _addition(table: CsvTable, row: int) -> bool:
    if "addition" not in table.columns:
        return False
    cell = table.columns["addition"][row]
    addition = ADDITION.get(cell.casefold())
    if addition is None:
        raise FileRefused(
            f'addition is "{shown(cell)}"; write yes, no or nothing.',
            field="addition",
            seen=shown(cell),
            accepted="yes, no or nothing",
            file=table.file,
            line=table.lines[row],
        )
    return addition
