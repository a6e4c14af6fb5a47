"""S. Hill, handout of a workshop on once-firing, 2009 (cone6pots.ning.com).

"100 °F/h to 2250 °F and hold until cone 8 falls (up to 1 h)".
"""

import pytest

from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series

TOP_C = (2250.0 - 32.0) / 1.8
CLIMB_H = (2250.0 - 68.0) / 100.0


@pytest.mark.published("hill2009", where="last stage", agreement="within the printed hour")
def test_cone_8_stands_when_the_hold_begins_and_is_down_within_the_hour():
    one = cone_series().table.only(["8"])
    climb = firing_log([0.0, CLIMB_H], [20.0, TOP_C])
    held = firing_log([0.0, CLIMB_H, CLIMB_H + 1.0], [20.0, TOP_C, TOP_C])

    assert progress(one, climb)[0] < 1.0
    assert progress(one, held)[0] > 1.0
