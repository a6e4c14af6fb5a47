"""A clay supplier's "Glaze Mixing Instructions" (clayartcenter.net/glaze-mixing).

48 oz of water to 5 lb of powder, said to yield "approximately 0.75 gallons".
The two statements do not go together: the volumes add up to 0.6 gallons.
"""

import pytest

from wareboard.core.slop import sg_from_dry

US_GALLON_L = 3.785412
OUNCE_G = 28.349523

DRY_G = 5 * 16 * OUNCE_G
WATER_G = 48 * OUNCE_G


@pytest.mark.published("clayartcenter", where="5 lb, 48 oz, 0.75 gallons", agreement="known wrong")
def test_the_printed_yield_is_a_quarter_more_than_powder_and_water_fill():
    mixed_l = (DRY_G / 2.5 + WATER_G) / 1000

    assert 0.75 * US_GALLON_L / mixed_l == pytest.approx(1.25, abs=0.02)


@pytest.mark.published("clayartcenter", where="5 lb, 48 oz, 0.75 gallons", agreement="known wrong")
def test_the_printed_yield_and_the_printed_water_give_two_different_slops():
    by_yield = sg_from_dry(DRY_G, 0.75 * US_GALLON_L, 2.5)
    by_water = sg_from_dry(DRY_G, (DRY_G / 2.5 + WATER_G) / 1000, 2.5)

    # 80 oz of powder and 48 of water fill 80/2.5 + 48 = 80 oz of water: 128/80.
    assert by_water == pytest.approx(1.60, rel=1e-12)
    assert by_water - by_yield > 0.1
