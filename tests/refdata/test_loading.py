import csv
from pathlib import Path

import pytest

from wareboard.refdata import loading
from wareboard.refdata.loading import Standing, Table, TableError, near_names, number, read_table

TABLES = sorted(path.stem for path in Path(loading.__file__).with_name("tables").glob("*.csv"))

TABLE = "name,mass_g,source\nclay,2.5,verified: a page\nspar,4,from memory: a book\nash,,computed\n"
PROVENANCE = """\
description = "Three powders."
source = "Made for this test."
standing = "A row: column source."
unit = "mass_g in g."
uncertainty = "None."
licence = "Ours."
rows = 3

[sums]
mass_g = 6.5

[standings.source]
verified = 1
"from memory" = 1
computed = 1
"""


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """A folder with one good table; the test may spoil it."""
    (tmp_path / "powder__test.csv").write_text(TABLE)
    (tmp_path / "powder__test.toml").write_text(PROVENANCE)
    return tmp_path


def read(shelf: Path) -> Table:
    return read_table("powder__test", lambda filename: (shelf / filename).read_bytes())


def spoil(shelf: Path, ending: str, old: str, new: str) -> None:
    path = shelf / f"powder__test.{ending}"
    assert path.read_text().count(old) == 1
    path.write_text(path.read_text().replace(old, new))


@pytest.mark.parametrize("name", TABLES)
def test_every_packaged_table_agrees_with_its_provenance(name: str) -> None:
    table = loading.load(name)

    assert len(table.rows) == table.provenance["rows"]


@pytest.mark.parametrize("name", TABLES)
def test_every_column_of_numbers_is_guarded_by_a_sum(name: str) -> None:
    table = loading.load(name)
    sums = table.provenance.get("sums", {})

    unguarded = [
        column
        for column in table.rows[0]
        if column not in {*sums, "cone"}
        and all(is_number(row[column]) for row in table.rows if row[column])
    ]

    assert unguarded == []


def is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize("name", TABLES)
def test_one_more_gram_anywhere_in_a_guarded_column_is_noticed(name: str, tmp_path: Path) -> None:
    folder = Path(loading.__file__).with_name("tables")
    table = loading.load(name)
    header = list(table.rows[0])
    sums = table.provenance.get("sums", {})
    (tmp_path / f"{name}.toml").write_bytes((folder / f"{name}.toml").read_bytes())

    for column in sums:
        rows = [dict(row) for row in table.rows]
        spoiled = next(row for row in rows if row[column])
        spoiled[column] = str(float(spoiled[column]) + 0.001)
        with (tmp_path / f"{name}.csv").open("w", newline="") as file:
            writer = csv.DictWriter(file, header)
            writer.writeheader()
            writer.writerows(rows)

        with pytest.raises(TableError, match=f"Column {column} of {name} adds up to"):
            read_table(name, lambda filename: (tmp_path / filename).read_bytes())


def test_a_good_table_is_read_with_every_cell_as_text(shelf: Path) -> None:
    table = read(shelf)

    assert table.name == "powder__test"
    assert table.rows == (
        {"name": "clay", "mass_g": "2.5", "source": "verified: a page"},
        {"name": "spar", "mass_g": "4", "source": "from memory: a book"},
        {"name": "ash", "mass_g": "", "source": "computed"},
    )
    assert table.provenance["unit"] == "mass_g in g."


def test_a_table_cannot_be_changed_after_reading(shelf: Path) -> None:
    table = read(shelf)

    with pytest.raises(TypeError):
        table.rows[0]["mass_g"] = "9"


def test_a_table_that_is_not_there_is_refused(shelf: Path) -> None:
    with pytest.raises(TableError, match=r"There is no table glaze__test\."):
        read_table("glaze__test", lambda filename: (shelf / filename).read_bytes())


def test_our_own_tables_do_not_hold_it_either() -> None:
    with pytest.raises(TableError, match=r"There is no table glaze__test\."):
        loading.load("glaze__test")


def test_a_table_without_provenance_is_refused(shelf: Path) -> None:
    (shelf / "powder__test.toml").unlink()

    with pytest.raises(TableError, match=r"has no provenance file powder__test\.toml"):
        read(shelf)


def test_provenance_that_is_no_toml_is_refused(shelf: Path) -> None:
    (shelf / "powder__test.toml").write_text("rows: 3")

    with pytest.raises(TableError, match="The provenance of powder__test cannot be read"):
        read(shelf)


@pytest.mark.parametrize(
    "key", ["description", "source", "standing", "unit", "uncertainty", "licence"]
)
def test_provenance_must_say_everything(shelf: Path, key: str) -> None:
    spoil(shelf, "toml", f"\n{key} = " if key != "description" else f"{key} = ", "\nleft_out = ")

    with pytest.raises(TableError, match=f"does not give its {key}"):
        read(shelf)


def test_provenance_must_not_leave_a_word_empty(shelf: Path) -> None:
    spoil(shelf, "toml", 'licence = "Ours."', 'licence = ""')

    with pytest.raises(TableError, match="does not give its licence"):
        read(shelf)


def test_a_row_too_few_is_refused(shelf: Path) -> None:
    spoil(shelf, "csv", "ash,,computed\n", "")

    with pytest.raises(TableError, match="has 2 rows, its provenance says 3"):
        read(shelf)


def test_an_empty_table_is_refused(shelf: Path) -> None:
    (shelf / "powder__test.csv").write_text("name,mass_g,source\n")

    with pytest.raises(TableError, match="has no rows"):
        read(shelf)


def test_a_row_with_a_cell_too_few_is_refused(shelf: Path) -> None:
    spoil(shelf, "csv", "ash,,computed", "ash,computed")

    with pytest.raises(TableError, match="Line 4 of powder__test has 2 cells where the header has"):
        read(shelf)


def test_a_column_sum_that_differs_is_refused(shelf: Path) -> None:
    spoil(shelf, "csv", "clay,2.5", "clay,2.6")

    with pytest.raises(TableError, match=r"adds up to 6\.600000, its provenance says 6\.5"):
        read(shelf)


def test_a_word_among_the_numbers_is_refused(shelf: Path) -> None:
    spoil(shelf, "csv", "clay,2.5", "clay,heavy")

    with pytest.raises(TableError, match="holds more than numbers"):
        read(shelf)


def test_a_guarded_column_that_is_gone_is_refused(shelf: Path) -> None:
    spoil(shelf, "csv", "name,mass_g", "name,weight")

    with pytest.raises(TableError, match="has no column mass_g"):
        read(shelf)


def test_a_standing_that_was_raised_is_refused(shelf: Path) -> None:
    spoil(shelf, "csv", "from memory: a book", "verified: a book")

    with pytest.raises(TableError, match="The standings in column source"):
        read(shelf)


def test_provenance_that_guards_nothing_is_refused(shelf: Path) -> None:
    (shelf / "powder__test.toml").write_text(PROVENANCE.split("\n[sums]", maxsplit=1)[0])

    with pytest.raises(TableError, match="gives nothing that its columns must add up to"):
        read(shelf)


@pytest.mark.parametrize(
    ("source", "standing"),
    [
        ("verified: a certificate; one value from memory", Standing.VERIFIED),
        ("from memory: partly verified", Standing.FROM_MEMORY),
        ("computed: stoichiometry", Standing.COMPUTED),
        ("illustrative: invented", Standing.ILLUSTRATIVE),
        ("fume verified: a rule; dust from memory: a list", Standing.FROM_MEMORY),
    ],
)
def test_a_source_declares_its_standing(source: str, standing: Standing) -> None:
    assert Standing.of(source) is standing


def test_a_source_without_standing_is_refused() -> None:
    with pytest.raises(TableError, match="does not say how far it can be trusted"):
        Standing.of("a friend")


def test_an_empty_cell_is_no_number() -> None:
    assert number("") is None
    assert number("2.5") == 2.5


def test_near_names_share_words_but_not_the_words_of_many() -> None:
    labels = {"calcite_ideal": "whiting, ideal", "talc_ideal": "talc, ideal", "marl": "clay"}

    assert near_names("Whiting-ideal", labels) == ("calcite_ideal",)
    assert near_names("frit", labels) == ()
