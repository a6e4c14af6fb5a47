"""Tables are declared without contradiction, or not at all."""

import pytest

from wareboard.exchange.record_folder import (
    ORIGINALS,
    Column,
    FolderRefused,
    Original,
    Problem,
    TableSpec,
    layout_of,
)

ID = Column("id", "string")


def table(name="pots", columns=(ID,), **others):
    return TableSpec(name, "Title", "Description.", columns, **others)


@pytest.mark.parametrize(
    ("declare", "fault"),
    [
        (lambda: Column("Weight", "number"), "'Weight' is no name for a column"),
        (lambda: Column("=x", "number"), "'=x' is no name for a column"),
        (lambda: Column("weight_g", "float"), "weight_g: 'float' is no kind of column"),
        (lambda: Column("n", "integer", choices=("1",)), "n: only text has choices"),
        (lambda: Column("n", "string", minimum=0), "n: only numbers have a least"),
        (lambda: Column("n", "integer", refers_to=ORIGINALS), "n: a photo is referred to by"),
        (lambda: table("../pots"), "'../pots' is no name for a table"),
        (lambda: table("con"), "'con' is no name for a table"),
        (lambda: table(columns=(ID, ID)), "pots: a column is declared twice"),
        (lambda: table(key=()), "pots: a table needs a key"),
        (lambda: table(key=("name",)), "pots: 'name' cannot be part of the key"),
        (lambda: table(columns=(Column("id", "number"),)), "pots: 'id' cannot be part of the key"),
        (lambda: layout_of([table(), table()]), "two tables of the record have one name"),
        (lambda: layout_of([table(ORIGINALS)]), "two tables of the record have one name"),
        (
            lambda: layout_of([table(columns=(ID, Column("x", "string", refers_to="plates")))]),
            "pots.x refers to no table with one key",
        ),
        (
            lambda: layout_of([table(columns=(ID, Column("x", "integer", refers_to="pots")))]),
            "pots.x is not of the kind it refers to",
        ),
    ],
)
def test_a_declaration_that_contradicts_itself_is_refused(declare, fault):
    with pytest.raises(ValueError, match="^" + fault.replace(".", r"\.")):
        declare()


def test_a_table_of_two_keys_cannot_be_referred_to():
    pair = table("pairs", (ID, Column("n", "integer")), key=("id", "n"))
    other = table("others", (ID, Column("pair", "string", refers_to="pairs")))

    with pytest.raises(ValueError, match=r"others\.pair refers to no table with one key"):
        layout_of([pair, other])


@pytest.mark.parametrize(
    ("sha256", "ending"),
    [("0" * 63, "jpg"), ("G" * 64, "jpg"), ("0" * 64, "JPG"), ("0" * 64, "jpg/../x"), ("..", "")],
)
def test_an_original_has_a_name_that_is_safe_as_a_path(tmp_path, sha256, ending):
    with pytest.raises(ValueError, match="is no place for an original"):
        Original(sha256, ending, tmp_path)


def test_an_original_lies_with_the_photos_or_with_the_sounds(tmp_path):
    with pytest.raises(ValueError, match="is no place for an original"):
        Original("0" * 64, "jpg", tmp_path, room="letters")


def test_a_list_of_problems_that_was_cut_short_says_so():
    problem = Problem("pots.csv", 2, "", "", "", "pots.csv, row 2: is empty; take it out.")

    assert str(FolderRefused([problem], all_told=False)) == f"{problem.say}\nThere may be more."
    assert str(FolderRefused([problem] * 21)).endswith("And 1 more.")
