"""What is written: the very bytes, and what other readers make of them."""

import csv
import io
import json

import pytest
from frictionless import Package
from record_folder_samples import (
    COATS,
    LOG_LINES,
    PHOTO,
    PHOTO_PATH,
    POTS,
    ROWS,
    SOUND_PATH,
    SPECS,
    contents,
    sha256,
)

from wareboard.exchange.record_folder import (
    Column,
    FolderNotWritten,
    Original,
    TableSpec,
    write_record_folder,
)


def test_a_table_is_sorted_by_id_with_quotes_only_where_needed(studio):
    folder = studio.write()

    assert (folder / "pots.csv").read_text(encoding="utf-8") == (
        "id,form,thrown_on,weight_g,sold,note,pair_id,picture\n"
        f"p-1,bowl,2026-11-02,0.1,true,,p-2,{PHOTO_PATH}\n"
        'p-2,mug,,412.0,false,"\'=cmd, ""foot""\ncracked",p-1,\n'
    )


def test_a_key_of_two_columns_sorts_whole_numbers_as_numbers(studio):
    folder = studio.write()

    assert (folder / "coats.csv").read_text(encoding="utf-8") == (
        "pot_id,place,glaze\np-1,9,'-5 blue\np-1,10,'Old' white\n"
    )


def test_times_keep_their_offset_and_their_seconds(studio):
    folder = studio.write()

    assert (folder / "log_lines.csv").read_text(encoding="utf-8") == (
        "id,at,temp_c,sound\n"
        f"1,2026-11-25T14:03:07.250000+01:00,1222.5,{SOUND_PATH}\n"
        "2,2026-11-25T13:04:00+00:00,,\n"
    )


def test_originals_are_copied_under_their_hash_and_listed(studio):
    folder = studio.write()

    assert (folder / PHOTO_PATH).read_bytes() == PHOTO
    assert (folder / "originals.csv").read_text(encoding="utf-8") == (
        f"path,size_bytes\n{PHOTO_PATH},18\n{SOUND_PATH},18\n"
    )


def test_the_description_has_sorted_keys_and_an_end_of_line(studio):
    folder = studio.write()

    text = (folder / "datapackage.json").read_text(encoding="utf-8")

    assert text == json.dumps(json.loads(text), sort_keys=True, indent=2, ensure_ascii=False) + "\n"


def test_the_description_names_types_units_constraints_and_keys(studio):
    folder = studio.write()

    package = json.loads((folder / "datapackage.json").read_text(encoding="utf-8"))
    pots, coats, *_ = (resource["schema"] for resource in package["resources"])

    assert [field["type"] for field in pots["fields"]] == [
        *("string", "string", "date", "number", "boolean", "string", "string", "string"),
    ]
    assert pots["fields"][3] == {
        "name": "weight_g",
        "type": "number",
        "title": "Weight",
        "unit": "g",
        "constraints": {"minimum": 0.0, "maximum": 50_000.0},
    }
    assert pots["fields"][1]["constraints"] == {"required": True, "enum": ["bowl", "mug"]}
    assert pots["primaryKey"] == ["id"]
    assert pots["foreignKeys"] == [
        {"fields": ["pair_id"], "reference": {"fields": ["id"]}},
        {"fields": ["picture"], "reference": {"fields": ["path"], "resource": "originals"}},
    ]
    assert coats["primaryKey"] == ["pot_id", "place"]


def test_the_page_in_plain_words_tells_of_every_table_and_column(studio):
    folder = studio.write()

    page = (folder / "README.txt").read_text(encoding="utf-8")
    tables = [*SPECS, TableSpec("originals", "", "", (Column("path", "string"),), key=("path",))]

    assert page.startswith("The record of Clay Lane\n=======================\n")
    assert "  weight_g (number in g): Weight.\n" in page
    assert "  pair_id (text): The other of a pair. Points at a row of pots.csv.\n" in page
    assert [f"{spec.file}: " in page for spec in tables] == [True] * 4
    assert max(len(line) for line in page.splitlines()) <= 78
    assert page.endswith("\n")


def test_another_program_finds_the_whole_folder_valid(studio):
    folder = studio.write()

    report = Package(str(folder / "datapackage.json")).validate()

    assert report.flatten(["type", "note"]) == []
    assert [task.stats["rows"] for task in report.tasks] == [2, 2, 2, 2]


def test_another_program_sees_a_dangling_reference_in_what_is_written(studio):
    # The check above can fail: a folder damaged by hand is not valid.
    folder = studio.write()
    table = folder / "pots.csv"
    table.write_text(table.read_text(encoding="utf-8").replace(",p-2,", ",p-9,"), encoding="utf-8")

    report = Package(str(folder / "datapackage.json")).validate()

    assert report.flatten(["type"]) == [["foreign-key"]]


def test_another_reader_of_csv_sees_the_same_cells(studio):
    folder = studio.write()

    text = (folder / "pots.csv").read_bytes().decode()
    rows = list(csv.reader(io.StringIO(text, newline="")))

    assert rows[2] == ["p-2", "mug", "", "412.0", "false", '\'=cmd, "foot"\ncracked', "p-1", ""]


def test_the_same_record_gives_the_same_bytes_in_any_order_of_rows(studio):
    first = studio.write("first")

    second = studio.write(
        "second",
        rows_by_table={name: rows[::-1] for name, rows in ROWS.items()},
        originals=studio.originals[::-1],
    )

    assert contents(first) == contents(second)


def test_two_ways_of_writing_an_accent_give_the_same_bytes(studio):
    composed, decomposed = (
        "caf\N{LATIN SMALL LETTER E WITH ACUTE}",
        "cafe\N{COMBINING ACUTE ACCENT}",
    )

    first, second = (
        studio.write(
            name,
            rows_by_table={**ROWS, "coats": [{"pot_id": "p-1", "place": 1, "glaze": glaze}]},
        )
        for name, glaze in (("first", composed), ("second", decomposed))
    )

    assert contents(first) == contents(second)


def test_an_original_given_twice_is_kept_once(studio):
    folder = studio.write("first")

    again = studio.write("again", originals=studio.originals * 2)

    assert contents(again) == contents(folder)


def test_a_large_original_is_copied_to_the_last_byte(studio):
    large = bytes(range(256)) * 12_345
    (studio.place / "large").write_bytes(large)
    original = Original(sha256(large), "heic", studio.place / "large")
    rows = {**ROWS, "pots": [{**pot, "picture": original.path} for pot in ROWS["pots"]]}

    folder = studio.write(rows_by_table=rows, originals=[original, studio.originals[1]])

    assert (folder / original.path).read_bytes() == large


def test_a_table_that_is_optional_may_be_left_out(studio):
    rows = {"pots": ROWS["pots"], "coats": []}

    folder = studio.write(rows_by_table=rows, originals=studio.originals[:1])

    assert sorted(contents(folder)) == sorted(
        ["README.txt", "coats.csv", "datapackage.json", "originals.csv", PHOTO_PATH, "pots.csv"]
    )


@pytest.mark.parametrize("title", ["", "  ", "two\nlines", "a\N{RIGHT-TO-LEFT OVERRIDE}"])
def test_a_title_that_is_no_line_of_text_is_refused(studio, title):
    with pytest.raises(FolderNotWritten, match="cannot stand in the folder as studio title"):
        studio.write(studio_title=title)


def test_rows_of_a_table_nobody_declared_are_a_mistake_of_the_program(studio):
    with pytest.raises(ValueError, match="rows of tables that are not declared: originals, plates"):
        studio.write(rows_by_table={**ROWS, "plates": [], "originals": []})


def test_a_table_without_rows_must_still_be_given(studio):
    with pytest.raises(ValueError, match="no rows of the table coats are given"):
        studio.write(rows_by_table={"pots": []})


def test_a_row_must_have_the_columns_of_its_table(studio):
    with pytest.raises(ValueError, match="a row of coats has not its columns: colour, glaze"):
        studio.write(
            rows_by_table={**ROWS, "coats": [{"pot_id": "p-1", "place": 1, "colour": "white"}]}
        )


def test_negative_zero_is_written_as_zero(studio):
    rows = {**ROWS, "pots": [{**pot, "weight_g": -0.0} for pot in ROWS["pots"]]}

    folder = studio.write(rows_by_table=rows)

    assert (folder / "pots.csv").read_text(encoding="utf-8").count(",0.0,") == 2


def test_whole_numbers_in_a_column_of_numbers_are_written_as_numbers(studio):
    rows = {**ROWS, "pots": [{**pot, "weight_g": 7} for pot in ROWS["pots"]]}

    folder = studio.write(rows_by_table=rows)

    assert (folder / "pots.csv").read_text(encoding="utf-8").count(",7.0,") == 2


def test_a_table_can_be_written_before_there_is_anything_in_it(studio):
    empty = {spec.name: [] for spec in (POTS, COATS, LOG_LINES)}

    write_record_folder(
        studio.place / "empty", SPECS, empty, [], studio_title="New", program_version="0.1.0"
    )

    assert (studio.place / "empty" / "originals.csv").read_bytes() == b"path,size_bytes\n"
    assert Package(str(studio.place / "empty" / "datapackage.json")).validate().valid
