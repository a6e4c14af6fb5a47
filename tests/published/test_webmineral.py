"""Webmineral: ideal minerals, elements and oxides in weight per cent to 0.01.

Pages "Orthoclase Mineral Data" and webmin.mindat.org/data/Talc.shtml.
"""

import pytest

from wareboard.core.chemistry.elements import oxide_to_element_percent
from wareboard.core.chemistry.formula import ideal_analysis

ORTHOCLASE = {"K2O": 16.92, "Al2O3": 18.32, "SiO2": 64.76}
TALC = {"MgO": 31.88, "SiO2": 63.37}


@pytest.mark.published("webmineral", where="Orthoclase Mineral Data", agreement="0.006 wt%")
@pytest.mark.parametrize(("oxide", "printed"), ORTHOCLASE.items())
def test_orthoclase_has_the_oxides_of_its_formula(oxide, printed):
    # Half of the last digit, and 0.001 for their older atomic weights.
    assert ideal_analysis("KAlSi3O8").oxides[oxide] == pytest.approx(printed, abs=0.006)


@pytest.mark.published("webmineral", where="Talc.shtml", agreement="0.006 wt%")
@pytest.mark.parametrize(("oxide", "printed"), TALC.items())
def test_talc_has_the_oxides_of_its_formula(oxide, printed):
    assert ideal_analysis("Mg3Si4O10(OH)2").oxides[oxide] == pytest.approx(printed, abs=0.006)


@pytest.mark.published("webmineral", where="Talc.shtml", agreement="0.006 wt%")
def test_talc_loses_the_water_of_its_formula():
    assert ideal_analysis("Mg3Si4O10(OH)2").loi_percent == pytest.approx(4.75, abs=0.006)


@pytest.mark.published("webmineral", where="Orthoclase Mineral Data", agreement="0.01 wt%")
@pytest.mark.parametrize(("oxide", "printed"), [("K2O", 14.05), ("Al2O3", 9.69), ("SiO2", 30.27)])
def test_the_elements_of_orthoclase_go_with_its_oxides(oxide, printed):
    element = oxide_to_element_percent(oxide, ORTHOCLASE[oxide])

    # Both columns are rounded to 0.01.
    assert element == pytest.approx(printed, abs=0.01)


@pytest.mark.published("webmineral", where="Talc.shtml", agreement="0.01 wt%")
@pytest.mark.parametrize(("oxide", "printed"), [("MgO", 19.23), ("SiO2", 29.62)])
def test_the_elements_of_talc_go_with_its_oxides(oxide, printed):
    assert oxide_to_element_percent(oxide, TALC[oxide]) == pytest.approx(printed, abs=0.01)
