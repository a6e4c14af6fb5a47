"""Cones of a pack beside the log they stood in."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import LogError, ShapeError
from wareboard.core.firing.ahead import probe_after_cone
from wareboard.core.firing.bending import progress_from_bend
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.pack import (
    ConeBeside,
    cone_beside,
    probe_after_reading,
    seen_less_read_c,
)
from wareboard.core.firing.reading_doubt import UNKNOWN_PROBE
from wareboard.core.firing.series import cone_series

TABLE = cone_series().table
CONE_9_C = 1260.0


def climb(end_c, rate_c_h=60.0):
    """A steady climb, so that a shift of the log is a shift of its end."""
    return firing_log([0, (end_c - 20) / rate_c_h], [20, end_c])


def test_a_cone_down_at_its_printed_temperature_would_point_to_six():
    beside = cone_beside(TABLE, climb(CONE_9_C), "9", 3)

    assert beside.log_clock == pytest.approx(6, abs=1e-6)


@given(end_c=st.floats(1215, 1259))
def test_a_cone_that_stands_as_the_log_has_it_differs_by_nothing(end_c):
    log = climb(end_c)
    clock = cone_beside(TABLE, log, "9", 1).log_clock

    beside = cone_beside(TABLE, log, "9", clock)

    assert beside.differs_c == pytest.approx(0, abs=1e-6)
    assert beside.agrees


@given(clock=st.floats(0.75, 5.25), end_c=st.floats(1226, 1250), more_c=st.floats(-2, 9))
def test_a_log_that_reads_higher_leaves_so_much_less_for_the_cone(clock, end_c, more_c):
    here = cone_beside(TABLE, climb(end_c), "9", clock)
    there = cone_beside(TABLE, climb(end_c).shifted(more_c), "9", clock)

    # Between its printed points at 15 and 60 °C/h a cone's curve has one slope.
    assert there.differs_c - here.differs_c == pytest.approx(-more_c, abs=1e-6)


def test_difference_is_the_gap_between_two_places_on_the_way_down():
    log = climb(1240)
    by_log = float(progress(TABLE.only(["9"]), log)[0])
    span_c = float(TABLE.only(["9"]).low_span_c[0])

    beside = cone_beside(TABLE, log, "9", 3)

    # 3 o'clock is half of the way from 8° to 90°: 49°.
    assert beside.differs_c == pytest.approx(
        span_c * (np.log(progress_from_bend(49)) - np.log(by_log)), rel=1e-12
    )


@pytest.mark.parametrize("clock", [12, 0])
def test_a_cone_as_set_gives_only_a_ceiling(clock):
    beside = cone_beside(TABLE, climb(1240), "9", clock)

    assert beside.clock == 0
    assert beside.differs_c is None
    assert beside.low_c is None
    assert beside.high_c < 0
    assert not beside.agrees
    assert beside.tells_c is None


def test_a_cone_that_is_down_gives_only_a_floor():
    beside = cone_beside(TABLE, climb(1240), "9", 6)

    assert beside.differs_c is None
    assert beside.high_c is None
    assert beside.low_c > 0
    assert not beside.agrees


def test_a_cone_far_past_its_end_agrees_with_one_that_lies_flat():
    beside = cone_beside(TABLE, climb(1285), "9", 6)

    assert beside.log_clock == 6
    assert beside.low_c < 0
    assert beside.agrees


def test_a_log_that_was_never_near_the_cone_tells_nothing():
    beside = cone_beside(TABLE, climb(900), "9", 3)

    assert beside.differs_c > 80
    assert beside.far
    assert beside.tells_c is None


@pytest.mark.parametrize(("end_c", "clock", "far"), [(1150, 6, True), (1250, 6, False)])
def test_a_cone_that_is_down_is_far_where_even_its_floor_is(end_c, clock, far):
    assert cone_beside(TABLE, climb(end_c), "9", clock).far is far


@pytest.mark.parametrize(("end_c", "far"), [(1350, True), (1240, False)])
def test_a_cone_that_stands_is_far_where_the_log_went_long_past_it(end_c, far):
    assert cone_beside(TABLE, climb(end_c), "9", 12).far is far


@pytest.mark.parametrize("off_c", [-45.0, 45.0, -55.0, 55.0])
def test_a_difference_counts_only_where_a_couple_may_be_so_far_off(off_c):
    beside = ConeBeside("9", 3.0, 1.0, off_c, off_c - 5, off_c + 5)

    assert beside.tells_c == (off_c if abs(off_c) < 50 else None)


def test_the_doubt_of_a_difference_is_never_smaller_than_that_of_the_cone_itself():
    sure = ConeBeside("9", 3.0, 3.0, 20.0, 20.0, 20.0)

    # 90 % of a normal spread of 5 °C.
    assert sure.within_c == pytest.approx(1.645 * 5, abs=0.01)
    assert ConeBeside("9", 5.0, 3.0, 20.0, 8.0, None).within_c == pytest.approx(
        np.hypot(12, sure.within_c)
    )
    assert ConeBeside("9", 6.0, 3.0, None, 8.0, None).within_c is None


def test_a_cone_that_has_hardly_moved_or_is_nearly_down_tells_nothing():
    log = climb(1240)

    assert cone_beside(TABLE, log, "9", 0.5).tells_c is None
    assert cone_beside(TABLE, log, "9", 5.5).tells_c is None


def test_a_pack_differs_by_the_mean_of_the_cones_that_tell():
    log = climb(1250)
    pack = [cone_beside(TABLE, log, cone, at) for cone, at in (("8", 6), ("9", 4), ("10", 1))]

    mean = seen_less_read_c(pack)

    assert mean == pytest.approx((pack[1].differs_c + pack[2].differs_c) / 2, rel=1e-12)
    assert seen_less_read_c(pack[:1]) is None


def test_a_cone_seen_hot_moves_the_thermocouple_part_of_the_way():
    beside = cone_beside(TABLE, climb(1230), "9", 3)

    after = probe_after_reading(beside, UNKNOWN_PROBE)

    assert 0 < after.offset_c < beside.differs_c
    assert after.sd_c < UNKNOWN_PROBE.sd_c
    assert after.packs == UNKNOWN_PROBE.packs


def test_a_cone_seen_going_down_says_nearly_what_the_same_cone_says_when_down():
    log = climb(1245)
    down = probe_after_cone(TABLE, log, "9", seen_hours=log.now_hours)

    going = probe_after_reading(cone_beside(TABLE, log, "9", 5.25), UNKNOWN_PROBE)

    # The other way searches for the shift itself; the hour adds its own doubt here.
    assert going.offset_c == pytest.approx(down.offset_c, abs=3)
    assert going.sd_c > down.sd_c


@pytest.mark.parametrize("clock", [12, 6])
def test_a_cone_that_tells_nothing_leaves_the_thermocouple_as_it_was(clock):
    beside = cone_beside(TABLE, climb(1240), "9", clock)

    assert probe_after_reading(beside, UNKNOWN_PROBE) == UNKNOWN_PROBE


def test_a_cone_that_is_not_on_the_chart_is_refused():
    with pytest.raises(LogError, match="Cone 99 is not in this table"):
        cone_beside(TABLE, climb(1240), "99", 3)


def test_an_hour_no_cone_points_to_is_refused():
    with pytest.raises(ShapeError, match="not to 10 o'clock"):
        cone_beside(TABLE, climb(1240), "9", 10)
