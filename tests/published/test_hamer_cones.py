"""Hamer and Hamer's rule for Seger cones 5 to 10, quoted in a mailing-list post of 2001.

Cone 6 is 0.3 K2O 0.7 CaO 0.6 Al2O3 6 SiO2; each step adds 0.1 Al2O3 and 1 SiO2.
The batches are made by hand with the round weights of the old textbooks.
"""

import pytest

from wareboard.core.chemistry import analysis_of
from wareboard.core.recipe import RecipeLine, unity_formula

FELDSPAR, WHITING, KAOLIN, FLINT = 557, 100, 258, 60


@pytest.mark.published("hamer", where="rule for cones 5 to 10, as quoted", agreement="0.5 %")
@pytest.mark.parametrize("cone", [5, 6, 7, 8, 9, 10])
def test_a_batch_made_by_hand_has_the_formula_of_the_rule(cone):
    kaolin = cone / 10 - 0.3
    batch = {
        "feldspar_potash_ideal": 0.3 * FELDSPAR,
        "calcite_ideal": 0.7 * WHITING,
        "kaolinite_ideal": kaolin * KAOLIN,
        "quartz_ideal": (cone - 0.3 * 6 - kaolin * 2) * FLINT,
    }
    lines = [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in batch.items()]

    answer = unity_formula(lines).result

    # The round weights are 0.06 to 0.14 % off.
    printed = {"K2O": 0.3, "CaO": 0.7, "Al2O3": cone / 10, "SiO2": cone}
    assert answer.unity == pytest.approx(printed, rel=5e-3)
    assert answer.sio2_al2o3 == pytest.approx(10, rel=5e-3)
