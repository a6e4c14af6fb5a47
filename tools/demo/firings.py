"""The kiln of the demo, its loads and its five firings.

A firing is told by corners: minutes since the candle was lit, temperature, gas
pressure, damper and flame. The log's lines lie on the straights between them,
as often as a hand writes them.
"""

from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise
from random import Random

from demo.corners import CORNERS, Corner
from demo.ledger import Ledger, when
from demo.pots import LOAD_DAYS

KILN = "little-downdraught"
LEVELS = ("top", "middle", "bottom")
SEED = 2026
CANDLE_STEP = 30
STEPS = (20, 30, 25)
UNSTEADY_C = 2.0


@dataclass(frozen=True)
class Fire:
    """One firing beside its log: weather, fuel, cones, minutes of its moments."""

    weather: str
    note: str
    cylinder: str
    gross_kg: tuple[float, float, float]
    sealed: int
    shut_off: int
    cones: dict[str, tuple[float, float, float]]


TARE_KG = 54.2
# What was seen of the middle pack through the spy-hole: minute, cone, where its tip pointed.
SEEN: dict[int, tuple[tuple[int, str, float], ...]] = {
    1: ((838, "8", 3.5), (838, "9", 1.5)),
    2: ((878, "8", 4.0), (878, "9", 1.5)),
    3: ((843, "8", 3.5),),
    4: ((855, "8", 3.0), (888, "9", 6.0)),
}
# Where the tips of cones 8, 9 and 10 pointed in the cold kiln, shelf by shelf.
FIVE_AND_THREE = {
    "top": (6.0, 5.0, 1.0),
    "middle": (6.0, 5.0, 1.0),
    "bottom": (6.0, 3.0, 0.5),
}
FIRES = {
    1: Fire("calm, mild", "The one to go by.", "47 kg, number 1", (98.8, 97.0, 77.8), 360, 840,
            FIVE_AND_THREE),
    2: Fire("windy from the west", "As the one before, with the wind in the flue; 40 minutes "
            "longer.", "47 kg, number 2", (99.1, 97.2, 77.0), 360, 880, FIVE_AND_THREE),
    3: Fire("still, sticky", "New jet in the left burner. It would not turn till 980.",
            "47 kg, number 3", (98.9, 97.1, 75.9), 360, 845, FIVE_AND_THREE),
    4: Fire("calm, cool", "Old jet back. Let it go hotter, half an hour of soak.",
            "47 kg, number 4", (99.0, 97.2, 75.1), 360, 890,
            {"top": (6.0, 6.0, 2.0), "middle": (6.0, 6.0, 2.0), "bottom": (6.0, 6.0, 1.5)}),
    5: Fire("fog", "In a hurry; cut the candle short. The casserole burst at 110. Gas off, door "
            "open, shards swept out, two hours of candle again, then as usual.",
            "47 kg, number 5", (98.7, 96.4, 75.5), 430, 935, FIVE_AND_THREE),
}  # fmt: skip


def keep_kiln(ledger: Ledger) -> None:
    """Write kiln and places."""
    first = when("03-02 12:00")
    ledger.entry(
        "kilns",
        KILN,
        first,
        name="the little downdraught",
        volume_l=220.0,
        fuel="propane",
        cones="self-supporting",
        end_cone="9",
    )
    for level in LEVELS:
        ledger.entry("places", f"place-{level}", first, kiln=KILN, level=level)


def keep_loads(ledger: Ledger) -> None:
    """Write the loads, before anything is placed in them."""
    for number, days in LOAD_DAYS.items():
        ledger.entry(
            "loads",
            f"load-{number}",
            when(f"{days.placed} 14:00"),
            kiln=KILN,
            name=f"load {number}",
        )


def keep_firings(ledger: Ledger) -> None:
    """Write the firings with logs, cones, gas and moments."""
    for number in FIRES:
        _keep_firing(ledger, number)
    ledger.entry("good_firings", "good-firing-1", when("09-14 18:00"), firing="firing-1")


def _keep_firing(ledger: Ledger, number: int) -> None:
    fire, firing = FIRES[number], f"firing-{number}"
    lit = when(LOAD_DAYS[number].lit)
    opened = when(LOAD_DAYS[number].opened) - timedelta(minutes=30)
    ledger.entry(
        "firings",
        firing,
        lit,
        load=f"load-{number}",
        number=number,
        weather=fire.weather,
        note=fire.note,
    )
    moments = {
        "candle": lit,
        "sealed": lit + timedelta(minutes=fire.sealed),
        "shut off": lit + timedelta(minutes=fire.shut_off),
        "opened": opened,
    }
    for kind, at in moments.items():
        moment = f"{firing}-{kind.replace(' ', '-')}"
        ledger.entry("moments", moment, at, firing=firing, kind=kind)
    for minute, line in lines_of(number):
        at = lit + timedelta(minutes=minute)
        ledger.entry(
            "log_lines",
            f"{firing}-line-{minute:04d}",
            at,
            firing=firing,
            temp_c=line.temp_c,
            pressure_kpa=line.pressure_kpa,
            damper=line.damper,
            flame=line.flame,
            note=line.note,
        )
    for level, clocks in fire.cones.items():
        for cone, clock in zip(("8", "9", "10"), clocks, strict=True):
            ledger.entry(
                "cone_readings",
                f"{firing}-{level}-cone-{cone}",
                opened + timedelta(minutes=10),
                firing=firing,
                place=f"place-{level}",
                cone=cone,
                clock=clock,
            )
    for minute, cone, clock in SEEN.get(number, ()):
        ledger.entry(
            "cone_readings",
            f"{firing}-seen-cone-{cone}",
            lit + timedelta(minutes=minute),
            firing=firing,
            place="place-middle",
            cone=cone,
            clock=clock,
            when_cold=False,
        )
    minutes = (0, fire.sealed, fire.shut_off)
    for step, (minute, gross_kg) in enumerate(zip(minutes, fire.gross_kg, strict=True), start=1):
        ledger.entry(
            "fuel_weights",
            f"{firing}-fuel-{step}",
            lit + timedelta(minutes=minute),
            firing=firing,
            cylinder=fire.cylinder,
            gross_kg=gross_kg,
            tare_kg=TARE_KG,
        )


def lines_of(number: int) -> list[tuple[int, Corner]]:
    """Give the lines of a firing's log: minutes since the candle, and what was written."""
    corners = CORNERS[number]
    shut_off = FIRES[number].shut_off
    random = Random(SEED + number)
    lines: list[tuple[int, Corner]] = []
    for here, there in pairwise(corners):
        lines.append((here.minute, here))
        minute = here.minute
        while minute < shut_off:
            step = CANDLE_STEP if minute < FIRES[number].sealed else random.choice(STEPS)
            minute += step
            if minute + step / 2 > there.minute:
                break
            along = (minute - here.minute) / (there.minute - here.minute)
            temp_c = here.temp_c + along * (there.temp_c - here.temp_c)
            temp_c += random.uniform(-UNSTEADY_C, UNSTEADY_C)
            lines.append(
                (
                    minute,
                    Corner(
                        minute, float(round(temp_c)), here.pressure_kpa, here.damper, here.flame
                    ),
                )
            )
    lines.append((corners[-1].minute, corners[-1]))
    return lines
