"""U.S. Geological Survey, certificate of basalt BHVO-2 (1998): elements beside oxides.

crustal.usgs.gov/geochemical_reference_standards/basaltbhvo2.html. Both columns
were rounded from the same mean, so a pair agrees within half of the last digit
of each.
"""

import pytest

from wareboard.core.chemistry.elements import element_to_oxide_percent, oxide_to_element_percent

PAIRS = [
    ("Al2O3", 7.16, 0.01, 13.5, 0.1),
    ("CaO", 8.17, 0.01, 11.4, 0.1),
    ("Fe2O3", 8.63, 0.01, 12.3, 0.1),
    ("K2O", 0.43, 0.01, 0.52, 0.01),
    ("MgO", 4.36, 0.01, 7.23, 0.01),
    ("Na2O", 1.64, 0.01, 2.22, 0.01),
    ("P2O5", 0.12, 0.01, 0.27, 0.01),
    ("SiO2", 23.3, 0.1, 49.9, 0.1),
    ("TiO2", 1.63, 0.01, 2.73, 0.01),
]


@pytest.mark.published("usgs-bhvo2", where="recommended values", agreement="rounding of both")
@pytest.mark.parametrize(("oxide", "element", "element_step", "printed", "step"), PAIRS)
def test_the_element_gives_the_oxide_printed_beside_it(oxide, element, element_step, printed, step):
    found = element_to_oxide_percent(oxide, element)
    rounding = element_to_oxide_percent(oxide, element_step / 2) + step / 2

    assert found == pytest.approx(printed, abs=rounding)


@pytest.mark.published("usgs-bhvo2", where="recommended values", agreement="rounding of both")
@pytest.mark.parametrize(("oxide", "printed", "step", "given", "given_step"), PAIRS)
def test_the_oxide_gives_the_element_printed_beside_it(oxide, printed, step, given, given_step):
    found = oxide_to_element_percent(oxide, given)
    rounding = oxide_to_element_percent(oxide, given_step / 2) + step / 2

    assert found == pytest.approx(printed, abs=rounding)
