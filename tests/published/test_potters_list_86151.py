"""Potters' mailing list, message 86151: a cone set at 30° instead of 8° reads half a cone cool.

A rule of thumb from one kiln: taken as good to a quarter of a cone.
"""

from math import log

import pytest

from wareboard.core.firing.bending import progress_from_bend
from wareboard.core.firing.series import cone_series


@pytest.mark.published("potters.org 86151", where="cone set at 30°", agreement="0.25 cone")
def test_a_cone_10_set_at_30_degrees_falls_half_a_cone_early():
    table = cone_series().table
    nine, ten = table.ordinary_c[[table.cones.index("9"), table.cones.index("10")]]
    still_needed = 1.0 - progress_from_bend(30.0)

    early_c = -table.only(["10"]).low_span_c[0] * log(still_needed)

    assert early_c / (ten - nine) == pytest.approx(0.5, abs=0.25)
