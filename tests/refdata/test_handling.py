"""Names of powders, and the row whose caution holds for each (common practice, from memory)."""

import pytest

from wareboard.refdata.handling import TABLE, handled_as
from wareboard.refdata.loading import Standing, load
from wareboard.refdata.materials import all_materials


def test_every_name_leads_to_a_row_and_says_that_it_is_from_memory() -> None:
    rows = load(TABLE).rows

    assert {row["handled_as"] for row in rows} <= set(all_materials())
    assert {Standing.of(row["source"]) for row in rows} == {Standing.FROM_MEMORY}


def test_no_name_stands_twice() -> None:
    names = [row["name"] for row in load(TABLE).rows]

    assert len(names) == len(set(names))


@pytest.mark.parametrize("row", load(TABLE).rows, ids=lambda row: row["name"])
def test_every_name_is_found_as_it_stands(row: dict[str, str]) -> None:
    assert handled_as(row["name"].upper()) == (row["handled_as"],)


@pytest.mark.parametrize(
    ("name", "rows"),
    [
        ("Flint (200 mesh)", ("quartz_ideal",)),
        ("flint clay", ("fire_clay_typical",)),
        ("ash", ("ash_wood_like_mean",)),
        ("soda ash", ("soda_ash",)),
        ("bone-ash", ("bone_ash_apatite",)),
        ("cobalt and manganese stain", ("cobalt_oxide_black", "manganese_dioxide")),
        ("crash test", ()),
        ("", ()),
        ("12", ()),
    ],
)
def test_whole_words_count_and_the_longest_name_wins(name: str, rows: tuple[str, ...]) -> None:
    assert handled_as(name) == rows
