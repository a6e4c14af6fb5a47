"""Chart values that were recalled, not read: they wait for the maker's sheet.

Recalled in °C and in °F apart, and the two agree within rounding; that makes
them likely, not checked. They are kept away from the values that were read so
that nobody takes the one for the other.
"""

import pytest

from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series

SELF_SUPPORTING = """
  07  962    -    -
  06  981    -    -
05.5 1004 1015 1025
  05 1021    -    -
  04 1046    -    -
  03 1071    -    -
  02 1078    -    -
  01 1093    -    -
   1 1109    -    -
   2 1112    -    -
   3 1115    -    -
   4 1141    -    -
   5 1159    -    -
 5.5 1167 1203 1225
   7 1201    -    -
  11 1272 1294 1315
  12 1285 1306 1326
  13 1310    -    -
  14 1351 1365 1384
"""

IRON_FREE_SELF_SUPPORTING = """
  07  953  971  982
  06  969  991  998
05.5  990 1012 1021
  05 1013 1037 1046
  04 1043 1061 1069
  03 1066 1088 1093
  02 1084 1105 1115
  01 1101 1123 1134
   1 1119 1139 1148
   3 1130 1154 1162
"""

LARGE = """
05.5 1012 1023
  13 1321 1346
"""

IRON_FREE_LARGE = """
  07  970  980
  06  991  996
05.5 1011 1020
  05 1032 1044
  04 1060 1067
  03 1087 1091
  02 1102 1113
  01 1122 1132
   1 1137 1146
   3 1151 1160
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


CASES = [
    *(("self-supporting", *row) for row in rows(SELF_SUPPORTING, (15, 60, 150))),
    *(
        ("iron-free self-supporting", *row)
        for row in rows(IRON_FREE_SELF_SUPPORTING, (15, 60, 150))
    ),
    *(("large", *row) for row in rows(LARGE, (60, 150))),
    *(("iron-free large", *row) for row in rows(IRON_FREE_LARGE, (60, 150))),
]


@pytest.mark.published("cone chart, from memory", where="values not yet read", agreement="1e-6")
@pytest.mark.parametrize(("series", "cone", "rate_c_h", "to_c"), CASES)
def test_a_cone_is_just_down_at_its_recalled_temperature(series, cone, rate_c_h, to_c):
    assert progress_after_steady_climb(series, cone, rate_c_h, to_c) == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize(("series", "cone"), sorted({case[:2] for case in CASES}))
def test_a_cone_with_a_recalled_value_says_so(series, cone):
    assert cone_series(series).from_memory(cone)
