"""U.S. Geological Survey, "Wollastonite Statistics and Information": theory to 0.1 wt%."""

import pytest

from wareboard.core.chemistry.formula import ideal_analysis


@pytest.mark.published("usgs-wollastonite", where="first sentence", agreement="0.05 wt%")
@pytest.mark.parametrize(("oxide", "printed"), [("CaO", 48.3), ("SiO2", 51.7)])
def test_wollastonite_has_the_oxides_of_its_formula(oxide, printed):
    assert ideal_analysis("CaSiO3").oxides[oxide] == pytest.approx(printed, abs=0.05)
