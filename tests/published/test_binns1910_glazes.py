"""C. F. Binns, The Potter's Craft, 1910: two lead glazes, from formula to batch.

Read in a reproduction of the book's text (bitlit.ru, pages 46 and 48). He counts
with feldspar 557, whiting 100, kaolin 258, calcined kaolin 222, flint 60 and
white lead 258, and rounds the weights of the matt glaze to whole parts.

The glazes hold lead. They are arithmetic here and nothing else.
"""

import pytest

from wareboard.core.chemistry import analysis_of, oxygen_ratio
from wareboard.core.recipe import RecipeLine, unity_formula

BRIGHT = {
    "white_lead": 154.8,
    "calcite_ideal": 30.0,
    "feldspar_potash_ideal": 55.7,
    "kaolinite_ideal": 25.8,
    "quartz_ideal": 48.0,
}
MATT = {
    "white_lead": 129,
    "calcite_ideal": 35,
    "feldspar_potash_ideal": 83,
    "metakaolin_ideal": 33,
    "kaolinite_ideal": 13,
    "quartz_ideal": 14,
}


def formula_of(batch):
    lines = [RecipeLine(key, parts, False, analysis_of(key)) for key, parts in batch.items()]
    return unity_formula(lines).result


@pytest.mark.published("binns1910", where="page 46, base no. 5 as a glaze", agreement="0.5 %")
@pytest.mark.parametrize(
    ("oxide", "printed"),
    [("PbO", 0.6), ("CaO", 0.3), ("K2O", 0.1), ("Al2O3", 0.2), ("SiO2", 1.6)],
)
def test_the_batch_of_the_bright_glaze_leads_back_to_its_formula(oxide, printed):
    formula = formula_of(BRIGHT).unity

    # His white lead of 258 is 0.2 % light, his whiting, kaolin and flint 0.1 %.
    assert formula[oxide] == pytest.approx(printed, rel=5e-3)


@pytest.mark.published("binns1910", where="page 46, batch of glaze", agreement="exact")
def test_the_batch_of_the_bright_glaze_adds_up():
    # Printed 314.3; the five lines above are printed to a tenth.
    assert formula_of(BRIGHT).total_parts == pytest.approx(314.3, abs=1e-9)


@pytest.mark.published("binns1910", where="page 48, matt glaze", agreement="0.012")
@pytest.mark.parametrize(
    ("oxide", "printed"),
    [("PbO", 0.50), ("CaO", 0.35), ("K2O", 0.15), ("Al2O3", 0.35), ("SiO2", 1.54)],
)
def test_the_rounded_batch_of_the_matt_glaze_leads_back_to_its_formula(oxide, printed):
    formula = formula_of(MATT).unity

    # Weights rounded to 1 part: half a part of flint, feldspar and calcined
    # kaolin each is 0.008 + 0.006 + 0.004 of SiO2.
    assert formula[oxide] == pytest.approx(printed, abs=0.012)


@pytest.mark.published("binns1910", where="page 48, rule for matt glazes", agreement="exact")
def test_silica_of_1_5375_makes_the_oxygen_ratio_three_to_two():
    # SiO2 = 3 (1.05 + 1) / 4 for Al2O3 .35: acid oxygen 3, base oxygen 2.
    ratio = oxygen_ratio({"PbO": 0.50, "CaO": 0.35, "K2O": 0.15, "Al2O3": 0.35, "SiO2": 1.5375})

    assert ratio == pytest.approx(1.5, rel=1e-12)
