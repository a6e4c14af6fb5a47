"""Pottery Making Illustrated, "In the Studio: Math for Potters" (ceramicartsnetwork.org).

"Most stoneware clay bodies shrink around 12.5%": an eighth, so that 8 inches
wet become 7 fired.
"""

import pytest

from wareboard.core.pot import shrink, wet_for_fired_mm

INCH_MM = 25.4


@pytest.mark.published("math-for-potters", where="calculating shrinkage", agreement="exact")
def test_eight_inches_wet_become_seven_fired():
    assert shrink(8 * INCH_MM, 8 * INCH_MM, 7 * INCH_MM).result.total_percent == pytest.approx(12.5)
    assert wet_for_fired_mm(7 * INCH_MM, 12.5) == pytest.approx(8 * INCH_MM)
