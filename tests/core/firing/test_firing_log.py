"""Reading the lines of a log: what is put in order and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import LogError
from wareboard.core.firing.log import firing_log


def test_lines_come_out_in_the_order_of_time_and_equal_ones_once():
    log = firing_log([2.0, 0.0, 1.0, 2.0], [300.0, 20.0, 100.0, 300.0])

    assert log.hours.tolist() == [0.0, 1.0, 2.0]
    assert log.temp_c.tolist() == [20.0, 100.0, 300.0]


def test_two_temperatures_at_one_instant_are_refused_with_both():
    with pytest.raises(LogError) as refused:
        firing_log([0.0, 1.0, 1.0, 2.0], [20.0, 110.0, 100.0, 300.0])

    assert refused.value.say == "At 1 h the log has both 100 °C and 110 °C."
    assert refused.value.field == "hours"


@pytest.mark.parametrize(
    ("hours", "temp_c", "field", "seen"),
    [
        ([], [], "hours", 0),
        ([1.0], [20.0], "hours", 1),
        ([1.0, 1.0], [20.0, 20.0], "hours", 1),
        ([0.0, 1.0], [20.0, 2000.5], "temp_c", 2000.5),
        ([0.0, 1.0], [-60.5, 20.0], "temp_c", -60.5),
        ([0.0, 1.0], [20.0, float("inf")], "temp_c", float("inf")),
        ([0.0, float("-inf")], [20.0, 30.0], "hours", float("-inf")),
        ([0.0, 1.0, 2.0], [20.0, 30.0], "temp_c", 2),
    ],
)
def test_what_cannot_be_a_log_is_refused_by_column_and_value(hours, temp_c, field, seen):
    with pytest.raises(LogError) as refused:
        firing_log(hours, temp_c)

    assert (refused.value.field, refused.value.seen) == (field, seen)


def test_a_reading_that_is_no_number_is_refused():
    with pytest.raises(LogError) as refused:
        firing_log([0.0, 1.0], [20.0, float("nan")])

    assert refused.value.field == "temp_c"


def test_the_coldest_and_the_hottest_allowed_are_allowed():
    log = firing_log([0.0, 1.0], [-60.0, 2000.0])

    assert log.temp_c.tolist() == [-60.0, 2000.0]


def test_the_peak_is_the_last_instant_at_the_highest_temperature():
    log = firing_log([0.0, 10.0, 11.0, 12.0], [20.0, 1250.0, 1250.0, 1100.0])

    assert (log.peak, log.peak_hours, log.now_hours, log.now_c) == (2, 11.0, 12.0, 1100.0)


def test_cutting_puts_a_line_on_the_straight_between_two():
    log = firing_log([0.0, 10.0, 20.0], [20.0, 1020.0, 20.0])

    before, after = log.until(15.0), log.since(15.0)

    assert (before.hours.tolist(), before.temp_c.tolist()) == ([0, 10, 15], [20, 1020, 520])
    assert (after.hours.tolist(), after.temp_c.tolist()) == ([15, 20], [520, 20])


@given(share=st.floats(0, 1))
def test_a_cut_log_is_the_same_log_up_to_the_cut(share):
    log = firing_log([0.0, 1.0, 4.0, 9.0], [20.0, 500.0, 400.0, 1200.0])
    cut = 9.0 * share

    part = log.until(cut)

    assert part.now_hours == cut
    hours = np.linspace(0, cut, 17)
    np.testing.assert_allclose(
        np.interp(hours, part.hours, part.temp_c), np.interp(hours, log.hours, log.temp_c)
    )


@pytest.mark.parametrize("hours", [-0.1, 20.1, float("nan")])
def test_a_cut_outside_the_log_is_refused_with_its_ends(hours):
    log = firing_log([0.0, 20.0], [20.0, 1020.0])

    with pytest.raises(LogError) as refused:
        log.until(hours)

    assert refused.value.field == "shut_off"
    assert refused.value.accepted == "hours from 0 to 20"


def test_a_probe_that_reads_low_is_put_right_by_adding():
    log = firing_log([0.0, 20.0], [20.0, 1020.0])

    assert log.shifted(7.5).temp_c.tolist() == [27.5, 1027.5]
    assert log.shifted(0.0) is log
