"""The answer to "which cone did it come to?", with its doubt and its cautions."""

import numpy as np
import pytest

from wareboard.core.errors import LogError
from wareboard.core.firing.chain import reading_at
from wareboard.core.firing.cone import last_climb_c_h, read_log, reckon_cone
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.reading_doubt import probe_from_packs
from wareboard.core.firing.series import cone_series

SERIES = cone_series()


def hand_log(*corners: tuple[float, float]):
    """A log with a line every 20 minutes and at the corners."""
    hours, temp_c = zip(*corners, strict=True)
    when = np.union1d(np.arange(0.0, hours[-1], 1 / 3), hours)
    return firing_log(when, np.interp(when, hours, temp_c))


CONE_9 = hand_log((0, 20), (8, 600), (11, 900), (17, 1260), (25, 700))


def test_what_stands_on_top_is_the_cold_pack():
    result = reckon_cone(SERIES, CONE_9).result

    assert result.reading == result.when_cold.reading
    assert result.equivalent_c == result.when_cold.equivalent_c
    assert result.progress == result.when_cold.progress
    assert result.at_peak.reading == "9+0.00"
    assert result.when_cold.equivalent_c > result.at_peak.equivalent_c


def test_at_peak_runs_to_the_last_instant_at_the_top():
    log = hand_log((0, 20), (20, 1240), (20.5, 1240), (24, 900))
    to_the_end_of_the_hold = hand_log((0, 20), (20, 1240), (20.5, 1240))

    at_peak = reckon_cone(SERIES, log).result.at_peak
    held = reckon_cone(SERIES, to_the_end_of_the_hold).result

    assert at_peak.progress == pytest.approx(held.progress, rel=1e-12)


def test_at_peak_runs_to_shut_off_where_that_is_known():
    at_peak = reckon_cone(SERIES, CONE_9, shut_off_hours=16.0).result.at_peak

    # A degree a minute at 60 °C/h: the last hour is missing, 60 °C.
    assert at_peak.equivalent_c == pytest.approx(1200.0, abs=3.0)


def test_a_shut_off_outside_the_log_is_refused():
    with pytest.raises(LogError) as refused:
        reckon_cone(SERIES, CONE_9, shut_off_hours=25.5)

    assert refused.value.field == "shut_off"


def test_the_doubt_holds_the_reading_and_says_it_in_cones():
    answer = reckon_cone(SERIES, CONE_9)

    doubt = answer.doubt["equivalent_c"]

    assert doubt.low < answer.result.equivalent_c < doubt.high
    assert doubt == answer.doubt["when_cold.equivalent_c"]
    assert sorted(answer.doubt) == [
        "at_peak.equivalent_c",
        "equivalent_c",
        "when_cold.equivalent_c",
    ]
    low, high = (reading_at(SERIES.table, t).text for t in (doubt.low, doubt.high))
    assert doubt.basis.split(": ")[0] == f"{low} to {high}"


def test_the_working_shows_both_cones_and_their_degrees():
    answer = reckon_cone(SERIES, firing_log([0, 12.4], [20, 1260]))

    # By hand: 19.64 ln 1.747 = 11.0 and 27.41 ln 0.949 = -1.4; 11.0 / 12.4 = 0.88.
    assert answer.working[0] == (
        "at peak: cone 7 has had 1.747 of its heat-work (+11.0 °C), cone 8 0.949 "
        "(-1.4 °C): 7+0.88, like 1247.8 °C at 60 °C/h"
    )


def test_below_the_table_the_reading_is_none_and_a_caution_says_so():
    answer = reckon_cone(SERIES, hand_log((0, 20), (8, 500)))

    assert (answer.result.reading, answer.result.equivalent_c) == (None, None)
    assert answer.result.progress["022"] < 1
    assert answer.cautions == (
        "The firing is below cone 022, the lowest of the table: there is no reading.",
    )
    assert answer.doubt == {}


def test_above_the_table_the_reading_is_none_and_a_caution_says_so():
    answer = reckon_cone(cone_series("iron-free large"), CONE_9)

    assert answer.result.reading is None
    assert answer.cautions == (
        "The firing is above cone 3, the highest of the table: there is no reading.",
    )


def test_a_cooling_kiln_at_its_first_line_has_no_reading_at_the_peak():
    answer = reckon_cone(SERIES, hand_log((0, 1285), (10, 300)))

    assert answer.result.at_peak.reading is None
    assert answer.result.at_peak.progress["9"] == 0.0
    assert answer.result.when_cold.progress["9"] > 0.5


def test_what_holds_for_one_of_the_two_readings_only_is_said_of_that_one():
    held = reckon_cone(SERIES, hand_log((0, 20), (20, 1222), (22.5, 1222), (23, 1000))).cautions
    slow = reckon_cone(SERIES, hand_log((0, 20), (20.2, 1212), (29, 1100))).cautions

    assert [c.split(": ")[0] for c in held if "holding" in c] == ["At the peak", "When cold"]
    assert [c.split(": ")[0] for c in slow if "holding" in c] == ["When cold"]


def test_a_reading_for_a_page_comes_with_its_words():
    assert read_log(SERIES, CONE_9.until(17.0)).words == "cone 9"


def test_values_from_memory_are_named():
    answer = reckon_cone(SERIES, hand_log((0, 20), (20, 1245)))

    assert answer.cautions == (
        "A chart value of cone 7 is from memory, not checked against the maker's sheet.",
    )


def test_neighbours_that_cross_are_named():
    answer = reckon_cone(SERIES, hand_log((0, 20), (351, 1075)))

    assert (
        "Cone 3 is down while cone 2 still stands: at this rate their order is uncertain."
        in answer.cautions
    )


@pytest.mark.parametrize(("rate_c_h", "said"), [(8, True), (20, False), (140, False), (240, True)])
def test_a_climb_outside_the_charts_is_said_to_be_carried_on(rate_c_h, said):
    cautions = reckon_cone(SERIES, hand_log((0, 20), (1230 / rate_c_h, 1250))).cautions

    sentence = (
        f"The last 100 °C rose at {rate_c_h} °C/h; the charts are printed for 15 to 150 °C/h "
        "and are carried on straight."
    )
    assert (sentence in cautions) is said


def test_the_last_climb_is_measured_from_100_degrees_below_to_the_top():
    log = firing_log([0, 10, 12, 13, 20], [20, 1100, 1180, 1230, 600])

    # 1130 °C is passed at 10.75 h, 1230 °C reached at 13 h.
    assert last_climb_c_h(log) == pytest.approx(100 / 2.25, rel=1e-12)


def test_a_log_that_begins_near_the_top_has_no_last_climb():
    assert last_climb_c_h(firing_log([0, 1], [1200, 1250])) is None
    assert last_climb_c_h(firing_log([0, 1], [1250, 900])) is None


def test_cone_packs_move_the_reading_by_their_offset():
    probe = probe_from_packs([10.0] * 8)

    plain = reckon_cone(SERIES, CONE_9)
    mended = reckon_cone(SERIES, CONE_9, probe=probe)

    gain_c = mended.result.at_peak.equivalent_c - plain.result.at_peak.equivalent_c
    assert gain_c == pytest.approx(probe.offset_c, abs=1.0)
    narrow, wide = mended.doubt["equivalent_c"], plain.doubt["equivalent_c"]
    assert narrow.high - narrow.low < wide.high - wide.low


def test_the_sources_are_the_tables_it_rests_on():
    assert reckon_cone(SERIES, CONE_9).sources == (
        "cone_end_points__orton_seger",
        "cone_heatwork__wareboard2026",
    )
    assert reckon_cone(cone_series("large"), CONE_9).sources == ("cone_end_points__orton_seger",)
