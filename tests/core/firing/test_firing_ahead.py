"""When the cone will fall."""

import numpy as np
import pytest

from wareboard.core.errors import LogError
from wareboard.core.firing.ahead import hours_to_cone, probe_after_cone
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.reading_doubt import probe_from_packs
from wareboard.core.firing.series import cone_series

TABLE = cone_series().table


def every(minutes: float, *corners: tuple[float, float]):
    hours, temp_c = zip(*corners, strict=True)
    when = np.union1d(np.arange(0.0, hours[-1], minutes / 60), hours)
    return firing_log(when, np.interp(when, hours, temp_c))


def hours_at(log, rate_c_h: float) -> float:
    """Minutes are tried one by one until cone 9 is down at a steady rate."""
    one = TABLE.only(["9"])
    for minutes in range(1, 1000):
        hours = np.append(log.hours, log.now_hours + minutes / 60)
        temp_c = np.append(log.temp_c, log.now_c + rate_c_h * minutes / 60)
        if progress(one, firing_log(hours, temp_c))[0] >= 1:
            return minutes / 60
    raise AssertionError


STEADY = every(20, (0, 20), (20, 1220))


def test_a_steady_climb_at_60_an_hour_drops_cone_9_at_its_printed_temperature():
    ahead = hours_to_cone(TABLE, STEADY, "9")

    # 40 °C to go at 60 °C/h.
    assert ahead.hours_to == pytest.approx(40 / 60, abs=1e-4)
    assert ahead.end_c == pytest.approx(1260, abs=1e-3)
    assert ahead.doubt.low < ahead.hours_to < ahead.doubt.high


def test_a_cone_that_is_down_has_nothing_to_wait_for():
    ahead = hours_to_cone(TABLE, STEADY, "5")

    assert (ahead.hours_to, ahead.end_c) == (0.0, None)
    # Cone 5 is 34 °C past by the log; the thermocouple may be off by 18.
    assert (ahead.doubt.low, ahead.doubt.high) == (0.0, 0.0)


def test_a_cone_only_just_down_by_the_log_may_still_stand():
    ahead = hours_to_cone(TABLE, every(20, (0, 20), (20.7, 1262)), "9")

    # 1.645 times the root of 117 + 3.5² is 18.7 °C; 2 °C past, at 60 °C/h.
    assert ahead.hours_to == 0.0
    assert ahead.doubt.high == pytest.approx((18.7 - 2) / 60, abs=0.002)


def test_a_cooling_kiln_waits_at_the_slowest_climb():
    ahead = hours_to_cone(TABLE, every(20, (0, 20), (20.7, 1262), (21.7, 1200)), "9")

    assert ahead.hours_to == 0.0
    assert ahead.doubt.low <= ahead.doubt.high


def test_a_kiln_that_stands_far_below_is_not_there_within_a_day():
    ahead = hours_to_cone(TABLE, every(20, (0, 20), (5, 600), (8, 600)), "9")

    assert (ahead.hours_to, ahead.end_c, ahead.doubt) == (None, None, None)


def test_a_climb_that_slows_is_carried_on_between_its_last_hour_and_its_last_two():
    slowing = every(20, (0, 20), (18, 1140), (19, 1200), (20, 1230))

    ahead = hours_to_cone(TABLE, slowing, "9").hours_to

    assert hours_at(slowing, 60.0) < ahead < hours_at(slowing, 30.0)


def test_a_good_firing_shapes_the_way_ahead():
    good = every(20, (0, 20), (19, 1160), (20, 1220), (22, 1270))

    with_good = hours_to_cone(TABLE, STEADY, "9", good=good)
    without = hours_to_cone(TABLE, STEADY, "9")

    # The good one went on at 25 °C/h from here: later than at 60 all the way.
    assert with_good.hours_to > without.hours_to + 0.05
    assert with_good.hours_to < 40 / 25


def test_a_firing_just_like_the_good_one_comes_when_it_came():
    good = every(5, (0, 20), (18, 1160), (24, 1300))
    at = 20.5
    log = good.until(at)

    ahead = hours_to_cone(TABLE, log, "9", good=good)

    one = TABLE.only(["9"])
    down_h = next(
        h for h in np.arange(at, 24, 1 / 60) if progress(one, good.until(float(h)))[0] >= 1
    )
    assert at + ahead.hours_to == pytest.approx(down_h, abs=1.1 / 60)


def test_a_good_one_that_only_cooled_does_not_help():
    cooled = every(20, (0, 1200), (5, 300))

    assert hours_to_cone(TABLE, STEADY, "9", good=cooled) == hours_to_cone(TABLE, STEADY, "9")


def test_a_probe_that_reads_low_brings_the_cone_nearer():
    probe = probe_from_packs([12.0] * 1000)

    ahead = hours_to_cone(TABLE, STEADY, "9", probe=probe)

    assert ahead.hours_to == pytest.approx((40 - probe.offset_c) / 60, abs=1e-3)
    assert ahead.end_c == pytest.approx(1260 - probe.offset_c, abs=0.01)


def test_five_minutes_of_log_are_too_few():
    with pytest.raises(LogError) as refused:
        hours_to_cone(TABLE, firing_log([0, 5 / 60], [20, 30]), "9")

    assert refused.value.accepted == "ten minutes or more"


def test_a_cone_that_is_not_in_the_table_is_refused():
    with pytest.raises(LogError) as refused:
        hours_to_cone(TABLE, STEADY, "15")

    assert refused.value.field == "cone"


def test_a_lower_cone_seen_down_tells_how_far_the_probe_is_off():
    # Cone 6 went down when the log said 1210 °C, 12 °C early at 60 °C/h.
    seen = (1210 - 20) / 60

    probe = probe_after_cone(TABLE, STEADY, "6", seen_hours=seen)

    share = 117 / (117 + 25)
    assert probe.offset_c == pytest.approx(12 * share, abs=1e-6)
    assert probe.sd_c == pytest.approx((1 / 117 + 1 / 25) ** -0.5, rel=1e-12)


def test_a_lower_cone_narrows_the_hour():
    probe = probe_after_cone(TABLE, STEADY, "5", seen_hours=(1180 - 20) / 60)

    plain, mended = (hours_to_cone(TABLE, STEADY, "9", **k) for k in ({}, {"probe": probe}))

    assert mended.hours_to < plain.hours_to
    assert mended.doubt.high - mended.doubt.low < plain.doubt.high - plain.doubt.low


@pytest.mark.parametrize("cone", ["04", "14"])
def test_a_cone_that_no_such_probe_explains_is_refused(cone):
    with pytest.raises(LogError) as refused:
        probe_after_cone(TABLE, STEADY, cone, seen_hours=20.0)

    assert refused.value.seen == cone
    assert "more than 80 °C off" in refused.value.say


def simulated_climb(rng: np.random.Generator):
    """The true minutes of a wandering climb past cone 9, and its hand log."""
    hours = np.arange(0, 40, 1 / 60)
    mean = np.interp(
        np.linspace(0, 1, hours.size), [0, 0.5], [rng.uniform(70, 140), rng.uniform(30, 80)]
    )
    wander = 0.3 * np.convolve(rng.normal(0, 1, hours.size + 39), np.ones(40) / 40**0.5, "valid")
    true_c = 20 + np.cumsum(mean * np.exp(wander) / 60)
    until = int(np.searchsorted(true_c, 1320.0))
    return hours[:until], true_c[:until]


@pytest.mark.parametrize("before_min", [120, 60, 30])
def test_nine_times_in_ten_the_hour_lies_in_its_interval_in_simulated_climbs(before_min):
    rng = np.random.default_rng(before_min)
    one = TABLE.only(["9"])
    held, tries = 0, 200
    for _ in range(tries):
        hours, true_c = simulated_climb(rng)
        low, high = 0, hours.size - 1
        own_c = rng.normal(0, 2)
        while high - low > 1:
            middle = (low + high) // 2
            log = firing_log(hours[: middle + 1], true_c[: middle + 1] + own_c)
            low, high = (low, middle) if progress(one, log)[0] >= 1 else (middle, high)
        now = high - before_min
        lines = np.arange(now % 20, now + 1, 20)
        shown_c = (
            true_c[lines] - rng.normal(0, 9) - rng.normal(0, 6) + rng.normal(0, 1.5, lines.size)
        )
        kept = firing_log(hours[lines], np.round(shown_c / 5) * 5)

        ahead = hours_to_cone(TABLE, kept, "9")

        if ahead.doubt is not None:
            held += ahead.doubt.low <= before_min / 60 <= ahead.doubt.high

    # One binomial standard error of 200 tries is 2 %.
    assert 0.85 <= held / tries <= 0.97
