"""J. Sankey, "Pottery tips" (johnsankey.ca/ptips.html): one coat measured dry and fired.

A shard dipped for two seconds, scratched at 45 degrees when dry, then broken
and scanned edge on after the fire: 0.41 mm dry, 0.20 mm fired.
"""

import pytest

from wareboard.core.coat import fired_coat

DRY_MM = 0.41
FIRED_MM = 0.20


@pytest.mark.published("sankey", where="glaze thickness", agreement="10 %")
def test_half_a_coat_is_left_after_the_fire():
    # The page gives no recipe: packing, loss and densities are the general ones,
    # so an agreement better than a tenth would be luck.
    answer = fired_coat(DRY_MM, loi_percent=8, solid=2.6, packing=0.50, glass_g_cm3=2.45)

    assert answer.result.fired_mm == pytest.approx(FIRED_MM, rel=0.10)
    assert answer.result.ratio == pytest.approx(FIRED_MM / DRY_MM, rel=0.10)


@pytest.mark.published("sankey", where="glaze thickness", agreement="within the doubt")
def test_the_measured_glass_lies_within_the_doubt():
    answer = fired_coat(DRY_MM, loi_percent=8)

    assert answer.doubt["fired_mm"].low < FIRED_MM < answer.doubt["fired_mm"].high
