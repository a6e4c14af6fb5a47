"""RECIPE.csv."""

from pathlib import Path

import pytest

from wareboard.exchange.recipe_csv import RecipeRow, read_recipe_csv
from wareboard.exchange.refusals import FileRefused


def recipe(folder: Path, content: str) -> str:
    path = folder / "recipe.csv"
    path.write_text(content)
    return str(path)


def test_lines_keep_their_order_and_their_addition(tmp_path: Path) -> None:
    path = recipe(tmp_path, "material,parts,addition\nflint,30,\nwhiting,20.5,no\nrutile,4,Yes\n")

    assert read_recipe_csv(path) == (
        RecipeRow("flint", 30.0, addition=False, line=2),
        RecipeRow("whiting", 20.5, addition=False, line=3),
        RecipeRow("rutile", 4.0, addition=True, line=4),
    )


# N14.
def test_a_material_in_two_lines_stays_in_two_lines(tmp_path: Path) -> None:
    rows = read_recipe_csv(recipe(tmp_path, "material,parts\nflint,30\nflint,10\n"))

    assert [(row.material, row.parts) for row in rows] == [("flint", 30.0), ("flint", 10.0)]


@pytest.mark.parametrize(
    ("content", "field", "say"),
    [
        ("material,parts\n,30\n", "material", "recipe.csv, line 2: material is blank."),
        (
            "material,parts,addition\nflint,30,perhaps\n",
            "addition",
            'recipe.csv, line 2: addition is "perhaps"; write yes, no or nothing.',
        ),
        (
            "material,parts\nflint,-1\n",
            "parts",
            (
                'recipe.csv, line 2: parts: "-1" is out of range; '
                "accepted is a number from 0 to 1000000000."
            ),
        ),
        (
            "material,parts\nfl\N{RIGHT-TO-LEFT OVERRIDE}int,1\n",
            "material",
            (
                "recipe.csv, line 2: material holds a character that turns the writing direction "
                "(U+202E) at character 3: take it out."
            ),
        ),
    ],
)
def test_a_bad_line_is_refused(tmp_path: Path, content: str, field: str, say: str) -> None:
    with pytest.raises(FileRefused) as refused:
        read_recipe_csv(recipe(tmp_path, content))

    assert (refused.value.field, refused.value.say) == (field, say)


# N18: a recipe at the limit is read, one over it is refused.
def test_a_recipe_has_at_most_a_thousand_lines(tmp_path: Path) -> None:
    full = recipe(tmp_path, "material,parts\n" + "flint,1\n" * 1_000)

    assert len(read_recipe_csv(full)) == 1_000

    over = recipe(tmp_path, "material,parts\n" + "flint,1\n" * 1_001)

    with pytest.raises(FileRefused, match="has 1001 rows, at most 1000 are read"):
        read_recipe_csv(over)
