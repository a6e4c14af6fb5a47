"""MATERIALS.csv: the potter's own sheets."""

from pathlib import Path

import pytest

from wareboard.core.chemistry.analysis import Analysis
from wareboard.exchange.materials_csv import oxide_heading, read_materials_csv
from wareboard.exchange.refusals import FileRefused, TextRefused


def sheet(folder: Path, content: str) -> str:
    path = folder / "materials.csv"
    path.write_text(content)
    return str(path)


def test_blank_cells_are_absent_or_unknown(tmp_path: Path) -> None:
    path = sheet(
        tmp_path,
        "id,SiO2,CaO,LOI,density_g_cm3,name\nchalk,,56.03,43.97,2.7,Chalk\nflint,99.5,0,,,\n",
    )

    assert read_materials_csv(path) == {
        "chalk": Analysis("chalk", {"CaO": 56.03}, 43.97, 2.7, name="Chalk"),
        "flint": Analysis("flint", {"SiO2": 99.5}, None, None),
    }


def test_loss_density_and_name_may_be_left_out(tmp_path: Path) -> None:
    path = sheet(tmp_path, "id,SiO2\nflint,100\n")

    assert read_materials_csv(path) == {"flint": Analysis("flint", {"SiO2": 100.0})}


# N17.
@pytest.mark.parametrize(
    ("heading", "oxide"),
    [
        ("sio2", "SiO2"),
        ("SIO2", "SiO2"),
        ("SiO\N{SUBSCRIPT TWO}", "SiO2"),
        ("Fe2O3", "Fe2O3"),
        ("feo", "FeO"),
        ("F", "F"),
    ],
)
def test_capitals_and_lowered_digits_do_not_matter(heading: str, oxide: str) -> None:
    assert oxide_heading(heading) == oxide


@pytest.mark.parametrize(
    ("heading", "say"),
    [
        ("Si02", 'the heading "Si02" is no oxide known here; do you mean SiO2?'),
        ("KNaO", 'the heading "KNaO" is no oxide known here.'),
    ],
)
def test_an_unknown_oxide_is_refused(heading: str, say: str) -> None:
    with pytest.raises(TextRefused) as refused:
        oxide_heading(heading)

    assert (refused.value.say, refused.value.field) == (say, heading)


# N16: 140 and 0 can only be slips; 60 and 101.5 are kept and said later.
@pytest.mark.parametrize("silica", [60.0, 98.0, 101.5, 110.0])
def test_an_analysis_that_does_not_quite_add_up_is_kept(tmp_path: Path, silica: float) -> None:
    path = sheet(tmp_path, f"id,SiO2,LOI\nflint,{silica},0\n")

    assert read_materials_csv(path)["flint"].total_percent == silica


def test_a_powder_that_takes_up_oxygen_has_a_loss_below_zero(tmp_path: Path) -> None:
    # Cu2O + O2/2 -> 2 CuO: 143.091 g become 159.090 g (IUPAC 2021 weights, from memory).
    path = sheet(tmp_path, "id,CuO,LOI\nred_copper,111.181,-11.181\n")

    assert read_materials_csv(path)["red_copper"].total_percent == pytest.approx(100.0, abs=1e-9)


REFUSED = {
    "adds up to too much": (
        "id,SiO2,LOI\na,100,0\nb,100,40\n",
        "id",
        "line 3: id: the analysis of b adds up to 140 %.",
    ),
    "adds up to nothing": (
        "id,SiO2,LOI\na,0,0\n",
        "id",
        "line 2: id: the analysis of a adds up to 0 %.",
    ),
    "negative loss": (
        "id,SiO2,LOI\na,100,-5\n",
        "LOI",
        (
            "line 2: LOI of a is -5; only a powder that takes up oxygen in the fire has a loss "
            "below 0, and its oxides add up to more than 100."
        ),
    ),
    "loss over 100": (
        "id,SiO2,LOI\na,0,101\n",
        "LOI",
        (
            'line 2: LOI: loss on ignition: "101" is out of range; '
            "accepted is per cent from -100 to 100."
        ),
    ),
    "negative oxide": (
        "id,SiO2\na,-1\n",
        "SiO2",
        'line 2: SiO2: share: "-1" is out of range; accepted is weight per cent from 0 to 200.',
    ),
    "trace": (
        "id,SiO2,TiO2\na,99,trace\n",
        "TiO2",
        (
            'line 2: TiO2: share: "trace" is not a plain number; '
            "accepted is weight per cent from 0 to 200."
        ),
    ),
    "id twice": ("id,SiO2\na,99\na,98\n", "id", 'line 3: id: the id "a" stands twice.'),
    "id blank": ("id,SiO2\n,99\n", "id", "line 2: id is blank."),
    "zero for O": (
        "id,Si02\na,99\n",
        "Si02",
        'line 1: Si02: the heading "Si02" is no oxide known here; do you mean SiO2?',
    ),
    "oxide twice": ("id,SiO2,sio2\na,99,99\n", "SiO2", 'line 1: the heading "SiO2" stands twice.'),
    "lost point": (
        "id,SiO2,density_g_cm3\na,99,26\n",
        "density_g_cm3",
        "line 2: density_g_cm3: 26: do you mean 2.6?",
    ),
}


@pytest.mark.parametrize(("content", "field", "say"), REFUSED.values(), ids=REFUSED.keys())
def test_a_bad_sheet_is_refused(tmp_path: Path, content: str, field: str, say: str) -> None:
    with pytest.raises(FileRefused) as refused:
        read_materials_csv(sheet(tmp_path, content))

    assert (refused.value.field, refused.value.say) == (field, f"materials.csv, {say}")
