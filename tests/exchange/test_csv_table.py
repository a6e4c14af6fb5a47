"""Our CSV files are read strictly, and every refusal names its place."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wareboard.core.units import PARTS
from wareboard.exchange.csv_table import CsvTable, Headings, parse_csv_table, read_csv_table
from wareboard.exchange.refusals import FileRefused

HEADINGS = Headings(needed=(("material", "id"), ("parts",)), optional=("addition",))


def parse(content: bytes) -> CsvTable:
    return parse_csv_table(content, HEADINGS, file="in/r.csv", field="recipe", most_rows=3)


PLAIN = {"material": ["whiting", "flint"], "parts": ["20", "30"]}


@pytest.mark.parametrize(
    ("content", "lines"),
    [
        (b"material,parts\nwhiting,20\nflint,30\n", [2, 3]),
        (b"material,parts\nwhiting,20\nflint,30", [2, 3]),
        (b"\xef\xbb\xbfmaterial,parts\r\nwhiting,20\r\nflint,30\r\n", [2, 3]),
        (b"material,parts\rwhiting,20\rflint,30\r", [2, 3]),
        (b" Material , PARTS\nwhiting, 20\nflint ,\t30\n", [2, 3]),
        (b"\nmaterial,parts\n\nwhiting,20\n , \nflint,30\n,\n\n", [4, 6]),
        (b'"material","parts"\n"whiting","20"\nflint,30\n', [2, 3]),
    ],
    ids=["plain", "no last end", "mark and CR LF", "CR", "blanks", "blank lines", "quoted"],
)
def test_ways_to_save_the_same_table_give_the_same_cells(content: bytes, lines: list[int]) -> None:
    table = parse(content)

    assert table.columns == PLAIN
    assert list(table.lines) == lines


def test_columns_may_stand_in_any_order() -> None:
    assert parse(b"parts,material\n20,whiting\n30,flint\n").columns == PLAIN


# Content, line, field, and the sentence behind the name of the file.
REFUSED = {
    "empty": (b"", None, "recipe", "the file is empty."),
    "blank": (b"\n , \n", None, "recipe", "the file is empty."),
    "headings only": (
        b"material,parts\n",
        None,
        "recipe",
        "the file has headings but no row below them.",
    ),
    "too many rows": (
        b"material,parts\n" + b"a,1\n" * 4,
        None,
        "recipe",
        "the file has 4 rows, at most 3 are read.",
    ),
    "heading twice": (
        b"material,parts,Parts\na,1,1\n",
        1,
        "parts",
        'the heading "parts" stands twice.',
    ),
    "heading missing": (b"material\na\n", 1, "parts", "the column parts is missing."),
    "either heading missing": (
        b"parts\n1\n",
        1,
        "material",
        "the column material or id is missing.",
    ),
    "both of either": (
        b"material,id,parts\na,a,1\n",
        1,
        "id",
        "the columns material and id say the same twice; keep one.",
    ),
    "heading unknown": (
        b"material,parts,price\na,1,2\n",
        1,
        "price",
        (
            'the heading "price" is unknown; the columns are material or id, parts, '
            "addition (if wanted)."
        ),
    ),
    "heading blank": (
        b"material,parts,\na,1,2\n",
        1,
        "heading",
        'the heading "" is unknown; the columns are material or id, parts, addition (if wanted).',
    ),
    "semicolons": (
        b"material;parts\na;1\n",
        1,
        "material",
        "the columns are separated by semicolons; put commas, and points in the numbers.",
    ),
    "short row": (
        b"material,parts\n\na\n",
        3,
        "parts",
        "1 cells where there are 2 headings; parts is missing.",
    ),
    "long row": (
        b"material,parts\na,1\nb,1,5\n",
        3,
        "parts",
        "3 cells where there are 2 headings; is there a comma in a number or a name?",
    ),
    "quote swallows lines": (
        b'material,parts\na,1\n"b,2\nc,3\nd,"4\n',
        3,
        "recipe",
        "the file has a quotation mark that is not closed, or has text behind it.",
    ),
    "quote never closed": (
        b'material,parts\n"a,1\n',
        2,
        "recipe",
        "the file has a quotation mark that is not closed, or has text behind it.",
    ),
    "text behind a quote": (
        b'material,parts\n"a"b,1\n',
        2,
        "recipe",
        "the file has a quotation mark that is not closed, or has text behind it.",
    ),
    "very long cell": (
        b"material,parts\n" + b"a" * 140_000 + b",1\n",
        2,
        "recipe",
        "the file has a cell that is far too long.",
    ),
    "NUL": (b"material,parts\r\na\0,1\n", 2, "recipe", "the file holds a NUL character."),
    "other encoding": (
        b"material,parts\na,1\n\xe9,2\n",
        3,
        "recipe",
        "the file is not UTF-8 here; save it as UTF-8.",
    ),
    "UTF-16": (
        "material,parts\na,1\n".encode("utf-16"),
        None,
        "recipe",
        "the file is in UTF-16; save it as UTF-8.",
    ),
    "spreadsheet": (
        b"PK\x03\x04xl/workbook.xml",
        None,
        "recipe",
        "the file is a spreadsheet or a zip file, not CSV; save the sheet as CSV.",
    ),
    "PDF": (b"%PDF-1.7", None, "recipe", "the file is a PDF, not CSV."),
    "web page": (b"\n<!DOCTYPE html>", None, "recipe", "the file is a web page, not CSV."),
}


@pytest.mark.parametrize(("content", "line", "field", "say"), REFUSED.values(), ids=REFUSED.keys())
def test_a_file_that_is_not_as_it_should_be_is_refused(
    content: bytes, line: int | None, field: str, say: str
) -> None:
    with pytest.raises(FileRefused) as refused:
        parse(content)

    place = "r.csv" if line is None else f"r.csv, line {line}"
    assert refused.value.say == f"{place}: {say}"
    assert (refused.value.file, refused.value.line) == ("in/r.csv", line)
    assert refused.value.field == field


def test_a_bad_number_is_refused_with_line_column_value_and_what_is_accepted() -> None:
    table = parse(b"material,parts\na,1\nb,1_000\n")

    with pytest.raises(FileRefused) as refused:
        table.numbers("parts", PARTS)

    error = refused.value
    assert error.say == (
        'r.csv, line 3: parts: "1_000" has an underscore in it; '
        "accepted is a number from 0 to 1000000000."
    )
    assert (error.field, error.seen) == ("parts", "1_000")
    assert error.accepted == "a number from 0 to 1000000000"


def test_a_missing_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileRefused) as refused:
        read_csv_table(str(tmp_path / "none.csv"), HEADINGS, field="recipe", most_rows=3)

    assert refused.value.say == "none.csv: the file is not there."


def test_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileRefused) as refused:
        read_csv_table(str(tmp_path), HEADINGS, field="recipe", most_rows=3)

    assert refused.value.say == f"{tmp_path.name}: the file is a folder, not a file."


@pytest.mark.parametrize("name", ["a\0b", "a" * 5_000], ids=["NUL", "too long"])
def test_a_name_no_file_can_have_is_refused(name: str) -> None:
    with pytest.raises(FileRefused, match="the file cannot be opened") as refused:
        read_csv_table(name, HEADINGS, field="recipe", most_rows=3)

    assert refused.value.field == "recipe"


@settings(deadline=None)
@given(st.binary(max_size=60) | st.text('material,parts\n\r"ab1 ;').map(str.encode))
def test_any_content_is_read_or_refused_and_nothing_else(content: bytes) -> None:
    try:
        table = parse(content)
    except FileRefused:
        return

    assert {len(cells) for cells in table.columns.values()} == {len(table.lines)}
