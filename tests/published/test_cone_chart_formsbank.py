"""The cone maker's chart in °C, as reproduced at formsbank.com.

Whole degrees for steady rates over the last 100 °C. The law turns the chart
round, so it must meet each of them: the tolerance is what a start at 20 °C and
rounding leave. Digits typed from that page, not taken from our own table.
"""

from math import log

import pytest

from wareboard.core.firing.bending import bend_from_clock, progress_from_bend
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series

SELF_SUPPORTING = """
 022    -  586  590
 021    -  600  617
 020    -  626  638
 019  656  678  695
 018  686  715  734
 017  705  738  763
 016  742  772  796
 015  750  791  818
 014  757  807  838
 013  807  837  861
 012  843  861  882
 011  857  875  894
 010  891  903  915
  09  907  920  930
  08  922  942  956
"""

IRON_FREE_SELF_SUPPORTING = """
 010  871  886  893
  09  899  919  928
  08  924  946  957
"""

LARGE = """
 019  676  693
 018  712  732
 017  736  761
 016  769  794
 015  788  816
 014  807  836
 013  837  859
 012  858  880
 011  873  892
 010  898  913
  09  917  928
  08  942  954
"""

IRON_FREE_LARGE = """
 010  884  891
  09  917  926
  08  945  955
"""


def rows(printed: str, rates: tuple[float, ...]) -> list[tuple[str, float, float]]:
    lines = [line.split() for line in printed.strip().splitlines()]
    return [
        (cone, rate, float(temp))
        for cone, *temps in lines
        for rate, temp in zip(rates, temps, strict=True)
        if temp != "-"
    ]


def progress_after_steady_climb(series: str, cone: str, rate_c_h: float, to_c: float) -> float:
    log = firing_log([0.0, (to_c - 20.0) / rate_c_h], [20.0, to_c])

    return float(progress(cone_series(series).table.only([cone]), log)[0])


@pytest.mark.published(
    "cone chart, formsbank.com", where="self-supporting, °C", agreement="1e-6", copied=True
)
@pytest.mark.parametrize(("cone", "rate_c_h", "to_c"), rows(SELF_SUPPORTING, (15, 60, 150)))
def test_a_self_supporting_cone_is_just_down_at_its_printed_temperature(cone, rate_c_h, to_c):
    reached = progress_after_steady_climb("self-supporting", cone, rate_c_h, to_c)

    assert reached == pytest.approx(1.0, abs=1e-6)


@pytest.mark.published(
    "cone chart, formsbank.com", where="iron-free, °C", agreement="1e-6", copied=True
)
@pytest.mark.parametrize(
    ("cone", "rate_c_h", "to_c"), rows(IRON_FREE_SELF_SUPPORTING, (15, 60, 150))
)
def test_an_iron_free_cone_is_just_down_at_its_printed_temperature(cone, rate_c_h, to_c):
    reached = progress_after_steady_climb("iron-free self-supporting", cone, rate_c_h, to_c)

    assert reached == pytest.approx(1.0, abs=1e-6)


@pytest.mark.published(
    "cone chart, formsbank.com", where="large, °C", agreement="1e-6", copied=True
)
@pytest.mark.parametrize(("cone", "rate_c_h", "to_c"), rows(LARGE, (60, 150)))
def test_a_large_cone_is_just_down_at_its_printed_temperature(cone, rate_c_h, to_c):
    reached = progress_after_steady_climb("large", cone, rate_c_h, to_c)

    assert reached == pytest.approx(1.0, abs=1e-6)


@pytest.mark.published(
    "cone chart, formsbank.com", where="large iron-free, °C", agreement="1e-6", copied=True
)
@pytest.mark.parametrize(("cone", "rate_c_h", "to_c"), rows(IRON_FREE_LARGE, (60, 150)))
def test_a_large_iron_free_cone_is_just_down_at_its_printed_temperature(cone, rate_c_h, to_c):
    reached = progress_after_steady_climb("iron-free large", cone, rate_c_h, to_c)

    assert reached == pytest.approx(1.0, abs=1e-6)


@pytest.mark.published("cone chart, formsbank.com", where="time to bend", agreement="2 min")
@pytest.mark.parametrize("cone", ["4", "5", "6", "7", "8", "9", "10"])
def test_a_stoneware_cone_takes_about_15_to_25_minutes_to_bend(cone):
    from_one_o_clock = progress_from_bend(bend_from_clock(1.0))
    span_c = cone_series().table.only([cone]).low_span_c[0]

    # At 60 °C/h a degree is a minute. The page says "about".
    minutes = -span_c * log(from_one_o_clock)

    assert minutes == pytest.approx(20.0, abs=5.0 + 2.0)
