import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.chemistry import Analysis, analysis_of
from wareboard.core.errors import CompositionError
from wareboard.core.recipe import RecipeLine, solid_density
from wareboard.refdata.materials import all_materials

LIBRARY = list(all_materials())
RECIPES = st.dictionaries(st.sampled_from(LIBRARY), st.floats(0.01, 100), min_size=1, max_size=8)


def lines_of(recipe):
    return [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in recipe.items()]


def density_of(recipe):
    return solid_density(lines_of(recipe)).result.solid_density_g_cm3


def test_volumes_of_the_powders_add_up():
    # 26.48 g of quartz are 10 cm3, 27.13 g of calcite 10 cm3.
    found = density_of({"quartz_ideal": 26.48, "calcite_ideal": 27.13})

    assert found == pytest.approx((26.48 + 27.13) / 20, rel=1e-12)


@pytest.mark.parametrize("key", LIBRARY)
def test_one_powder_has_its_own_density(key):
    assert density_of({key: 7.0}) == pytest.approx(all_materials()[key].density_g_cm3, rel=1e-14)


@given(RECIPES)
def test_a_mixture_lies_between_its_lightest_and_its_heaviest_powder(recipe):
    densities = [all_materials()[key].density_g_cm3 for key in recipe]

    found = density_of(recipe)

    assert min(densities) * (1 - 1e-12) <= found <= max(densities) * (1 + 1e-12)


@given(RECIPES, st.floats(1e-6, 1e6))
def test_a_bigger_batch_is_the_same_powder(recipe, factor):
    big = {key: factor * parts for key, parts in recipe.items()}

    assert density_of(big) == pytest.approx(density_of(recipe), rel=1e-12)


@given(RECIPES, st.randoms())
def test_the_order_of_the_lines_changes_no_digit_of_the_density(recipe, random):
    lines = lines_of(recipe)
    shuffled = list(lines)
    random.shuffle(shuffled)

    assert solid_density(shuffled) == solid_density(lines)


@given(RECIPES, st.sampled_from(LIBRARY))
def test_a_line_of_nothing_leaves_the_density_alone(recipe, key):
    with_nothing = [*lines_of(recipe), RecipeLine(key, 0.0, False, analysis_of(key))]

    assert solid_density(with_nothing) == solid_density(lines_of(recipe))


@given(RECIPES)
def test_a_powder_in_two_lines_has_the_density_of_one(recipe):
    halves = [
        RecipeLine(key, parts / 2, addition, analysis_of(key))
        for key, parts in recipe.items()
        for addition in (False, True)
    ]

    assert solid_density(halves) == solid_density(lines_of(recipe))


def test_a_missing_density_counts_as_2_6_and_is_said():
    chalk = Analysis("chalk", {"CaO": 56.0}, name="chalk from the hill")

    answer = solid_density([RecipeLine("chalk", 10.0, False, chalk)])

    assert answer.result.solid_density_g_cm3 == pytest.approx(2.6, rel=1e-14)
    assert answer.cautions == (
        "No density is given for chalk from the hill: counted as 2.6 g/cm³.",
    )
    assert answer.sources == ()


def test_a_recipe_of_nothing_has_no_density():
    with pytest.raises(CompositionError, match="there is nothing to calculate"):
        density_of({"quartz_ideal": 0.0})


def test_one_powder_is_as_sure_as_its_own_density():
    interval = solid_density(lines_of({"quartz_ideal": 1.0})).doubt["solid_density_g_cm3"]

    # Verified: 1.2 % of 2.648.
    assert interval.high - 2.648 == pytest.approx(1.645 * 0.012 * 2.648, rel=1e-12)
    assert 2.648 - interval.low == pytest.approx(1.645 * 0.012 * 2.648, rel=1e-12)


def test_errors_of_two_powders_count_by_their_share_of_volume():
    light = Analysis("light", {}, density_g_cm3=2.0, density_sd_g_cm3=0.1)
    heavy = Analysis("heavy", {}, density_g_cm3=4.0, density_sd_g_cm3=0.4)
    lines = [RecipeLine("light", 1.0, False, light), RecipeLine("heavy", 2.0, False, heavy)]

    answer = solid_density(lines)
    interval = answer.doubt["solid_density_g_cm3"]

    # Half a cm3 of each: 3 g in 1 cm3, 5 % and 10 % on half of the volume.
    half = 1.645 * 3.0 * math.hypot(0.5 * 0.05, 0.5 * 0.10)
    assert answer.result.solid_density_g_cm3 == pytest.approx(3.0, rel=1e-14)
    assert (interval.high - interval.low) / 2 == pytest.approx(half, rel=1e-12)


def test_the_working_says_what_a_hundred_grams_fill():
    answer = solid_density(lines_of({"quartz_ideal": 1.0}))

    assert answer.working == ("100 g fill 37.8 cm³, which is 2.65 g/cm³.",)
