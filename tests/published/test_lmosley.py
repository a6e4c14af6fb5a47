"""L. Mosley, "Math Tips for Glaze Making": how much powder for a 5 gallon bucket.

The page takes a gallon of slop for 8 lb, less than a gallon of water, and
half of that for powder: 15 lb (6,804 g) for a bucket three quarters full.
"""

import pytest

from wareboard.core.errors import DensityError
from wareboard.core.slop import check_sg, sg_from_dry

US_GALLON_L = 3.785412
POUND_G = 453.592

BUCKET_L = 0.75 * 5 * US_GALLON_L
SOLID = 2.5  # common practice; the page gives none


@pytest.mark.published("lmosley", where="30 lb in 3.75 gallons", agreement="known wrong")
def test_a_slop_of_eight_pounds_a_gallon_is_lighter_than_water():
    with pytest.raises(DensityError):
        check_sg(30 * POUND_G / (1000 * BUCKET_L))


@pytest.mark.xfail(reason="Its slop is lighter than water; so much powder makes it 40 lb.")
@pytest.mark.published("lmosley", where="6,804 grams dry, 30 lb", agreement="1 lb")
def test_the_bucket_with_the_printed_powder_has_the_printed_weight():
    bucket_g = 1000 * BUCKET_L * sg_from_dry(6804, BUCKET_L, SOLID)

    assert bucket_g / POUND_G == pytest.approx(30, abs=1)
