"""The rate now, and a firing beside a good one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.firing.beside import (
    Milestone,
    beside,
    minutes_in_doubt,
    next_milestone,
    rate_c_h,
)
from wareboard.core.firing.log import firing_log

GOOD = firing_log([0, 2, 4, 12, 16, 16.5, 26.5], [20, 90, 90, 600, 1240, 1240, 240])
MILESTONES = [
    Milestone("body reduction", 900),
    Milestone("no more mist", 120),
    Milestone("cone", 1240),
]


@given(slope=st.floats(-300, 300), long_h=st.floats(0.2, 3.0))
def test_the_rate_of_a_straight_line_is_its_slope(slope, long_h):
    hours = np.linspace(5.0, 5.0 + long_h, 7)

    rate = rate_c_h(firing_log(hours, 900 + slope * (hours - 5.0)))

    assert rate == pytest.approx(slope, rel=1e-9, abs=1e-9)


def test_only_the_last_hour_counts():
    log = firing_log([0, 5, 5.5, 6], [20, 900, 930, 960])

    assert rate_c_h(log) == pytest.approx(60, rel=1e-12)
    assert rate_c_h(log, over_h=6) > 100


@given(shares=st.lists(st.floats(0, 1), max_size=6))
def test_lines_put_in_between_do_not_change_the_rate(shares):
    log = firing_log([0, 1, 1.4, 1.8, 2.1], [20, 100, 180, 200, 260])
    hours = np.union1d(log.hours, 2.1 * np.array(shares))
    fuller = firing_log(hours, np.interp(hours, log.hours, log.temp_c))

    assert rate_c_h(fuller) == pytest.approx(rate_c_h(log), rel=1e-9)


def test_noise_of_one_degree_every_second_leaves_the_rate_within_a_degree_an_hour():
    rng = np.random.default_rng(3)
    hours = np.arange(0, 1.5, 1 / 3600)

    rate = rate_c_h(firing_log(hours, 900 + 80 * hours + rng.normal(0, 1, hours.size)))

    # Two points a second apart would be off by 5,000 °C/h; here 12^½ / 3600^½ = 0.06.
    assert rate == pytest.approx(80, abs=0.3)


def test_less_than_ten_minutes_is_no_rate():
    assert rate_c_h(firing_log([0, 0.16], [20, 40])) is None


@pytest.mark.parametrize(
    ("hours", "temp_c", "behind"), [(14, 920, 0.0), (14.5, 920, 30.0), (13.5, 920, -30.0)]
)
def test_minutes_behind_are_taken_at_the_same_temperature(hours, temp_c, behind):
    there = beside(GOOD, firing_log([0, hours], [20, temp_c]))

    # The good one goes from 600 at 12 h to 1240 at 16 h: 920 at 14 h.
    assert there.minutes_behind == pytest.approx(behind, abs=1e-9)
    assert (there.at_c, there.cooling) == (temp_c, False)


def test_a_stall_makes_it_later_and_later():
    stalled = firing_log([0, 14, 15], [20, 920, 920])

    assert beside(GOOD, stalled).minutes_behind == pytest.approx(60, abs=1e-9)


# Six degrees each, nine times in ten: 1.645 · 6 · √2 °C, here at the 160 °C/h of the good one.
@pytest.mark.parametrize("rate", [3, 160, 300])
def test_minutes_behind_are_in_doubt_by_the_climb_of_the_good_one_not_by_the_own(rate):
    log = firing_log([0, 13, 14], [20, 920 - rate, 920])

    assert beside(GOOD, log).half_minutes == pytest.approx(13.96 * 60 / 160, abs=0.01)


def test_at_the_end_of_the_good_one_its_last_climb_tells_the_doubt():
    there = beside(GOOD, firing_log([0, 17.0], [20, 1239]))

    # It held its peak of 1240 °C until 16.5 h; 14.96 °C less it passed 14.96/160 h before 16 h.
    assert there.minutes_behind == pytest.approx(60 + 60 / 160, abs=1e-9)
    changes = (0.5 + 14.96 / 160) / 14.96
    assert there.half_minutes == pytest.approx(13.96 * changes * 60, abs=0.01)


def test_where_the_good_one_held_the_whole_hold_is_in_doubt():
    there = beside(GOOD, firing_log([0, 1, 3.0], [20, 85, 90]))

    # It held 90 °C for 2 h; 35 °C an hour before it, 63.75 °C an hour after it.
    rest = (13.96 / 35 + 13.96 / 63.75) / 2
    assert there.half_minutes == pytest.approx((1 + rest) * 60, abs=0.01)


def test_on_the_way_down_the_doubt_is_by_the_fall_of_the_good_one():
    there = beside(GOOD, firing_log([0, 18, 23], [20, 1240, 840]))

    assert there.half_minutes == pytest.approx(13.96 * 60 / 100, abs=0.01)


def test_a_good_one_that_stood_at_one_temperature_leaves_half_its_length_in_doubt():
    there = beside(firing_log([0, 2], [20, 20]), firing_log([0, 1], [15, 20]))

    assert (there.minutes_behind, there.half_minutes) == (0.0, 60.0)


@pytest.mark.parametrize(("hours", "behind"), [(1.5, -30.0), (3.0, 0.0), (4.25, 15.0)])
def test_while_the_good_one_held_the_temperature_it_is_neither_ahead_nor_behind(hours, behind):
    log = firing_log([0, 1, hours], [20, 85, 90])

    assert beside(GOOD, log).minutes_behind == pytest.approx(behind, abs=1e-9)


def test_on_the_way_down_both_count_from_their_peaks():
    # The good one falls 100 °C/h from 16.5 h; this one 80 °C/h from 18 h: at 840 °C
    # 4 h against 5 h.
    log = firing_log([0, 18, 23], [20, 1240, 840])

    there = beside(GOOD, log)

    assert (there.cooling, there.minutes_behind) == (True, pytest.approx(60, abs=1e-9))


@pytest.mark.parametrize(
    ("hours", "temp_c"), [([0, 17], [20, 1250]), ([0, 1], [20, 15]), ([0, 18, 30], [20, 1240, 200])]
)
def test_where_the_good_one_never_was_there_is_no_number(hours, temp_c):
    assert beside(GOOD, firing_log(hours, temp_c)).minutes_behind is None


def test_the_first_and_the_last_line_of_the_good_one_can_be_met():
    at_start = beside(GOOD, firing_log([0, 0.5], [10, 20]))
    at_peak = beside(GOOD, firing_log([0, 17.0], [20, 1240]))

    assert at_start.minutes_behind == pytest.approx(30, abs=1e-9)
    assert at_peak.minutes_behind == pytest.approx(30, abs=1e-9)


def test_the_next_milestone_is_the_lowest_above_and_comes_at_the_rate_of_the_last_hour():
    ahead = next_milestone(firing_log([0, 1, 3], [20, 400, 600]), MILESTONES)

    assert ahead.milestone == Milestone("body reduction", 900)
    assert ahead.hours_to == pytest.approx(3.0, rel=1e-12)


@pytest.mark.parametrize(("hours", "temp_c"), [([0, 1, 3], [20, 600, 601]), ([0, 0.1], [20, 25])])
def test_a_kiln_that_hardly_climbs_has_no_hour_for_it(hours, temp_c):
    assert next_milestone(firing_log(hours, temp_c), MILESTONES).hours_to is None


def test_past_all_milestones_there_is_none():
    assert next_milestone(firing_log([0, 20], [20, 1250]), MILESTONES) is None


def test_minutes_are_in_doubt_by_the_thermocouple_over_the_rate():
    # Six degrees each, nine times in ten, at 60 °C/h: 1.645 · 6 · √2 minutes.
    assert minutes_in_doubt(60) == pytest.approx(13.96, abs=0.01)
    assert minutes_in_doubt(-60) == minutes_in_doubt(60)


def test_a_kiln_that_stands_still_leaves_hours_in_doubt_but_not_for_ever():
    assert minutes_in_doubt(0) == minutes_in_doubt(3) == pytest.approx(20 * minutes_in_doubt(60))
