"""T. Buck, "density of glaze slurries/slops", potters' mailing list, 14 August 1999.

subject23560 prints the weight of 200 ml beside each density, to 0.01 g/ml.
"""

import pytest

from wareboard.core.slop import density_from_bottle

PAIRS = [(285, 1.42), (295, 1.47), (305, 1.53), (315, 1.58), (330, 1.65), (335, 1.67)]


@pytest.mark.published("tombuck1999", where="spraying, dipping, brushing", agreement="0.005")
@pytest.mark.parametrize(("slop_g", "density"), PAIRS)
def test_two_hundred_millilitres_have_the_printed_density(slop_g, density):
    sg = density_from_bottle(slop_g, 0, 200).result.sg

    assert sg == pytest.approx(density, abs=0.005 + 1e-9)
