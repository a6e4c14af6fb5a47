"""Handbook for Australian Potters (Harrison et al.): the look-up table made from its formula.

As quoted in the sheet "Brongniart's Formula: made easy for ceramists", which
takes a relative density of 2.6 throughout. It prints whole grams and whole
millilitres; a half it drops (162.5 is 162), so it agrees to half of one.
"""

import pytest

from wareboard.core.slop import slop

TABLE = [
    (1.05, 81, 1231),
    (1.1, 162, 615),
    (1.15, 244, 410),
    (1.2, 325, 308),
    (1.25, 406, 246),
    (1.3, 487, 205),
    (1.35, 569, 176),
    (1.4, 650, 154),
    (1.45, 731, 137),
    (1.5, 812, 123),
    (1.55, 894, 112),
    (1.6, 975, 103),
    (1.65, 1056, 95),
    (1.7, 1137, 88),
]


@pytest.mark.published(
    "handbook-australian-potters", where="dry matter in 1 litre", agreement="0.5 g"
)
@pytest.mark.parametrize(("sg", "dry_g", "ml_of_100_g"), TABLE)
def test_dry_matter_in_a_litre(sg, dry_g, ml_of_100_g):
    assert slop(sg, 2.6).result.dry_g == pytest.approx(dry_g, abs=0.5 + 1e-9)


@pytest.mark.published(
    "handbook-australian-potters", where="volume containing 100 g of solids", agreement="0.5 ml"
)
@pytest.mark.parametrize(("sg", "dry_g", "ml_of_100_g"), TABLE)
def test_volume_that_holds_a_hundred_grams(sg, dry_g, ml_of_100_g):
    volume_ml = 100_000 / slop(sg, 2.6).result.dry_g

    assert volume_ml == pytest.approx(ml_of_100_g, abs=0.5)
