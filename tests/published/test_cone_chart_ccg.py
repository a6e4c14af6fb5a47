"""A supplier's table of large cones in °C at 60 and 150 °C/h (ccg.co.nz)."""

import pytest

from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series

LARGE = """
 012  858  880
 011  873  892
 010  898  913
  09  917  928
  08  942  954
  07  973  985
  06  995 1011
  05 1030 1046
  04 1060 1070
  03 1086 1101
  02 1101 1120
  01 1117 1137
   1 1136 1154
   2 1142 1162
   3 1152 1168
   4 1160 1181
   5 1184 1205
   6 1220 1241
   7 1237 1255
   8 1247 1269
   9 1257 1278
  10 1282 1303
  11 1293 1312
  12 1304 1324
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


@pytest.mark.published("ccg.co.nz", where="large cones, °C", agreement="1e-6", copied=True)
@pytest.mark.parametrize(("cone", "rate_c_h", "to_c"), rows(LARGE, (60, 150)))
def test_a_large_cone_is_just_down_at_its_printed_temperature(cone, rate_c_h, to_c):
    reached = progress_after_steady_climb("large", cone, rate_c_h, to_c)

    assert reached == pytest.approx(1.0, abs=1e-6)
