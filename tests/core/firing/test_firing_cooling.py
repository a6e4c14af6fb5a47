"""How long a kiln took to cool, by its log."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import LogError
from wareboard.core.firing.cooling import hours_between, hours_to_fall
from wareboard.core.firing.log import firing_log

LOG = firing_log([0, 10, 12, 13, 17, 37], [20, 1200, 1280, 1280, 880, 80])


def test_hours_count_from_the_last_instant_at_the_top():
    # 100 °C/h from 13 h on, then 40 °C/h.
    assert hours_to_fall(LOG, [1280, 1080, 480, 100]) == pytest.approx(
        {1280: 0.0, 1080: 2.0, 480: 14.0, 100: 23.5}, rel=1e-12
    )


def test_hours_count_from_shut_off_where_that_is_known():
    assert hours_to_fall(LOG, [1080], shut_off_hours=12.0) == {1080: pytest.approx(3.0)}


def test_a_temperature_the_log_does_not_reach_is_no_number():
    assert hours_to_fall(LOG, [60]) == {60: None}


def test_a_temperature_the_kiln_never_had_is_reached_at_once():
    assert hours_to_fall(LOG, [1300]) == {1300: 0.0}


def test_a_shut_off_outside_the_log_is_refused():
    with pytest.raises(LogError) as refused:
        hours_to_fall(LOG, [100], shut_off_hours=40.0)

    assert refused.value.field == "shut_off"


def test_the_first_instant_counts_where_a_fire_is_lit_again():
    log = firing_log([0, 10, 12, 13, 20], [20, 1200, 900, 1000, 300])

    assert hours_to_fall(log, [950]) == {950: pytest.approx(10 * 250 / 300 / 5, rel=1e-12)}


@given(warm_c=st.floats(100, 1280), cool_c=st.floats(80, 1280))
def test_the_hours_between_two_temperatures_are_the_difference_of_both(warm_c, cool_c):
    falls = hours_to_fall(LOG, [warm_c, cool_c])

    between = hours_between(LOG, warm_c, cool_c)

    assert between == pytest.approx(falls[cool_c] - falls[warm_c], abs=1e-12)


@pytest.mark.parametrize(("warm_c", "cool_c"), [(1290, 1000), (1000, 60), (60, 50)])
def test_hours_between_temperatures_the_log_does_not_hold_are_no_number(warm_c, cool_c):
    assert hours_between(LOG, warm_c, cool_c) is None
