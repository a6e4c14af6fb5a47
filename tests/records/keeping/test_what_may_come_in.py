"""A folder is held to the rules the forms hold, by file, row, column and value."""

import shutil
from pathlib import Path

import pytest

from wareboard.exchange.record_folder import FolderRefused
from wareboard.records.keeping.row_rules import rules
from wareboard.records.keeping.tables import KEPT
from wareboard.records.keeping.take_in import plan, take_in
from wareboard.records.people.models import Member, Studio

from .coming_in import change, read_rows, second_demo

pytestmark = pytest.mark.django_db

# Measurements, each with what it is a measurement of.
CORRECTED = {
    "sheets": "material",
    "weighings": "pot",
    "readings": "bucket",
    "bucket_events": "bucket",
    "batch_lines": "batch",
}


@pytest.fixture(scope="module")
def whole(tmp_path_factory) -> Path:
    return second_demo(tmp_path_factory.mktemp("second") / "demo")


@pytest.fixture
def folder(whole, tmp_path) -> Path:
    return shutil.copytree(whole, tmp_path / "coming")


def two_of_one(rows, subject):
    """Give the first two rows that are of the same thing."""
    for first in rows:
        alike = [row for row in rows if row[subject] == first[subject]]
        if len(alike) > 1:
            return alike[:2]
    raise AssertionError(f"no two rows of one {subject}")


def refused(folder: Path, studio: Studio | None = None) -> FolderRefused:
    with pytest.raises(FolderRefused) as refusal:
        plan(folder, studio)
    return refusal.value


def test_the_record_of_another_studio_comes_in_beside_ours(folder):
    studio, added = take_in(folder, None)

    assert studio.pk == "xculverhythe"
    assert added["firings"] == 5


def test_a_studio_that_names_no_currency_comes_in(folder):
    change(folder, "studio", lambda rows: rows[0].update({"currency": ""}))

    studio, _added = take_in(folder, None)

    assert studio.currency == ""


@pytest.mark.parametrize(
    ("table", "column", "value", "accepted"),
    [
        ("studio", "time_zone", "Mars/Olympus", "write one such as Europe/London, or UTC"),
        ("readings", "volume_ml", "50", "such as 1.45"),
        ("readings", "full_g", "1900", "such as 1.45"),
        ("glazes", "swatch", "blue", "write a colour as #a9a79c"),
        ("glazes", "at", "0001-01-01T00:00:00+00:00", "write a day from 1900 to 2100"),
        ("glazes", "name", "x" * 121, "write at most 120 letters"),
        ("glazes", "name", "  ", "write a word"),
        ("glazes", "name", "two\nlines", "write it in one line"),
        ("air", "id", "Not An Id", "an id has small letters, digits and dashes"),
        ("sheet_oxides", "oxide", "Si02", "SiO2"),
        ("recipes", "version", "0", "write a whole number from 1 to 32767"),
        ("cone_readings", "cone", "99", "write a cone such as 9 or 010"),
        ("coats", "bucket", "", "name the bucket, or the glaze alone"),
        ("coats", "after_g", "0.5", "no less than just before it"),
        ("fuel_weights", "gross_kg", "0.2", "no less than tare_kg"),
        ("air", "rh_percent", "2", "write per cent from 5 to 100"),
        ("pictures", "size_bytes", "7", "write "),
    ],
)
def test_what_no_form_would_keep_is_refused_by_its_place(folder, table, column, value, accepted):
    def spoil(rows):
        number = next(n for n, row in enumerate(rows) if row[column] or column == "rh_percent")
        rows[number][column] = value

    change(folder, table, spoil)

    said = refused(folder).problems[0]

    assert said.file == f"{table}.csv"
    assert said.row is not None
    assert accepted in said.accepted
    assert said.say.startswith(f"{table}.csv, row {said.row}, column ")


def test_every_problem_of_a_folder_is_told_at_once(folder):
    change(folder, "glazes", lambda rows: rows[0].update({"swatch": "blue"}))
    change(folder, "cone_readings", lambda rows: rows[3].update({"cone": "99"}))

    told = refused(folder).problems

    assert [(one.file, one.row, one.column, one.seen) for one in told] == [
        ("glazes.csv", 2, "swatch", "blue"),
        ("cone_readings.csv", 5, "cone", "99"),
    ]


@pytest.mark.parametrize("table", CORRECTED)
def test_a_row_that_corrects_itself_is_refused(folder, table):
    change(folder, table, lambda rows: rows[2].update({"corrects": rows[2]["id"]}))

    wrong = read_rows(folder, table)[2]["id"]
    assert refused(folder).say == (
        f'{table}.csv, row 4, column corrects: "{wrong}" leads back to the row itself; '
        "name an earlier row, or leave it blank."
    )


@pytest.mark.parametrize(("table", "subject"), CORRECTED.items())
def test_rows_that_correct_each_other_in_a_circle_are_refused(folder, table, subject):
    def circle(rows):
        one, other = two_of_one(rows, subject)
        one["corrects"], other["corrects"] = other["id"], one["id"]

    change(folder, table, circle)

    assert [one.column for one in refused(folder).problems] == ["corrects", "corrects"]


@pytest.mark.parametrize(("table", "subject"), CORRECTED.items())
def test_a_row_that_corrects_one_of_another_thing_is_refused(folder, table, subject):
    def cross(rows):
        other = next(row for row in rows if row[subject] != rows[0][subject])
        rows[0]["corrects"] = other["id"]

    change(folder, table, cross)

    assert f"is of another {subject}" in refused(folder).say


def test_two_glazes_that_rest_on_each_other_are_refused(folder):
    def circle(rows):
        one, other = rows[0], next(row for row in rows if row["glaze"] != rows[0]["glaze"])
        one["version"], other["version"] = "900", "900"
        one["base"], other["base"] = other["glaze"], one["glaze"]

    change(folder, "recipes", circle)

    assert [one.column for one in refused(folder).problems] == ["base", "base"]


def test_an_analysis_adds_up_to_no_more_than_an_analysis_does(folder):
    change(folder, "sheet_oxides", lambda rows: rows[0].update({"percent": "109"}))

    assert "which no analysis does" in refused(folder).say


def test_an_outline_that_goes_down_again_is_refused_by_the_rule_of_its_form(folder):
    def turn(rows):
        form = [row for row in rows if row["form"] == rows[0]["form"]]
        form[1]["z_cm"] = "50"

    change(folder, "form_points", turn)

    assert "write the points from the foot to the rim" in refused(folder).say


def test_a_pot_that_stands_twice_in_a_load_is_refused(folder):
    change(
        folder,
        "placings",
        lambda rows: rows[1].update({"load": rows[0]["load"], "pot": rows[0]["pot"]}),
    )

    assert "says the same of load and pot as the row" in refused(folder).say


def test_a_folder_of_two_studios_is_refused(folder):
    change(folder, "studio", lambda rows: rows.append({**rows[0], "id": "another"}))

    assert refused(folder).say == "studio.csv: has 2 rows; one studio has one row."


def test_what_was_taken_back_here_is_not_called_new(folder):
    from wareboard.records.glazes.models import Glaze  # noqa: PLC0415 - needs Django set up

    studio, _added = take_in(folder, None)
    glaze = Glaze.objects.filter(studio=studio).order_by("pk").first()
    glaze.undone_at = glaze.kept_at
    glaze.save()

    assert f'column id: "{glaze.pk}" was taken back in this record' in refused(folder, studio).say


def test_what_another_studio_holds_is_not_called_new(folder, studio):
    take_in(folder, None)

    said = refused(folder)

    assert said.say.startswith('studio.csv, row 2, column id: "xculverhythe" is held by another')


def test_a_new_line_of_an_analysis_that_is_here_is_refused(folder):
    studio, _added = take_in(folder, None)

    def come(rows):
        rows.append({**rows[0], "id": "a-new-line", "oxide": "V2O5", "percent": "0.1"})

    change(folder, "sheet_oxides", come)

    assert "is here already, without this row" in refused(folder, studio).say


def test_entries_of_somebody_unknown_here_are_refused(folder):
    studio, _added = take_in(folder, None)
    change(folder, "members", lambda rows: rows.append({**rows[0], "id": "nobody-here"}))

    def come(rows):
        rows.append({**rows[0], "id": "a-new-air", "by": "nobody-here"})

    change(folder, "air", come)

    assert 'column by: "nobody-here" is nobody of' in refused(folder, studio).say


def test_the_owner_of_this_machine_owns_what_comes_in_without_any_owner(folder, member):
    change(folder, "members", lambda rows: [row.update({"role": "potter"}) for row in rows])
    Member.objects.create(id="owner", studio=Studio.objects.get(pk="culverhythe"), name="old")

    studio, _added = take_in(folder, member.studio)

    assert studio.members.get(role="owner").person == member.person


def test_every_constraint_of_the_record_has_a_sentence():
    told = {rule.constraint for some in rules().values() for rule in some}
    held = {
        one.name
        for kept in KEPT
        for one in kept.model._meta.constraints
        if hasattr(one, "condition") and not hasattr(one, "fields")
    }

    assert {name for name in held if not name.endswith(("_range", "_word"))} == told - {""}
