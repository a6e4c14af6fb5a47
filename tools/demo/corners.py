"""The corners of the demo's five firings: where the line of the log bends."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Corner:
    """A line of a log: minutes since the candle, °C, kPa, damper in the kiln's marks, flame."""

    minute: int
    temp_c: float
    pressure_kpa: float
    damper: float
    flame: str
    note: str = ""


GAS_OFF = (0.0, 0.0, "")

CORNERS = {
    1: (
        Corner(0, 14, 2, 8, "soft", "candle, door ajar"),
        Corner(120, 66, 2, 8, "soft"),
        Corner(240, 95, 3, 8, "soft", "mirror at the spy-hole stays clear"),
        Corner(300, 140, 4, 8, "soft"),
        Corner(360, 200, 8, 8, "clear", "door up"),
        Corner(504, 560, 8, 7, "clear", "slowly past the quartz"),
        Corner(534, 600, 12, 7, "clear"),
        Corner(650, 890, 14, 3, "licking", "body reduction"),
        Corner(690, 940, 15, 4, "licking", "lighter"),
        Corner(780, 1150, 16, 4, "licking"),
        Corner(830, 1243, 16, 6, "clear", "clearing"),
        Corner(840, 1263, 16, 6, "clear", "cone 9 going; off"),
        Corner(855, 1190, *GAS_OFF, "all shut"),
        Corner(900, 1058, *GAS_OFF),
        Corner(960, 927, *GAS_OFF),
        Corner(1020, 818, *GAS_OFF),
        Corner(1110, 684, *GAS_OFF),
        Corner(1530, 178, *GAS_OFF),
        Corner(1590, 142, *GAS_OFF),
        Corner(1650, 112, *GAS_OFF),
        Corner(1690, 95, *GAS_OFF),
    ),
    2: (
        Corner(0, 12, 2, 8, "soft", "candle, door ajar"),
        Corner(120, 62, 2, 8, "soft"),
        Corner(240, 94, 3, 8, "soft"),
        Corner(300, 138, 4, 8, "soft"),
        Corner(360, 196, 8, 8, "clear", "door up; gusts"),
        Corner(512, 560, 8, 7, "clear"),
        Corner(544, 600, 12, 7, "clear"),
        Corner(668, 890, 14, 3, "licking", "body reduction"),
        Corner(712, 940, 15, 4, "licking", "the wind takes the flame out now and then"),
        Corner(814, 1150, 16, 4, "licking"),
        Corner(870, 1242, 16, 6, "clear", "clearing"),
        Corner(880, 1263, 16, 6, "clear", "cone 9 going; off"),
        Corner(895, 1184, *GAS_OFF, "all shut"),
        Corner(940, 1050, *GAS_OFF),
        Corner(1000, 918, *GAS_OFF),
        Corner(1060, 810, *GAS_OFF),
        Corner(1540, 181, *GAS_OFF),
        Corner(1600, 145, *GAS_OFF),
        Corner(1660, 116, *GAS_OFF),
        Corner(1700, 99, *GAS_OFF),
    ),
    3: (
        Corner(0, 13, 2, 8, "soft", "candle, door ajar"),
        Corner(120, 64, 2, 8, "soft"),
        Corner(240, 94, 3, 8, "soft"),
        Corner(300, 141, 4, 8, "soft"),
        Corner(360, 201, 8, 8, "clear", "door up"),
        Corner(504, 560, 8, 7, "clear"),
        Corner(534, 600, 12, 7, "clear"),
        Corner(650, 890, 14, 5, "clear", "stays blue with the new jet"),
        Corner(688, 980, 16, 3, "licking", "turns at last: body reduction"),
        Corner(724, 1023, 17, 4, "licking"),
        Corner(784, 1150, 18, 4, "licking"),
        Corner(835, 1243, 18, 6, "clear", "clearing"),
        Corner(845, 1262, 18, 6, "clear", "cone 9 going; off"),
        Corner(860, 1190, *GAS_OFF, "all shut"),
        Corner(905, 1060, *GAS_OFF),
        Corner(965, 929, *GAS_OFF),
        Corner(1025, 820, *GAS_OFF),
        Corner(1535, 180, *GAS_OFF),
        Corner(1595, 144, *GAS_OFF),
        Corner(1690, 98, *GAS_OFF),
    ),
    4: (
        Corner(0, 9, 2, 8, "soft", "candle, door ajar; clocks went back in the night"),
        Corner(120, 61, 2, 8, "soft"),
        Corner(240, 94, 3, 8, "soft"),
        Corner(300, 139, 4, 8, "soft"),
        Corner(360, 199, 8, 8, "clear", "door up"),
        Corner(504, 560, 8, 7, "clear"),
        Corner(534, 600, 12, 7, "clear"),
        Corner(652, 895, 14, 3, "licking", "body reduction, old jet"),
        Corner(694, 946, 15, 4, "licking"),
        Corner(784, 1150, 16, 4, "licking"),
        Corner(860, 1256, 10, 5, "soft", "soak"),
        Corner(880, 1256, 10, 6, "clear", "clearing"),
        Corner(890, 1255, 10, 6, "clear", "cone 9 flat wherever I look; off"),
        Corner(905, 1188, *GAS_OFF, "all shut"),
        Corner(950, 1055, *GAS_OFF),
        Corner(1010, 924, *GAS_OFF),
        Corner(1070, 816, *GAS_OFF),
        Corner(1590, 176, *GAS_OFF),
        Corner(1650, 140, *GAS_OFF),
        Corner(1740, 98, *GAS_OFF),
    ),
    5: (
        Corner(0, 9, 4, 8, "soft", "fog; half a candle, must be off tonight"),
        Corner(84, 107, 4, 8, "soft"),
        Corner(87, 110, *GAS_OFF, "a thump at the bottom; gas off"),
        Corner(100, 88, *GAS_OFF, "door down: the casserole"),
        Corner(140, 57, *GAS_OFF, "shards swept out, workshop pot beside it whole"),
        Corner(165, 48, 2, 8, "soft", "candle again"),
        Corner(240, 83, 2, 8, "soft"),
        Corner(330, 94, 3, 8, "soft", "mirror stays clear"),
        Corner(430, 165, 8, 8, "clear", "door up"),
        Corner(590, 560, 8, 7, "clear"),
        Corner(620, 600, 12, 7, "clear"),
        Corner(736, 890, 14, 3, "licking", "body reduction"),
        Corner(778, 941, 15, 4, "licking"),
        Corner(870, 1150, 16, 4, "licking"),
        Corner(925, 1243, 16, 6, "clear", "clearing"),
        Corner(935, 1262, 16, 6, "clear", "cone 9 going; off"),
        Corner(950, 1188, *GAS_OFF, "all shut"),
        Corner(995, 1057, *GAS_OFF),
        Corner(1055, 926, *GAS_OFF),
        Corner(1500, 244, *GAS_OFF),
        Corner(1620, 158, *GAS_OFF),
        Corner(1790, 92, *GAS_OFF),
    ),
}
