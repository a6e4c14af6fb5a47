"""J. Britt, "Substituting Whiting and Silica for Wollastonite" (2017), quoting E. Bastarache.

johnbrittpottery.blogspot.com/2017/09: 0.863 of whiting and 0.513 of silica for
one part of wollastonite, "not perfect but pretty close". The amounts that keep
the formula are 0.862 and 0.517.
"""

import pytest

from wareboard.core.chemistry import analysis_of
from wareboard.core.recipe import RecipeLine, unity_formula

REST = {"feldspar_potash_ideal": 45.0, "kaolinite_ideal": 16.0, "quartz_ideal": 20.0}
WITH_WOLLASTONITE = REST | {"wollastonite_ideal": 19.0}
WITH_WHITING = REST | {"calcite_ideal": 19 * 0.863, "quartz_ideal": 20.0 + 19 * 0.513}


def formula_of(recipe):
    lines = [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in recipe.items()]
    return unity_formula(lines).result.unity


@pytest.mark.published("britt2017", where="19 parts of wollastonite", agreement="0.3 %")
@pytest.mark.parametrize("oxide", ["K2O", "CaO", "Al2O3", "SiO2"])
def test_whiting_and_silica_as_printed_keep_the_unity_formula(oxide):
    before = formula_of(WITH_WOLLASTONITE)

    after = formula_of(WITH_WHITING)

    # 0.004 of silica too little for each of 19 parts, of 66 in all: 0.2 % of it.
    assert after[oxide] == pytest.approx(before[oxide], rel=3e-3)


@pytest.mark.published("britt2017", where="0.863 and 0.513", agreement="1 %")
def test_one_part_of_wollastonite_is_worth_the_whiting_and_silica_printed():
    wollastonite = analysis_of("wollastonite_ideal").oxides
    whiting = analysis_of("calcite_ideal").oxides["CaO"]

    assert wollastonite["CaO"] / whiting == pytest.approx(0.863, rel=0.01)
    assert wollastonite["SiO2"] / 100 == pytest.approx(0.513, rel=0.01)
