"""Cone 6 in °F beside °C, on the listing at noveltyhorse.tech and in the potters' °C chart.

2232 °F at 108 °F/h (noveltyhorse.tech; also potters.org 81597). That cone 6 is
1222 °C at 60 °C/h was recalled from the maker's chart, not read.
"""

import pytest

from wareboard.core.units import TEMP_C


@pytest.mark.published(
    "cone chart, from memory", where="cone 6, 2232 °F beside 1222 °C", agreement="0.5 °C"
)
def test_a_cone_temperature_typed_in_fahrenheit_is_recognised():
    slips = TEMP_C.likely_slips(2232.0)

    assert [(slip.unit, round(value)) for slip, value in slips] == [("f", 1222)]
