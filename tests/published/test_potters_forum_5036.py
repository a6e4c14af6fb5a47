"""A potters' forum, thread 5036: what holds did to one potter's cones.

The kiln, the probe and the rate near the top are as told, the reading of the
pack is to a whole cone: half a cone is the finest that can be asked.
"""

import pytest

from wareboard.core.firing.chain import read_chain
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series


def cones_after_hold(end_c: float, minutes: float) -> float:
    """Reading of a 60 °C/h climb and a hold, as a number for whole cones."""
    climb_h = (end_c - 20.0) / 60.0
    log = firing_log([0.0, climb_h, climb_h + minutes / 60.0], [20.0, end_c, end_c])
    table = cone_series().table
    reading = read_chain(table, progress(table, log))
    return int(reading.cone) + reading.fraction


@pytest.mark.published("ceramicartsdaily forum 5036", where="cone 6", agreement="half a cone")
def test_forty_minutes_at_the_end_of_cone_6_make_cone_8():
    assert cones_after_hold(1222.0, 40.0) == pytest.approx(8.0, abs=0.5)


@pytest.mark.published("ceramicartsdaily forum 5036", where="cone 4", agreement="half a cone")
@pytest.mark.xfail(reason="the law counts this hold 0.75 of a cone less than the potter saw")
def test_seventy_five_minutes_at_the_end_of_cone_4_make_cone_6():
    assert cones_after_hold(1162.0, 75.0) == pytest.approx(6.0, abs=0.5)
