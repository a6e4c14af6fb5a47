"""A clay supplier's "Glaze Mixing Instructions" (clayartcenter.net/glaze-mixing).

48 oz of water to 5 lb of powder, said to yield "approximately 0.75 gallons".
The two statements do not go together; what powder and water do fill is worked
out in the tests of the core.
"""

import pytest

from wareboard.core.slop import sg_from_dry

US_GALLON_L = 3.785412
OUNCE_G = 28.349523

DRY_G = 5 * 16 * OUNCE_G
YIELD_L = 0.75 * US_GALLON_L
SOLID = 2.5  # common practice; the page gives none


@pytest.mark.xfail(reason="So much slop of this powder takes 20 oz more water than the page gives.")
@pytest.mark.published("clayartcenter", where="5 lb, 48 oz, 0.75 gallons", agreement="10 %")
def test_the_printed_yield_holds_the_printed_water():
    slop_g = 1000 * YIELD_L * sg_from_dry(DRY_G, YIELD_L, SOLID)

    water_g = slop_g - DRY_G

    # "Approximately" is taken as a tenth.
    assert water_g / OUNCE_G == pytest.approx(48, rel=0.1)
