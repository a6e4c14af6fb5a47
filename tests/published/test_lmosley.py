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


@pytest.mark.published("lmosley", where="30 lb in 3.75 gallons", agreement="known wrong")
def test_a_slop_of_eight_pounds_a_gallon_is_lighter_than_water():
    with pytest.raises(DensityError):
        check_sg(30 * POUND_G / (1000 * BUCKET_L))


@pytest.mark.published("lmosley", where="6,804 grams dry", agreement="known wrong")
def test_its_powder_makes_a_bucket_too_thin_to_dip_in():
    sg = sg_from_dry(6804, BUCKET_L, 2.5)

    # Slops to dip in are weighed at 1.53 to 1.58 (T. Buck, as in test_tombuck1999).
    assert sg < 1.53 - 0.2
