"""Handbook of Mineralogy, sheet "Anorthite" (Mineral Data Publishing, version 1.2, 2001).

Column 3 is the ideal mineral, column 2 a plagioclase with a tenth of soda, so
its formula has broken numbers. Both are given to 0.01 wt%; the last
digit may be out by one for the atomic weights of 2001.
"""

import pytest

from wareboard.core.chemistry.formula import ideal_analysis


@pytest.mark.published("handbook-of-mineralogy", where="Anorthite, column 3", agreement="0.01 wt%")
@pytest.mark.parametrize(("oxide", "printed"), [("SiO2", 43.19), ("Al2O3", 36.65), ("CaO", 20.16)])
def test_anorthite_has_the_oxides_of_its_formula(oxide, printed):
    assert ideal_analysis("CaAl2Si2O8").oxides[oxide] == pytest.approx(printed, abs=0.01)


@pytest.mark.published("handbook-of-mineralogy", where="Anorthite, column 2", agreement="0.01 wt%")
@pytest.mark.parametrize(
    ("oxide", "printed"),
    [("SiO2", 45.62), ("Al2O3", 35.02), ("CaO", 18.24), ("Na2O", 1.12)],
)
def test_a_plagioclase_with_a_broken_formula_has_its_oxides(oxide, printed):
    plagioclase = ideal_analysis("Na0.10Ca0.90Al1.90Si2.10O8")

    assert plagioclase.oxides[oxide] == pytest.approx(printed, abs=0.01)
