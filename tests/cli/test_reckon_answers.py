"""Every calculation answers in the shape that scripts outside rely on."""

import math
from collections.abc import Callable, Iterator

import pytest

from .conftest import Run

# Name, arguments in the folder examples, keys of the result.
CALLS = {
    "unity": (
        ("limestone.csv",),
        ("unity", "fired_percent", "loi_percent", "sio2_al2o3", "total_parts"),
    ),
    "unity with own sheets": (
        ("ash.csv", "--materials", "own.csv"),
        ("unity", "fired_percent", "loi_percent", "sio2_al2o3", "total_parts"),
    ),
    "solid": (("limestone.csv",), ("solid_density_g_cm3",)),
    "slop": (
        ("--sg", "1.45", "--solid", "2.6"),
        ("dry_g", "water_g", "dry_fraction", "solid_volume_fraction"),
    ),
    "water": (("--litres", "5", "--sg", "1.52", "--want", "1.45"), ("water_ml",)),
    "dose": (
        ("--wet-g", "7250", "--sg", "1.45", "--solid", "2.6", "--percent", "2"),
        ("dry_g", "add_g"),
    ),
    "dose of the finished": (
        ("--wet-g=7250", "--sg=1.45", "--solid=2.6", "--percent=2", "--of=finished"),
        ("dry_g", "add_g"),
    ),
    "coat": (
        ("--before-g", "612", "--wet-g", "655", "--sg", "1.45"),
        ("coat_g", "water_g", "water_percent_of_pot", "coat_g_dm2", "coat_mm"),
    ),
    "coat with area": (
        ("--before-g", "612", "--wet-g", "655", "--dry-g", "634", "--area-dm2", "8"),
        ("coat_g", "water_g", "water_percent_of_pot", "coat_g_dm2", "coat_mm"),
    ),
    "pot": (
        ("bowl.csv",),
        ("outside_dm2", "foot_dm2", "displaced_ml", "inside_dm2", "brim_ml", "clay_g"),
    ),
    "pot with wall": (
        ("bowl.csv", "--wall-mm", "6"),
        ("outside_dm2", "foot_dm2", "displaced_ml", "inside_dm2", "brim_ml", "clay_g"),
    ),
    "absorption": (
        ("--dry-g", "248.3", "--suspended-g", "149.6", "--saturated-g", "252.1"),
        (
            "absorption_percent",
            "apparent_porosity_percent",
            "apparent_sg",
            "bulk_density_g_cm3",
        ),
    ),
    "shrink": (
        ("--wet-mm", "100", "--dry-mm", "94", "--fired-mm", "88.4"),
        ("drying_percent", "firing_percent", "total_percent"),
    ),
    "cone": (
        ("firing.csv", "--cones", "large"),
        ("reading", "equivalent_c", "progress", "at_peak", "when_cold"),
    ),
}


@pytest.mark.parametrize(("name", "call"), CALLS.items())
def test_an_answer_is_one_object_of_the_agreed_shape(
    run: Callable[..., Run], name: str, call: tuple[tuple[str, ...], tuple[str, ...]]
) -> None:
    arguments, keys = call
    reckoned = name.split(maxsplit=1)[0]

    done = run("reckon", reckoned, *arguments, "--json")

    assert done.code == 0
    assert list(done.object) == [
        "reckoned",
        "given",
        "result",
        "doubt",
        "working",
        "cautions",
        "sources",
    ]
    assert done.object["reckoned"] == reckoned
    assert tuple(done.object["result"]) == keys
    assert done.object["working"]


@pytest.mark.parametrize(("name", "call"), CALLS.items())
def test_each_doubt_has_low_high_and_basis_around_its_number(
    run: Callable[..., Run], name: str, call: tuple[tuple[str, ...], tuple[str, ...]]
) -> None:
    found = run("reckon", name.split(maxsplit=1)[0], *call[0], "--json").object

    assert found["doubt"]
    for key, interval in found["doubt"].items():
        value = found["result"]
        for part in key.split(".", 1):
            value = value[part]
        assert list(interval) == ["low", "high", "basis"]
        assert interval["low"] <= value <= interval["high"]
        assert interval["basis"]


@pytest.mark.parametrize(("name", "call"), CALLS.items())
def test_people_get_the_answer_with_its_doubt_and_a_line_of_working(
    run: Callable[..., Run], name: str, call: tuple[tuple[str, ...], tuple[str, ...]]
) -> None:
    arguments = ("reckon", name.split(maxsplit=1)[0], *call[0])

    done = run(*arguments)

    assert (done.code, done.err) == (0, "")
    assert f"  {run(*arguments, '--json').object['working'][0]}\n" in done.out
    assert "about " in done.out
    assert "\N{EN DASH}" in done.out


def test_the_limestone_glaze_has_its_unity_formula(run: Callable[..., Run]) -> None:
    found = run("reckon", "unity", "limestone.csv", "--json").object["result"]

    # The fluxes sum to one by definition; all parts are 100 in the file.
    assert math.isclose(found["unity"]["K2O"] + found["unity"]["CaO"], 1.0, rel_tol=1e-12)
    assert found["total_parts"] == 100.0


@pytest.mark.parametrize("parts", ["99.9", "104"])
def test_a_recipe_that_is_not_a_hundred_is_kept_as_it_stands(
    run: Callable[..., Run], tmp_path: object, parts: str
) -> None:
    recipe = f"{tmp_path}/r.csv"
    with open(recipe, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name for the program
        file.write(f"material,parts\ncalcite_ideal,{parts}\n")

    found = run("reckon", "unity", recipe, "--json").object  # N13

    assert found["result"]["total_parts"] == float(parts)
    assert found["given"]["lines"][0]["parts"] == float(parts)


def test_own_sheets_win_over_the_library(run: Callable[..., Run], tmp_path: object) -> None:
    sheet = f"{tmp_path}/sheet.csv"
    with open(sheet, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name for the program
        file.write("id,CaO,LOI\ncalcite_ideal,50,50\n")

    library = run("reckon", "unity", "limestone.csv", "--json").object
    own = run("reckon", "unity", "limestone.csv", "--materials", sheet, "--json").object

    assert own["result"]["unity"]["CaO"] < library["result"]["unity"]["CaO"]
    assert own["given"]["materials"] == sheet


def test_a_blank_loss_is_said_and_counts_as_nothing(
    run: Callable[..., Run], tmp_path: object
) -> None:
    sheet = f"{tmp_path}/sheet.csv"
    with open(sheet, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name for the program
        file.write("id,CaO,LOI\ncalcite_ideal,56,\n")

    found = run("reckon", "unity", "limestone.csv", "--materials", sheet, "--json").object

    assert found["cautions"] == ["No loss on ignition is given for calcite_ideal: counted as 0."]


def test_a_missing_density_is_said_and_counts_as_2_6(run: Callable[..., Run]) -> None:
    found = run("reckon", "solid", "ash.csv", "--materials", "own.csv", "--json").object

    assert found["cautions"] == [
        (
            "No density is given for washed ash from the stove: "
            "counted as 2.6 g/cm\N{SUPERSCRIPT THREE}."
        )
    ]


def test_without_wall_the_inside_is_null_and_not_left_out(run: Callable[..., Run]) -> None:
    found = run("reckon", "pot", "bowl.csv", "--json").object["result"]

    assert (found["inside_dm2"], found["brim_ml"], found["clay_g"]) == (None, None, None)


def test_without_area_the_thickness_is_null_and_not_left_out(run: Callable[..., Run]) -> None:
    found = run("reckon", "coat", "--before-g=612", "--wet-g=655", "--sg=1.45", "--json").object

    assert (found["result"]["coat_g_dm2"], found["result"]["coat_mm"]) == (None, None)


def test_below_the_lowest_cone_the_reading_is_null(
    run: Callable[..., Run], tmp_path: object
) -> None:
    log = f"{tmp_path}/log.csv"
    with open(log, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name for the program
        file.write("time,temp_f\n2026-11-25T06:00,68\n2026-11-25T08:00,212\n")

    found = run("reckon", "cone", log, "--json").object

    assert (found["result"]["reading"], found["result"]["equivalent_c"]) == (None, None)
    assert found["cautions"][0].startswith("The times have no offset from UTC")
    assert run("reckon", "cone", log).out.startswith("At the peak: no reading.\n")


def test_water_to_take_off_is_negative_and_said_so(run: Callable[..., Run]) -> None:
    arguments = ("reckon", "water", "--litres", "5", "--sg", "1.38", "--want", "1.45")

    assert run(*arguments, "--json").object["result"]["water_ml"] < 0.0
    assert run(*arguments).out.startswith("Take about 800 ml (700\N{EN DASH}900) of clear water")


def test_numbers_given_are_in_the_answer_with_the_defaults(run: Callable[..., Run]) -> None:
    found = run("reckon", "slop", "--sg", "1.45", "--solid", "2.6", "--json").object

    assert found["given"] == {"sg": 1.45, "solid": 2.6, "litres": 1.0}


def numbers(value: object) -> Iterator[float]:
    if isinstance(value, dict):
        for item in value.values():
            yield from numbers(item)
    elif isinstance(value, list):
        for item in value:
            yield from numbers(item)
    elif isinstance(value, float):
        yield value


def test_numbers_are_not_rounded(run: Callable[..., Run]) -> None:
    found = run("reckon", "slop", "--sg", "1.45", "--solid", "2.7", "--json").object

    # 450 x 2.7 / 1.7 by hand, as a ratio.
    assert math.isclose(found["result"]["dry_g"], 1215 / 1.7, rel_tol=1e-14)
    assert all(math.isfinite(number) for number in numbers(found))
