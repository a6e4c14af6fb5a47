"""Seger's cone 4: 0.3 K2O 0.7 CaO 0.5 Al2O3 4.0 SiO2, and its batch from memory.

The formula was read in a ceramics writer's glaze notes (claycraft.blogspot.com,
June 2005, "C/4 Seger High Fire Glaze").
"""

import pytest

from wareboard.core.chemistry import analysis_of
from wareboard.core.recipe import RecipeLine, unity_formula

BATCH = {
    "feldspar_potash_ideal": 83.55,
    "calcite_ideal": 35.0,
    "quartz_ideal": 54.0,
    "kaolinite_ideal": 25.9,
}


@pytest.mark.published("seger", where="from memory: batch of half a formula", agreement="0.5 %")
@pytest.mark.parametrize(
    ("oxide", "printed"), [("K2O", 0.3), ("CaO", 0.7), ("Al2O3", 0.5), ("SiO2", 4.0)]
)
def test_the_batch_of_cone_4_has_the_formula_of_cone_4(oxide, printed):
    lines = [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in BATCH.items()]

    formula = unity_formula(lines).result.unity

    # Seger's feldspar of 557 and kaolin of 259 are 0.1 and 0.3 % off.
    assert formula[oxide] == pytest.approx(printed, rel=5e-3)
