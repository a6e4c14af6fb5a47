"""How far a kiln can have come since a line of its log."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.firing.log import firing_log
from wareboard.core.firing.reach import (
    AIR_C,
    ANY_KILN,
    READ_C,
    SLOW_KILN,
    Pace,
    pace_of,
    reach_c,
)


@given(from_c=st.floats(-20, 1400), hours=st.floats(0, 30), later_h=st.floats(0, 30))
def test_the_longer_ago_the_further_a_kiln_may_have_come(from_c, hours, later_h):
    low_c, high_c = reach_c(from_c, hours)

    lower_c, higher_c = reach_c(from_c, hours + later_h)

    assert low_c <= from_c <= high_c
    assert lower_c <= low_c + 1e-9
    assert higher_c >= high_c - 1e-9


@given(from_c=st.floats(AIR_C, 1400))
def test_in_no_time_only_the_reading_may_differ(from_c):
    assert reach_c(from_c, 0.0) == pytest.approx((from_c - READ_C, from_c + READ_C))


@given(from_c=st.floats(AIR_C, 1400), hours=st.floats(0, 500))
def test_no_kiln_cools_below_the_air(from_c, hours):
    assert reach_c(from_c, hours)[0] >= AIR_C - READ_C


@given(from_c=st.floats(-20, AIR_C), hours=st.floats(0, 500))
def test_a_kiln_colder_than_the_air_does_not_cool(from_c, hours):
    assert reach_c(from_c, hours)[0] == pytest.approx(from_c - READ_C)


@given(one=st.floats(0, 6), more=st.floats(0, 6))
def test_cooling_in_two_steps_is_cooling_in_one(one, more):
    pace = Pace(600.0, 0.5)
    between_c = reach_c(1200, one, pace)[0] + READ_C

    assert reach_c(between_c, more, pace)[0] == pytest.approx(reach_c(1200, one + more, pace)[0])


def test_half_of_the_heat_over_the_air_is_gone_after_an_hour_where_the_pace_says_so():
    assert reach_c(AIR_C + 800, 1.0, Pace(100.0, 0.5)) == pytest.approx(
        (AIR_C + 400 - READ_C, AIR_C + 900 + READ_C)
    )


def test_without_a_log_a_kiln_is_any_kiln():
    assert pace_of([]) == ANY_KILN


def test_lines_closer_than_a_quarter_of_an_hour_tell_no_pace():
    assert pace_of([firing_log([0, 0.1], [20, 120])]) == ANY_KILN


def test_a_log_that_only_climbed_tells_nothing_of_cooling():
    pace = pace_of([firing_log([0, 1, 2], [20, 200, 300])])

    # 180 °C in its fastest hour, and twice that at most.
    assert (pace.climb_c_h, pace.cooling_share) == (
        pytest.approx(360.0),
        ANY_KILN.cooling_share,
    )


def test_the_fastest_of_several_logs_counts():
    slow, fast = firing_log([0, 1], [20, 160]), firing_log([0, 1], [20, 220])

    assert pace_of([slow, fast]).climb_c_h == pytest.approx(400.0)


def test_a_kiln_that_lost_a_third_of_its_heat_in_an_hour_may_lose_that_twice():
    hours = np.array([0.0, 1.0, 2.0, 3.0])
    cooling = firing_log(hours, AIR_C + 1200 * (2 / 3) ** hours)

    # Twice as fast, an hour does what two hours did.
    assert pace_of([cooling]).cooling_share == pytest.approx(1 - (2 / 3) ** 2)


def test_a_slow_kiln_is_still_given_room_and_a_wild_log_no_more_than_any_kiln():
    candle = firing_log([0, 4, 8], [20, 90, 90])
    wild = firing_log([0, 0.3, 0.6], [20, 1200, 300])

    assert pace_of([candle]).climb_c_h == SLOW_KILN.climb_c_h
    assert pace_of([wild]) == ANY_KILN
    assert pace_of([firing_log([0, 1], [1200, 1190])]).cooling_share == SLOW_KILN.cooling_share
