"""T. Frederich of the cone maker, potters' mailing list, message 60350.

An example for one cone: from 1 to 4 o'clock takes 27 °F, from 4 to 6 o'clock
8 °F. Nothing in the bending law was fitted, and the example is given to a whole
°F (8 ± 0.5 alone is 6 %), so the ratio is asked for within 12 %.
"""

from math import log

import pytest

from wareboard.core.firing.bending import bend_from_clock, progress_from_bend


@pytest.mark.published("potters.org 60350", where="1 to 4 and 4 to 6 o'clock", agreement="12 %")
def test_the_last_two_hours_of_the_clock_go_over_as_quickly_as_the_maker_says():
    at_one, at_four, at_six = (log(progress_from_bend(bend_from_clock(h))) for h in (1, 4, 6))

    ratio = (at_four - at_one) / (at_six - at_four)

    assert ratio == pytest.approx(27 / 8, rel=0.12)


@pytest.mark.published("potters.org 60350", where="end point", agreement="exact")
def test_a_cone_is_down_at_a_bend_of_90_degrees_which_the_maker_calls_6_o_clock():
    assert bend_from_clock(6.0) == 90.0
    assert progress_from_bend(90.0) == pytest.approx(1.0, rel=1e-12)
