"""The record handed out and taken in: the same bytes, all or nothing."""

import csv
import filecmp
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[3] / "src" / "wareboard" / "demo"


def wareboard(*arguments: object, code: int = 0) -> str:
    """Run the program itself, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-m", "wareboard", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == code, done.stdout + done.stderr
    return done.stdout + done.stderr


def files(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def assert_same(one: Path, other: Path) -> None:
    """Hold two folders against each other, byte for byte."""
    assert files(one) == files(other)
    _same, different, missing = filecmp.cmpfiles(one, other, files(one), shallow=False)
    assert (different, missing) == ([], [])


def damaged(folder: Path, table: str, change) -> None:
    """Change one table of a folder as a spreadsheet would."""
    path = folder / f"{table}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    change(rows)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys(), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


@pytest.fixture(scope="module")
def studio(tmp_path_factory) -> Path:
    """A data folder into which the demo was taken."""
    data = tmp_path_factory.mktemp("stüdio of ours") / "data"
    wareboard("take-in", DEMO, "--data", data)
    return data


def test_handing_out_taking_in_and_handing_out_again_gives_the_same_bytes(studio, tmp_path):
    first, second = tmp_path / "first", tmp_path / "second"

    wareboard("hand-out", first, "--data", studio)
    wareboard("take-in", first, "--data", tmp_path / "elsewhere")
    wareboard("hand-out", second, "--data", tmp_path / "elsewhere")

    assert_same(first, second)
    assert_same(DEMO, first)


def test_taking_in_first_says_what_it_would_add(tmp_path):
    told = json.loads(
        wareboard("take-in", DEMO, "--only-look", "--json", "--data", tmp_path / "data")
    )

    assert told["result"]["added"] is False
    assert told["result"]["adds"]["firings"] == 5
    wareboard("hand-out", tmp_path / "out", "--data", tmp_path / "data")
    with (tmp_path / "out" / "firings.csv").open(encoding="utf-8") as file:
        assert list(csv.DictReader(file)) == []


def test_the_same_folder_twice_adds_nothing(studio):
    told = json.loads(wareboard("take-in", DEMO, "--json", "--data", studio))

    assert sum(told["result"]["adds"].values()) == 0
    assert told["result"]["has"]["firings"] == 5


def test_an_entry_that_says_something_else_refuses_the_whole_folder(studio, tmp_path):
    other = shutil.copytree(DEMO, tmp_path / "other")

    def rename_and_add(rows):
        rows[0]["name"] = "something else"
        rows.append({**rows[1], "id": "a-new-glaze", "name": "New"})

    damaged(other, "glazes", rename_and_add)

    said = wareboard("take-in", other, "--data", studio, code=2)

    assert "is here already and says something else; nothing was taken in." in said
    wareboard("hand-out", tmp_path / "out", "--data", studio)
    assert_same(DEMO, tmp_path / "out")


@pytest.mark.parametrize(
    ("table", "column", "value", "part"),
    [
        ("readings", "full_g", "7_48", "7_48"),
        ("weighings", "weight_g", "-3", "-3"),
        ("coats", "side", "upside", "upside"),
        ("pots", "form", "no-such-form", "no-such-form"),
        ("firings", "at", "yesterday", "yesterday"),
    ],
)
def test_a_bad_cell_is_named_by_file_row_column_and_value(tmp_path, table, column, value, part):
    other = shutil.copytree(DEMO, tmp_path / "other")
    damaged(other, table, lambda rows: rows[2].update({column: value}))

    said = json.loads(wareboard("take-in", other, "--json", "--data", tmp_path / "data", code=2))[
        "error"
    ]

    assert said["field"] == column
    assert part in said["say"]
    assert f"{table}.csv" in said["say"]
    assert said["accepted"]


def test_a_row_that_contradicts_itself_takes_nothing_in(tmp_path):
    other = shutil.copytree(DEMO, tmp_path / "other")
    damaged(other, "coats", lambda rows: rows[0].update({"bucket": "", "glaze": ""}))

    said = wareboard("take-in", other, "--data", tmp_path / "data", code=2)

    assert said == (
        "coats.csv, row 2, column bucket: is blank, and so is the column glaze; "
        "name the bucket, or the glaze alone where the bucket is not known.\n"
    )
    wareboard("hand-out", tmp_path / "out", "--data", tmp_path / "data")
    with (tmp_path / "out" / "glazes.csv").open(encoding="utf-8") as file:
        assert list(csv.DictReader(file)) == []


def test_a_photo_that_changed_is_refused(tmp_path):
    other = shutil.copytree(DEMO, tmp_path / "other")
    photo = next((other / "photos").iterdir())
    photo.write_bytes(photo.read_bytes()[:-1] + b"\0")

    said = wareboard("take-in", other, "--data", tmp_path / "data", code=2)

    assert photo.name in said


def test_every_fault_of_a_folder_is_told_one_a_line(tmp_path):
    other = shutil.copytree(DEMO, tmp_path / "other")
    damaged(other, "glazes", lambda rows: rows[0].update({"swatch": "blue"}))
    damaged(other, "cone_readings", lambda rows: rows[0].update({"cone": "99"}))

    said = wareboard("take-in", other, "--data", tmp_path / "data", code=2)

    assert said.splitlines() == [
        'glazes.csv, row 2, column swatch: "blue" is no colour; write a colour as #a9a79c.',
        (
            'cone_readings.csv, row 2, column cone: "99" is no cone that the program knows; '
            "write a cone such as 9 or 010."
        ),
    ]


def test_a_folder_that_is_not_there_is_named_by_the_argument_that_named_it(tmp_path):
    told = wareboard("take-in", tmp_path / "none", "--json", "--data", tmp_path / "data", code=2)

    assert json.loads(told)["error"]["field"] == "path"


def test_a_folder_without_a_record_has_nothing_to_hand_out(tmp_path):
    said = wareboard("hand-out", tmp_path / "out", "--data", tmp_path / "none", code=2)

    assert said.startswith("There is no record in ")
    assert not (tmp_path / "none").exists()
