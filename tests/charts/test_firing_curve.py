"""The firing over the good one: what is drawn, with units, and what is refused."""

import math
from typing import Any

import pytest

from wareboard.charts.firing_curve import firing_curve
from wareboard.charts.theme import TOKENS
from wareboard.core.errors import LogError

GOOD = [(0.0, 15.0), (6.0, 110.0), (14.0, 1262.0)]
LOG = [(0.0, 12.0), (6.5, 105.0), (12.8, 1042.0)]


def marks(spec: dict[str, Any]) -> list[str]:
    return [layer["mark"]["type"] for layer in spec["layer"]]


def words(spec: dict[str, Any]) -> set[str]:
    return {row["say"] for rows in spec["datasets"].values() for row in rows if "say" in row}


def test_the_axes_say_what_they_show_and_in_which_unit():
    spec = firing_curve(LOG)

    encoding = spec["layer"][0]["encoding"]
    assert (encoding["x"]["title"], encoding["y"]["title"]) == (
        "hours since lighting",
        "temperature [°C]",
    )


def test_the_good_firing_lies_behind_in_quiet_grey():
    spec = firing_curve(LOG, good=GOOD, good_name="13 September")

    lines = [layer["mark"]["color"] for layer in spec["layer"] if layer["mark"]["type"] == "line"]
    assert lines == [TOKENS["light"].quiet, TOKENS["light"].accent]


def test_lines_are_named_where_they_end_and_there_is_no_legend():
    spec = firing_curve(LOG, good=GOOD, good_name="13 September", marks=[(11.0, "reduction")])

    assert words(spec) == {"13 September", "1042 °C", "reduction"}
    assert spec["config"]["legend"] == {"disable": True}


def test_what_is_to_come_is_a_band_beneath_everything():
    spec = firing_curve(LOG, ahead=[(12.8, 1042.0, 1042.0), (15.0, 1230.0, 1280.0)])

    assert marks(spec)[0] == "area"


def said(spec: dict[str, Any], word: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Give where a word stands, and how: its row and its mark."""
    found = [
        (row, layer["mark"])
        for layer in spec["layer"]
        for row in spec["datasets"][layer["data"]["name"]]
        if layer["mark"]["type"] == "text" and row["say"] == word
    ]
    return found[-1]


def test_an_early_reading_has_its_word_beside_it_and_a_late_one_below():
    early, late = firing_curve(LOG[:2], good=GOOD), firing_curve(LOG, good=GOOD)

    assert (marks(early).count("rule"), marks(late).count("rule")) == (0, 1)


def test_the_word_of_a_first_reading_stands_above_the_axis_and_a_higher_one_below_its_point():
    first = firing_curve([(0.0, 24.0)], good=GOOD, now="here")
    higher = firing_curve([(0.0, 24.0), (4.0, 700.0)], good=GOOD, now="here")

    assert [said(one, "here")[1]["dy"] for one in (first, higher)] == [-16, 16]


def test_a_late_word_hangs_no_lower_than_the_lines_above_it_ask_for():
    log = [(0.0, 0.0), (14.0, 1400.0)]

    row, mark = said(firing_curve(log, now="1400 °C"), "1400 °C")

    # Seven letters are a fifth of the chart: where they begin the line is at 1106 °C.
    assert (row["h"], mark["align"], mark["dy"]) == (14.0, "right", 10)
    assert row["c"] == pytest.approx(1106 - 0.05 * 1400)


def test_it_hangs_below_the_good_one_too_where_that_is_behind():
    log, behind = [(0.0, 0.0), (12.0, 1200.0)], [(0.0, 0.0), (14.0, 1000.0)]

    alone = said(firing_curve(log), "1200 °C")[0]["c"]
    over = said(firing_curve(log, good=behind), "1200 °C")[0]["c"]

    assert over < alone


def test_the_word_of_a_cooled_kiln_stands_above_its_line_and_the_axis_stays_above_the_room():
    log = [(0.0, 14.0), (14.0, 1260.0), (24.0, 300.0), (28.0, 95.0)]

    spec = firing_curve(log, now="95 °C")

    row, mark = said(spec, "95 °C")
    lowest = min(row["c"] for rows in spec["datasets"].values() for row in rows)
    assert mark["dy"] == -10
    assert row["c"] > 300.0
    assert lowest == 14.0


@pytest.mark.parametrize(("hours", "align"), [(11.0, "left"), (26.0, "right")])
def test_the_word_of_a_mark_stands_after_it_clear_of_the_climb_where_there_is_room(hours, align):
    log = [(0.0, 14.0), (14.0, 1260.0), (28.0, 95.0)]

    spec = firing_curve(log, marks=[(hours, "reduction")])

    assert said(spec, "reduction")[1]["align"] == align


def test_a_mark_stands_at_the_temperature_of_its_time():
    spec = firing_curve(
        [(0.0, 0.0), (10.0, 1000.0)], marks=[(5.0, "damper"), (10.0, "off"), (12.0, "shut")]
    )

    rows = [row for rows in spec["datasets"].values() for row in rows if "high" in row]
    assert {(row["say"], row["high"]) for row in rows} == {
        ("damper", 500.0),
        ("off", 1000.0),
        ("shut", 1000.0),
    }


def test_one_reading_is_enough():
    spec = firing_curve([(0.0, 14.0)], now="lit")

    assert words(spec) == {"lit"}


def test_the_width_is_the_page_s_unless_a_still_needs_its_own():
    assert firing_curve(LOG)["width"] == "container"
    assert firing_curve(LOG, width_px=345)["width"] == 345


@pytest.mark.parametrize(
    ("log", "good"),
    [
        ([], GOOD),
        ([(0.0, math.nan)], ()),
        ([(math.inf, 20.0)], ()),
        ([(2.0, 50.0), (1.0, 60.0)], ()),
        (LOG, [(3.0, 50.0), (1.0, 60.0)]),
    ],
)
def test_a_log_that_is_none_is_refused(log, good):
    with pytest.raises(LogError):
        firing_curve(log, good=good)
