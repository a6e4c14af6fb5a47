"""L. Krakowski, "Basic Internet Glaze Course", part 3: a recipe reduced to unity by hand.

vickihardin.com/articles/glaze-course. Whiting 32, zinc 12, flint 17, dolomite
15, clay 24, with molecular weights 100, 81, 60, 184 and 258.
"""

import pytest

from wareboard.core.chemistry import analysis_of
from wareboard.core.recipe import RecipeLine, unity_formula

RECIPE = {
    "calcite_ideal": 32,
    "zinc_oxide": 12,
    "quartz_ideal": 17,
    "dolomite_ideal": 15,
    "kaolinite_ideal": 24,
}
PRINTED = {"CaO": 0.6362, "MgO": 0.1291, "ZnO": 0.2347, "Al2O3": 0.1475, "SiO2": 0.7436}


@pytest.mark.published("krakowski", where="part 3, unity", agreement="0.5 %")
@pytest.mark.parametrize(("oxide", "printed"), PRINTED.items())
def test_a_recipe_reduced_by_hand_has_the_unity_formula_printed(oxide, printed):
    lines = [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in RECIPE.items()]

    formula = unity_formula(lines).result.unity

    # Her 81 for zinc oxide (81.38) is 0.5 % light, the other weights 0.2 % at most.
    assert formula[oxide] == pytest.approx(printed, rel=5e-3)
