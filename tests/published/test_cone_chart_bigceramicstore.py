"""A supplier's table in °F at 27 °F/h (bigceramicstore.com), for three stoneware cones."""

import pytest

from wareboard.core.firing.chain import degrees_past_c
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series


@pytest.mark.published("bigceramicstore.com", where="27 °F/h", agreement="0.78 °C", copied=True)
@pytest.mark.parametrize(("cone", "to_f"), [("8", 2212.0), ("9", 2235.0), ("10", 2284.0)])
def test_a_cone_in_a_very_slow_climb_falls_within_rounding_of_its_printed_fahrenheit(cone, to_f):
    one = cone_series().table.only([cone])
    log = firing_log([0.0, (to_f - 68.0) / 27.0], [20.0, (to_f - 32.0) / 1.8])

    # Whole °F there, whole °C here: half a degree of each.
    assert degrees_past_c(one, progress(one, log))[0] == pytest.approx(0.0, abs=0.78)
