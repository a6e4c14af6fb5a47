"""What to mind with a powder: one calm line that defers to sheet and code."""

import re

import pytest

from wareboard.records.stores.cautions import (
    COMES_FIRST,
    MAY_PASS,
    PLAIN,
    QUARTZ,
    SAID,
    caution_of,
    cautions_of,
    release_caution,
)
from wareboard.records.stores.models import Material, MaterialKind
from wareboard.refdata.materials import all_materials
from wareboard.refdata.oxides import all_oxides

# Notes of the built-in table that speak of plain dust, which every powder makes.
PLAIN_NOTE = re.compile(
    r"nuisance dust|nuisance dust, abrasive|nuisance dust; siderosis|gla[ss]+y? dust|low"
    r"|low; stannosis in heavy dust|no free quartz as a rule; nuisance dust"
)


def stands_on(library_id, **facts):
    return Material(name=library_id, library_id=library_id, **facts)


@pytest.mark.parametrize("row", all_materials().values(), ids=lambda row: row.id)
def test_every_powder_has_its_line_and_only_plain_dust_is_called_plain(row):
    plain = PLAIN_NOTE.fullmatch(row.hazard_note) is not None

    line = caution_of(Material(name="powder", library_id=row.id))

    assert line
    assert (line == str(PLAIN)) is plain


# Common practice: each of these holds free quartz, or is dug with it.
@pytest.mark.parametrize(
    "name",
    [
        "flint", "Silica 300 mesh", "quartz", "china clay", "kaolin", "ball clay", "feldspar",
        "potash spar", "soda feldspar", "Cornish stone", "fire clay", "bentonite", "red clay",
        "stoneware body", "wild clay", "yellow ochre", "granite dust",
    ],
)  # fmt: skip
def test_what_holds_quartz_is_known_by_its_name_alone(name):
    assert caution_of(Material(name=name)) == str(QUARTZ)


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("whiting", "plain dust"),
        ("hedge-trimmings ash, washed", "burns skin"),
        ("talc", "asbestos"),
        ("barium carbonate", "poisonous if swallowed"),
        ("manganese", "nerves"),
        ("red lead", "lead"),
    ],
)
def test_what_else_is_to_be_minded_is_known_by_its_name_alone(name, word):
    assert word in caution_of(Material(name=name))


def test_other_names_count_too():
    assert caution_of(Material(name="the white one", other_names="fine, flint")) == str(QUARTZ)


def test_a_stand_in_for_the_sums_never_hides_what_the_name_says():
    ash = Material(name="beech ash", library_id="calcite_ideal")

    assert "burns skin" in caution_of(ash)


@pytest.mark.parametrize(
    ("library_id", "word"),
    [
        ("white_lead", "lead"),
        ("manganese_dioxide", "nerves"),
        ("nickel_oxide", "cancer"),
        ("barium_carbonate", "poisonous if swallowed"),
        ("quartz_ideal", "quartz"),
        ("ash_wood_like_mean", "burns skin"),
        ("talc_ideal", "asbestos"),
        ("fluorspar_ideal", "fluorine"),
    ],
)
def test_what_hurts_most_is_said(library_id, word):
    assert word in caution_of(stands_on(library_id))


def test_no_line_calls_anything_safe_or_shouts():
    lines = " ".join(str(say) for _pattern, say in SAID)

    assert not re.search(r"\bsafe\b|[A-Z]{4}|!", lines)


def test_the_line_of_a_powder_nobody_knows_sends_to_its_sheet():
    powder = Material(name="blue stuff", kind=MaterialKind.COLOURANT)
    wax = Material(name="wax", kind=MaterialKind.RESIST)

    assert "safety sheet" in caution_of(powder)
    assert caution_of(wax) == ""


def test_the_dust_of_any_clay_body_may_hold_quartz():
    assert caution_of(Material(name="buff", kind=MaterialKind.CLAY)) == str(QUARTZ)


def test_powders_that_harm_alike_share_a_line_and_the_worst_comes_first():
    some = [
        stands_on("quartz_ideal"),
        stands_on("ball_clay_plastic"),
        stands_on("calcite_ideal"),
        stands_on("barium_carbonate"),
        stands_on("quartz_ideal"),
    ]

    lines = cautions_of(some)

    assert [line.split(":")[0] for line in lines] == [
        "Barium_carbonate",
        "Quartz_ideal, ball_clay_plastic",
        "Calcite_ideal",
    ]


def test_the_authority_is_the_sheet_and_the_code():
    assert "safety sheet" in str(COMES_FIRST)
    assert "local code" in str(COMES_FIRST)


def test_metals_that_may_pass_into_food_are_named_and_left_to_a_laboratory():
    one = release_caution({"SiO2": 60.0, "CuO": 0.5})
    three = release_caution({"CoO": 1.0, "CuO": 0.5, "Cr2O3": 0.3})

    assert one.startswith("Copper can pass from a glaze into food.")
    assert three.startswith("Cobalt, copper and chromium can pass from a glaze into food.")
    assert "laboratory" in one


@pytest.mark.parametrize(
    ("fired_percent", "named"),
    [({"MnO": 0.05}, False), ({"MnO": 0.5}, True), ({"PbO": 0.001}, True), ({"Fe2O3": 9}, False)],
)
def test_a_trace_as_in_every_clay_is_not_named_unless_it_is_lead(fired_percent, named):
    assert bool(release_caution(fired_percent)) is named


def test_what_may_pass_is_an_oxide_that_is_counted():
    assert set(MAY_PASS) <= set(all_oxides())
