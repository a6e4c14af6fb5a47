"""Firings worked out by hand, or by a second program written from the same text."""

from math import exp, log

import pytest

from wareboard.core.firing.cone import reckon_cone
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series

SERIES = cone_series()

STEADY = ([0.0, 1202 / 60], [20.0, 1222.0])
HELD = ([0.0, 1202 / 60, 1202 / 60 + 26.69 / 60], [20.0, 1222.0, 1222.0])
QUICK = ([0.0, 12.4], [20.0, 1260.0])
STONEWARE = ([0, 7.2, 7.2 + 185 / 60, 7.45 + 185 / 60], [20, 1100, 1285, 1285])
ONCE_FIRED = (
    [0, 2, 4, 12, 12 + 500 / 150, 12 + 500 / 150 + 1.75, 12.5 + 500 / 150 + 1.75],
    [20, 120, 120, 600, 1100, 1240, 1240],
)
ONCE_FIRED_COLD = ([*ONCE_FIRED[0], ONCE_FIRED[0][-1] + 5.4], [*ONCE_FIRED[1], 700])


def reckoned(lines):
    return reckon_cone(SERIES, firing_log(*lines)).result


def test_a_hold_at_the_end_of_cone_6_for_its_span_doubles_its_heat_work():
    # k there is 60 / 26.69 an hour: 37 °C over ln 4 for an e-fold rate.
    k = 60.0 / (37 / log(4))

    assert reckoned(STEADY).progress["6"] == pytest.approx(1.0, abs=1e-9)
    assert reckoned(HELD).progress["6"] == pytest.approx(1.0 + k * 26.69 / 60, abs=1e-9)


def test_a_quick_climb_to_1260_by_hand():
    progress = reckoned(QUICK).progress

    assert progress["9"] == pytest.approx(60 / 100, abs=1e-9)
    assert progress["8"] == pytest.approx(60 * exp(11 / (22 / log(2.5))) / 100, abs=1e-9)


@pytest.mark.parametrize(
    ("lines", "reading", "equivalent_c", "progress"),
    [
        (STEADY, "6+0.00", 1222.0, {"5": 4.81, "6": 1.0, "7": 0.538, "8": 0.373, "9": 0.231}),
        (HELD, "7+0.12", 1240.2, {"6": 2.0, "7": 1.062, "8": 0.737, "9": 0.469}),
        (QUICK, "7+0.88", 1247.8, {"6": 3.149, "7": 1.747, "8": 0.949, "9": 0.6}),
        (STONEWARE, "11+0.18", 1296.1, {"9": 5.303, "10": 1.611, "11": 1.103, "12": 0.498}),
        (ONCE_FIRED_COLD, "9+0.13", 1263.2, {"7": 3.025, "8": 1.759, "9": 1.159, "10": 0.411}),
    ],
)
def test_the_second_program_comes_to_the_same_digits(lines, reading, equivalent_c, progress):
    result = reckoned(lines)

    assert result.reading == reading
    assert result.equivalent_c == pytest.approx(equivalent_c, abs=0.051)
    assert {c: result.progress[c] for c in progress} == pytest.approx(progress, abs=6e-4)


def test_slow_cooling_adds_half_a_cone():
    result = reckoned(ONCE_FIRED_COLD)

    assert (result.at_peak.reading, result.when_cold.reading) == ("8+0.67", "9+0.13")
    assert result.at_peak.progress == pytest.approx(reckoned(ONCE_FIRED).progress, rel=1e-12)


@pytest.mark.parametrize(
    ("cooling_c_h", "reading"), [(400, "10+0.3"), (200, "10+0.5"), (100, "10+0.9"), (60, "11+0.2")]
)
def test_the_slower_the_cooling_the_higher_the_cold_pack_after_cone_10(cooling_c_h, reading):
    up_h, down_h = 1265 / 60, 685 / cooling_c_h

    cold = reckoned(([0.0, up_h, up_h + down_h], [20.0, 1285.0, 600.0])).when_cold.reading

    assert f"{float(cold[2:]):.1f}" == reading[3:]
    assert cold[:2] == reading[:2]


@pytest.mark.parametrize(
    ("cone", "end_c", "minutes", "reading"),
    [
        ("04", 1063, 10, "04+0.4"),
        ("4", 1162, 60, "5+0.1"),
        ("6", 1222, 30, "7+0.3"),
        ("6", 1222, 60, "8+0.4"),
        ("8", 1249, 40, "9+0.5"),
        ("9", 1260, 60, "10+0.3"),
        ("10", 1285, 10, "10+0.9"),
        ("10", 1285, 60, "12+0.2"),
    ],
)
def test_a_hold_at_the_end_of_a_cone_reads_as_the_table_of_holds_says(
    cone, end_c, minutes, reading
):
    up_h = (end_c - 20) / 60

    held = reckoned(([0.0, up_h, up_h + minutes / 60], [20.0, end_c, end_c])).reading

    last, share = held.split("+")
    assert (last, f"{float(share):.1f}") == tuple(reading.split("+"))
    assert reckoned(([0.0, up_h], [20.0, end_c])).reading == f"{cone}+0.00"
