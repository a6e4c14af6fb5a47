import subprocess
import sys
from fractions import Fraction
from math import fsum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.chemistry import Analysis, amounts, analysis_of
from wareboard.core.errors import CompositionError
from wareboard.core.recipe import RecipeLine, unity_formula
from wareboard.core.recipe.lines import mixture
from wareboard.core.recipe.unity import kept_percent
from wareboard.refdata.materials import all_materials

LIMESTONE = {
    "feldspar_potash_ideal": 40.0,
    "quartz_ideal": 30.0,
    "calcite_ideal": 20.0,
    "kaolinite_ideal": 10.0,
}
LIBRARY = [key for key in all_materials() if key != "white_lead"]
RECIPES = st.dictionaries(
    st.sampled_from(LIBRARY), st.floats(0.01, 100), min_size=1, max_size=8
).map(lambda recipe: recipe | {"calcite_ideal": 20.0})


def lines_of(recipe):
    return [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in recipe.items()]


def result_of(recipe):
    return unity_formula(lines_of(recipe)).result


def test_the_limestone_glaze_agrees_with_fractions_worked_by_hand():
    # Molecules from molar masses of the minerals, without any analysis.
    spar, silica, lime, kaolin = (
        Fraction(40_000) / 556_654,
        Fraction(30_000) / 60_083,
        Fraction(20_000) / 100_086,
        Fraction(10_000) / 258_156,
    )
    fluxes = spar + lime
    by_hand = {
        "K2O": spar / fluxes,
        "CaO": lime / fluxes,
        "Al2O3": (spar + kaolin) / fluxes,
        "SiO2": (6 * spar + silica + 2 * kaolin) / fluxes,
    }

    found = result_of(LIMESTONE)

    # The library's analyses are rounded to 0.001 %.
    assert found.unity == pytest.approx({o: float(n) for o, n in by_hand.items()}, rel=5e-5)
    assert found.sio2_al2o3 == pytest.approx(float(by_hand["SiO2"] / by_hand["Al2O3"]), rel=5e-5)
    assert found.loi_percent == pytest.approx(0.2 * 43.971 + 0.1 * 13.957, rel=1e-12)
    assert found.total_parts == 100


@given(RECIPES)
def test_what_stays_and_what_leaves_is_what_was_weighed(recipe):
    lines = lines_of(recipe)
    mixed = mixture(lines)

    stays = fsum(kept_percent(mixed).values())
    leaves = unity_formula(lines).result.loi_percent

    weighed = fsum(share * analysis.total_percent for analysis, share in mixed.shares)
    assert stays + leaves == pytest.approx(weighed, rel=1e-12)


@given(RECIPES)
def test_the_fired_glaze_is_a_hundred_percent(recipe):
    assert fsum(result_of(recipe).fired_percent.values()) == pytest.approx(100, rel=1e-12)


@given(RECIPES, st.floats(1e-6, 1e6))
def test_a_bigger_batch_is_the_same_glaze(recipe, factor):
    small = result_of(recipe)

    big = result_of({key: factor * parts for key, parts in recipe.items()})

    assert big.unity == pytest.approx(small.unity, rel=1e-12)
    assert big.fired_percent == pytest.approx(small.fired_percent, rel=1e-12)
    assert big.loi_percent == pytest.approx(small.loi_percent, rel=1e-12, abs=1e-12)
    assert big.total_parts == pytest.approx(factor * small.total_parts, rel=1e-12)


@given(RECIPES, st.randoms())
def test_the_order_of_the_lines_changes_no_digit_and_no_word(recipe, random):
    lines = lines_of(recipe)
    shuffled = list(lines)
    random.shuffle(shuffled)

    before, after = unity_formula(lines), unity_formula(shuffled)

    assert after == before
    assert list(after.result.unity) == list(before.result.unity)
    assert list(after.result.fired_percent) == list(before.result.fired_percent)


@given(RECIPES, st.sampled_from(LIBRARY))
def test_a_line_of_nothing_changes_nothing(recipe, key):
    lines = lines_of(recipe)

    with_nothing = [*lines, RecipeLine(key, 0.0, False, analysis_of(key))]

    assert unity_formula(with_nothing) == unity_formula(lines)


@given(RECIPES, st.floats(0.01, 0.99))
def test_a_line_split_in_two_is_the_same_recipe(recipe, fraction):
    split = [
        RecipeLine(key, parts * share, addition, analysis_of(key))
        for key, parts in recipe.items()
        for share, addition in ((fraction, False), (1 - fraction, True))
    ]

    together, apart = result_of(recipe), unity_formula(split).result

    assert apart.unity == pytest.approx(together.unity, rel=1e-12)
    assert apart.total_parts == pytest.approx(together.total_parts, rel=1e-12)


@given(RECIPES, RECIPES)
def test_molecules_of_two_batches_add_up(first, second):
    both = lines_of(first) + lines_of(second)

    molecules = amounts(kept_percent(mixture(both)))
    apart = [
        (amounts(kept_percent(mixture(lines_of(r)))), fsum(r.values())) for r in (first, second)
    ]

    total = fsum(line.parts for line in both)
    expected = {
        oxide: fsum(found.get(oxide, 0.0) * parts for found, parts in apart) / total
        for oxide in molecules
    }
    assert molecules == pytest.approx(expected, rel=1e-12)


def test_colorants_count_but_move_no_flux():
    plain, tinted = result_of(LIMESTONE), result_of(LIMESTONE | {"iron_oxide_red_ideal": 10.0})

    assert tinted.unity.keys() - plain.unity.keys() == {"Fe2O3"}
    assert tinted.total_parts == 110
    assert {o: tinted.unity[o] for o in plain.unity} == pytest.approx(plain.unity, rel=1e-12)


def test_fluorine_and_sulphur_leave_with_the_gases():
    found = result_of({"fluorspar_ideal": 50.0, "gypsum": 50.0})

    assert found.unity == {"CaO": 1.0}
    assert found.fired_percent == {"CaO": 100.0}
    assert found.loi_percent == pytest.approx((28.175 + 67.428) / 2, abs=5e-4)


def test_without_alumina_there_is_no_ratio():
    answer = unity_formula(lines_of({"calcite_ideal": 50.0, "quartz_ideal": 50.0}))

    assert answer.result.sio2_al2o3 is None
    assert "sio2_al2o3" not in answer.doubt


def test_alumina_without_silica_has_a_ratio_of_nothing():
    found = result_of({"calcite_ideal": 50.0, "alumina_calcined": 50.0})

    assert found.sio2_al2o3 == 0.0


def test_a_recipe_without_flux_is_refused():
    with pytest.raises(CompositionError, match="There is no flux in this recipe"):
        result_of({"quartz_ideal": 50.0, "iron_oxide_red_ideal": 50.0})


def test_a_recipe_that_burns_away_is_refused():
    gum = Analysis("gum", {}, loi_percent=100.0)

    with pytest.raises(CompositionError, match="There is no flux in this recipe"):
        unity_formula([RecipeLine("gum", 10.0, False, gum)])


def test_a_blank_loss_counts_as_nothing_and_is_said():
    ash = Analysis("ash", {"CaO": 50.0, "SiO2": 50.0}, name="stove ash")

    answer = unity_formula([RecipeLine("ash", 10.0, False, ash)])

    assert answer.result.loi_percent == 0.0
    assert answer.cautions == ("No loss on ignition is given for stove ash: counted as 0.",)


def test_an_analysis_that_does_not_add_up_is_said():
    sheet = Analysis("spar", {"K2O": 10.0, "SiO2": 80.0}, loi_percent=0.5)

    answer = unity_formula([RecipeLine("spar", 10.0, False, sheet)])

    assert answer.cautions == ("The analysis of spar adds up to 90.5 %.",)


def test_fumes_and_lead_are_said():
    answer = unity_formula(lines_of({"cryolite_ideal": 1.0, "gypsum": 1.0, "white_lead": 1.0}))

    assert answer.cautions == (
        "cryolite, ideal gives off fluorine compounds in the fire: the kiln needs a strong vent.",
        (
            "gypsum (calcium sulphate dihydrate) gives off sulphur oxides in the fire: "
            "the kiln needs a vent."
        ),
        "This recipe holds lead: for checking old recipes only, not for use.",
    )


def test_the_working_is_one_line_and_the_sources_are_named():
    answer = unity_formula(lines_of(LIMESTONE))

    assert answer.working == ("0.264 K2O + 0.736 CaO = 1; 10.2 % of the weight leave in the fire.",)
    assert answer.sources == ("oxides__iupac2021", "materials__wareboard2026")


def test_the_doubt_surrounds_every_number_of_the_answer():
    answer = unity_formula(lines_of(LIMESTONE))

    values = {
        **{f"unity.{oxide}": n for oxide, n in answer.result.unity.items()},
        **{f"fired_percent.{oxide}": n for oxide, n in answer.result.fired_percent.items()},
        "sio2_al2o3": answer.result.sio2_al2o3,
        "loi_percent": answer.result.loi_percent,
    }
    assert answer.doubt.keys() == values.keys()
    assert all(
        answer.doubt[key].low < value < answer.doubt[key].high for key, value in values.items()
    )


def test_a_recipe_needs_neither_numpy_nor_django():
    code = (
        "import sys; from wareboard.core.recipe import unity_formula;"
        "print(sorted({'numpy', 'django', 'importlib.resources'} & set(sys.modules)))"
    )

    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert said.stdout == "[]\n"
