"""School books on the frustum of a cone: buckets with printed areas and volumes.

NCERT class 10 as solved at cuemath.com takes pi for 3.14, which is 0.05 % low;
a board question solved at byjus.com and in R. S. Aggarwal (chapter 19C,
question 3) takes 22/7, 0.04 % high; one solved at esaral.com leaves pi
standing and is exact.
"""

import math

import pytest

from wareboard.core.pot import pot


@pytest.mark.published("ncert", where="bucket of 10, 20 and 30 cm", agreement="0.06 %")
def test_a_bucket_of_ten_twenty_and_thirty_centimetres():
    shape = pot([(10, 0), (20, 30)]).result

    assert shape.displaced_ml == pytest.approx(21_980, rel=6e-4)
    assert 100 * shape.outside_dm2 == pytest.approx(3292.604, rel=6e-4)
    assert 100 * shape.foot_dm2 == pytest.approx(314, rel=6e-4)


@pytest.mark.published("aggarwal", where="19C, question 3", agreement="0.05 %")
def test_a_bucket_fifteen_centimetres_deep_holds_28_49_litres():
    shape = pot([(21, 0), (28, 15)]).result

    assert shape.displaced_ml == pytest.approx(28_490, rel=5e-4)


@pytest.mark.published("esaral", where="frustum 9 cm thick", agreement="exact")
def test_a_frustum_nine_centimetres_thick():
    shape = pot([(2, 0), (14, 9)]).result

    assert shape.displaced_ml == pytest.approx(684 * math.pi, rel=1e-12)
    assert 100 * (shape.outside_dm2 - shape.foot_dm2) == pytest.approx(240 * math.pi, rel=1e-12)
