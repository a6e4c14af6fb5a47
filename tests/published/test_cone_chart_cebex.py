"""A supplier's title "cone 13, 1331-1348 C" (cebex.se): 60 and 150 °C/h."""

import pytest

from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series


@pytest.mark.published("cebex.se", where="title of cone 13", agreement="1e-6", copied=True)
@pytest.mark.parametrize(("rate_c_h", "to_c"), [(60.0, 1331.0), (150.0, 1348.0)])
def test_cone_13_falls_at_both_ends_of_its_printed_range(rate_c_h, to_c):
    log = firing_log([0.0, (to_c - 20.0) / rate_c_h], [20.0, to_c])

    assert progress(cone_series().table.only(["13"]), log)[0] == pytest.approx(1.0, abs=1e-6)
