"""A laboratory report on coarse aggregate (coursehero.com, file p2ton3t).

Oven-dry, saturated surface-dry and submerged masses of two stones, with bulk
dry and apparent specific gravity and absorption: the weighings of ASTM C373 by
other names. Printed to 0.01.
"""

import pytest

from wareboard.core.pot import absorption

STONES = [
    (600.5, 614.5, 371.5, 2.47, 2.62, 2.33),
    (259.5, 271.5, 164.5, 2.43, 2.73, 4.62),
]


@pytest.mark.published("aggregate-report", where="coarse aggregate", agreement="0.005")
@pytest.mark.parametrize(
    ("dry_g", "saturated_g", "submerged_g", "bulk", "apparent", "absorbed"), STONES
)
def test_stones_weighed_dry_soaked_and_in_water(
    dry_g, saturated_g, submerged_g, bulk, apparent, absorbed
):
    body = absorption(dry_g, submerged_g, saturated_g).result

    assert body.bulk_density_g_cm3 == pytest.approx(bulk, abs=0.005)
    assert body.apparent_sg == pytest.approx(apparent, abs=0.005)
    assert body.absorption_percent == pytest.approx(absorbed, abs=0.005)
