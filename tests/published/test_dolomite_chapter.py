"""Abstract of a book chapter on dolomite (CRC Press, 9780203026328, chapter 9).

"Theoretically, the mineral contains 30.4% CaO (54.3% CaCO3), 21.7 MgO (45.7%
MgCO3), and 47.9% CO2."
"""

import pytest

from wareboard.core.chemistry.formula import ideal_analysis

DOLOMITE = ideal_analysis("CaMg(CO3)2")


@pytest.mark.published("crc-dolomite", where="abstract", agreement="0.2 wt%")
@pytest.mark.parametrize(("oxide", "printed"), [("CaO", 30.4), ("MgO", 21.7)])
def test_dolomite_has_the_oxides_of_its_formula(oxide, printed):
    # With magnesia 40 and dolomite 184, as older books count, MgO is 21.74.
    assert DOLOMITE.oxides[oxide] == pytest.approx(printed, abs=0.2)


@pytest.mark.published("crc-dolomite", where="abstract", agreement="0.2 wt%")
def test_dolomite_loses_the_gas_of_its_formula():
    assert DOLOMITE.loi_percent == pytest.approx(47.9, abs=0.2)
