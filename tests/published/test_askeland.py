"""D. R. Askeland, The Science and Engineering of Materials: porosity of ceramics.

Example 15-8 (silicon carbide) as solved at holooly.com, and problem 15-21
(alumina) as solved in a preview at coursehero.com. The same three weighings
and formulas as ASTM C373. Printed to three or four figures.
"""

import pytest

from wareboard.core.pot import absorption


@pytest.mark.published("askeland", where="example 15-8", agreement="0.05 %, 0.005 g/cm3")
def test_silicon_carbide():
    body = absorption(360, 224, 385).result

    assert body.apparent_porosity_percent == pytest.approx(15.5, abs=0.05)
    assert body.bulk_density_g_cm3 == pytest.approx(2.24, abs=0.005)


@pytest.mark.published("askeland", where="problem 15-21", agreement="0.005 %, 0.00005 g/cm3")
def test_alumina():
    body = absorption(80, 58, 92).result

    assert body.apparent_porosity_percent == pytest.approx(35.29, abs=0.005)
    assert body.bulk_density_g_cm3 == pytest.approx(2.3529, abs=0.00005)
