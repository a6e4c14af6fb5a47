"""The demo's hand logs say what its story says of the five firings."""

from datetime import UTC
from itertools import pairwise
from math import log as ln

import pytest

from wareboard.core.firing.bending import bend_from_progress, clock_from_bend, read_clock
from wareboard.core.firing.cone import reckon_cone
from wareboard.core.firing.flame import FlameLine, reduction_start
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series
from wareboard.records.kiln.words import REDUCING

NUMBERS = (1, 2, 3, 4, 5)


@pytest.fixture
def lines(told):
    def of(number):
        firing = told.by_id("firings")[f"firing-{number}"]
        lit = firing["at"].astimezone(UTC)
        rows = sorted(told.of("log_lines", firing=firing["id"]), key=lambda row: row["at"])
        return [((row["at"].astimezone(UTC) - lit).total_seconds() / 3600, row) for row in rows]

    return of


@pytest.fixture
def moments(told):
    def of(number):
        firing = told.by_id("firings")[f"firing-{number}"]
        lit = firing["at"].astimezone(UTC)
        return {
            row["kind"]: (row["at"].astimezone(UTC) - lit).total_seconds() / 3600
            for row in told.of("moments", firing=firing["id"])
        }

    return of


@pytest.mark.parametrize(
    ("number", "day", "began_c"),
    [(1, "09-13", 890), (2, "09-27", 890), (3, "10-11", 980), (4, "10-25", 895), (5, "11-15", 890)],
)
def test_body_reduction_began_where_the_story_says(told, lines, number, day, began_c):
    firing = told.by_id("firings")[f"firing-{number}"]
    flames = [FlameLine(hours, row["temp_c"], row["flame"]) for hours, row in lines(number)]

    start = reduction_start(flames, REDUCING)

    assert f"{firing['at']:%m-%d}" == day
    assert start.temp_c == began_c


def test_first_firing_took_14_hours_with_6_of_candle_and_the_second_40_minutes_more(moments):
    first, second = moments(1), moments(2)

    assert first["sealed"] == 6
    assert first["shut off"] == 14
    assert second["shut off"] - first["shut off"] == pytest.approx(40 / 60)


def test_gas_is_21_kg_in_the_good_firing_and_23_with_the_new_jet(told):
    used = {}
    for number in (1, 3):
        weights = [row["gross_kg"] for row in told.of("fuel_weights", firing=f"firing-{number}")]
        used[number] = weights[0] - weights[-1]

    assert used == pytest.approx({1: 21, 3: 23})
    assert [row["firing"] for row in told["good_firings"]] == ["firing-1"]


@pytest.mark.parametrize("number", NUMBERS)
def test_hand_writes_every_20_to_30_minutes_while_the_kiln_climbs(lines, moments, number):
    hours = [at for at, _ in lines(number) if at <= moments(number)["shut off"]]

    gaps = [60 * (after - before) for before, after in pairwise(hours)]

    assert max(gaps) <= 46
    assert sorted(gaps)[len(gaps) // 2] == pytest.approx(27, abs=4)


@pytest.mark.parametrize("number", NUMBERS)
def test_kiln_cools_to_the_opening_on_the_next_day(lines, moments, number):
    told_of = lines(number)
    cooling = [row["temp_c"] for at, row in told_of if at >= moments(number)["shut off"]]

    assert cooling == sorted(cooling, reverse=True)
    assert cooling[-1] < 100
    assert moments(number)["opened"] >= told_of[-1][0]


@pytest.mark.parametrize("number", NUMBERS)
def test_heat_work_of_the_log_agrees_with_the_cone_pack_within_half_a_cone(
    told, lines, moments, number
):
    told_of = lines(number)
    log = firing_log([at for at, _ in told_of], [row["temp_c"] for _, row in told_of])
    series = cone_series("self-supporting")
    read = reckon_cone(series, log, shut_off_hours=moments(number)["shut off"]).result.when_cold
    packs = told.of("cone_readings", firing=f"firing-{number}", when_cold=True)

    for level in ("top", "middle", "bottom"):
        clocks = {row["cone"]: row["clock"] for row in packs if row["place"] == f"place-{level}"}
        assert in_cones(read.reading) == pytest.approx(seen(series, clocks), abs=0.5), level


def in_cones(reading):
    cone, part = reading.split("+")
    return int(cone) + float("0" + part.removeprefix("0"))


def seen(series, clocks):
    """Read a pack as the chain reads a log: the last cone down, and how far the next is."""
    spans = {c.cone: c.spans_c[0] for c in series.table.curves}
    ordinary = dict(zip(series.table.cones, series.table.ordinary_c, strict=True))
    down = max((int(cone) for cone, clock in clocks.items() if clock == 6), default=None)
    following = str(down + 1)
    short_c = -spans[following] * ln(read_clock(clocks[following]).progress)
    apart_c = ordinary[following] - ordinary[str(down)]
    return down + max(1 - short_c / apart_c, 0.0)


@pytest.mark.parametrize("number", [1, 2, 3, 4])
def test_cone_seen_through_the_spy_hole_stood_as_the_log_had_it_then(told, lines, number):
    told_of = lines(number)
    log = firing_log([at for at, _ in told_of], [row["temp_c"] for _, row in told_of])
    lit = told.by_id("firings")[f"firing-{number}"]["at"].astimezone(UTC)
    seen_hot = told.of("cone_readings", firing=f"firing-{number}", when_cold=False)

    assert seen_hot
    for row in seen_hot:
        hours = (row["at"].astimezone(UTC) - lit).total_seconds() / 3600
        reached = reckon_cone(cone_series("self-supporting"), log, shut_off_hours=hours).result
        bend = bend_from_progress(reached.at_peak.progress[row["cone"]])
        assert row["clock"] == pytest.approx(clock_from_bend(bend), abs=0.5)


def test_cones_stood_as_the_story_says(told):
    def nine(number):
        return {
            row["place"]: row["clock"]
            for row in told.of("cone_readings", firing=f"firing-{number}", cone="9", when_cold=True)
        }

    assert nine(1) == {"place-top": 5, "place-middle": 5, "place-bottom": 3}
    assert nine(4) == {"place-top": 6, "place-middle": 6, "place-bottom": 6}


def test_fourth_firing_soaked_half_an_hour_at_the_end(lines, moments):
    off = moments(4)["shut off"]
    end = [row["temp_c"] for at, row in lines(4) if off - 0.51 <= at <= off]

    assert max(end) - min(end) <= 5
    assert len(end) >= 3


def test_fifth_firing_rose_70_degrees_an_hour_until_the_thump(lines):
    told_of = lines(5)
    thump = next(i for i, (_, row) in enumerate(told_of) if "thump" in row["note"])
    (start, cold), (end, hot) = told_of[0], told_of[thump]

    assert hot["temp_c"] == 110
    assert (hot["temp_c"] - cold["temp_c"]) / (end - start) == pytest.approx(70, abs=1)
    assert told_of[thump + 1][1]["temp_c"] < 110


def test_fog_lay_over_the_last_firing_alone(told):
    foggy = [row for row in told["air"] if row["word"] == "fog"]

    assert [f"{row['at']:%m-%d}" for row in foggy] == ["11-15"]
    assert foggy[0]["rh_percent"] == 87
