"""A cone half way down, by its angle or by the clock."""

from math import log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import ShapeError
from wareboard.core.firing.bending import (
    bend_from_clock,
    bend_from_progress,
    clock_from_bend,
    degrees_short_c,
    progress_from_bend,
    read_clock,
)


@pytest.mark.parametrize(
    ("bend_deg", "reached"),
    [(10, 0.084), (15, 0.238), (20, 0.348), (30, 0.505), (45, 0.669), (60, 0.794), (75, 0.900)],
)
def test_the_share_of_each_angle_is_the_one_worked_out_by_hand(bend_deg, reached):
    # ln(tan(θ/2) / tan 4°) / 2.660, to three digits.
    assert progress_from_bend(bend_deg) == pytest.approx(reached, abs=6e-4)


def test_a_cone_has_had_nothing_as_set_and_everything_when_down():
    assert progress_from_bend(8.0) == pytest.approx(0.0, abs=1e-15)
    assert progress_from_bend(90.0) == pytest.approx(1.0, rel=1e-15)
    assert bend_from_progress(7.0) == pytest.approx(90.0, rel=1e-14)


@given(bend_deg=st.floats(8.0, 90.0))
def test_angle_to_share_and_back_is_the_same_angle(bend_deg):
    assert bend_from_progress(progress_from_bend(bend_deg)) == pytest.approx(bend_deg, rel=1e-12)


@given(reached=st.floats(0.05, 0.95))
def test_a_cone_bends_faster_the_farther_it_leans(reached):
    # dθ/dP ∝ sin θ, and sin grows up to 90°.
    step = 0.01

    before = bend_from_progress(reached) - bend_from_progress(reached - step)
    after = bend_from_progress(reached + step) - bend_from_progress(reached)

    assert after > before


def test_cone_10_at_45_degrees_is_ten_degrees_short():
    # 0.40 of its span of 24.53 °C: 34 °C of the chart over ln 4.
    assert degrees_short_c(45.0, 34 / log(4)) == pytest.approx(9.85, abs=0.05)
    assert degrees_short_c(90.0, 24.53) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("bend_deg", [7.9, 90.1, float("nan")])
def test_an_angle_outside_the_bend_is_refused(bend_deg):
    with pytest.raises(ShapeError) as refused:
        progress_from_bend(bend_deg)

    assert refused.value.field == "bend_deg"
    assert refused.value.accepted == "8 to 90°"


def test_a_cone_as_set_has_no_degrees_to_go():
    with pytest.raises(ShapeError) as refused:
        degrees_short_c(8.0, 24.5)

    assert refused.value.say == "A cone that stands as set says only that it has far to go."


def test_less_than_no_heat_work_is_refused():
    with pytest.raises(ShapeError) as refused:
        bend_from_progress(-0.1)

    assert refused.value.field == "progress"


@pytest.mark.parametrize(
    ("clock", "bend_deg"), [(12, 8.0), (0, 8.0), (3, 49.0), (6, 90.0), (7, 90.0)]
)
def test_the_hours_from_12_to_6_are_equal_steps_of_the_bend(clock, bend_deg):
    assert bend_from_clock(clock) == pytest.approx(bend_deg, rel=1e-15)


@given(bend_deg=st.floats(8.0, 90.0))
def test_angle_to_clock_and_back_is_the_same_angle(bend_deg):
    assert bend_from_clock(clock_from_bend(bend_deg)) == pytest.approx(bend_deg, rel=1e-12)


def test_whoever_ends_at_5_sees_the_same_cone_earlier_on_the_dial():
    assert bend_from_clock(5.0, down_clock=5.0) == 90.0
    assert bend_from_clock(2.5, down_clock=5.0) == bend_from_clock(3.0)


@pytest.mark.parametrize("clock", [-1, 9.5, 11, 13, float("nan")])
def test_an_hour_that_no_falling_cone_points_to_is_refused(clock):
    with pytest.raises(ShapeError) as refused:
        read_clock(clock)

    assert refused.value.field == "clock"


@given(clock=st.floats(0.0, 9.0))
def test_the_doubt_of_an_hour_holds_both_ways_of_naming_the_end(clock):
    reading = read_clock(clock)
    by_five = progress_from_bend(bend_from_clock(clock, down_clock=5.0))

    assert reading.low <= reading.progress <= by_five
    assert reading.high is None or by_five <= reading.high


@pytest.mark.parametrize("clock", [4.5, 5, 6, 7])
def test_near_the_end_of_the_dial_there_is_no_upper_end_and_it_is_said(clock):
    reading = read_clock(clock)

    assert reading.high is None
    assert reading.caution.endswith("How far past it the cone is cannot be seen.")


def test_an_hour_higher_up_says_that_the_naming_differs():
    reading = read_clock(3)

    assert reading.progress == pytest.approx(progress_from_bend(49.0), rel=1e-15)
    assert reading.caution.startswith("The hour is where the tip points, 12 as set;")
