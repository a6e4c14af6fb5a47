"""Potters' mailing list, message 81597: cone 6 at three rates, in °F."""

import pytest

from wareboard.core.firing.chain import degrees_past_c
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series


@pytest.mark.published("potters.org 81597", where="cone 6", agreement="0.78 °C", copied=True)
@pytest.mark.parametrize(("rate_f_h", "to_f"), [(27.0, 2165.0), (108.0, 2232.0), (270.0, 2269.0)])
def test_cone_6_falls_within_rounding_of_its_printed_fahrenheit(rate_f_h, to_f):
    one = cone_series().table.only(["6"])
    log = firing_log([0.0, (to_f - 68.0) / rate_f_h], [20.0, (to_f - 32.0) / 1.8])

    # Whole °F there, whole °C here: half a degree of each.
    assert degrees_past_c(one, progress(one, log))[0] == pytest.approx(0.0, abs=0.78)
