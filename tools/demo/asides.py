"""What else is known of the pots: decoration, marks of the hand, hopes, boards, the air."""

from datetime import timedelta
from typing import Any

from demo.firings import KILN
from demo.ledger import Ledger, when
from demo.pots import LOAD_DAYS

DECORATIONS: dict[str, tuple[str, str, dict[str, Any]]] = {
    "pot-02": ("resist", "09-10 12:30",
               {"lot": "wax-1", "what": "a leaf in wax", "where": "belly"}),
    "pot-03": ("sprinkled", "09-10 16:30",
               {"lot": "oyster-shell-1", "found": True, "what": "oyster shell from the creek",
                "fineness": "like coarse salt", "where": "rim"}),
    "pot-12": ("banded", "10-08 16:30",
               {"lot": "red-iron-oxide-1", "what": "iron and water, one stroke",
                "where": "under the rim"}),
    "pot-16": ("brushed", "10-22 16:30",
               {"lot": "red-iron-oxide-1", "what": "three reeds in iron", "where": "front"}),
}  # fmt: skip

# pot, what was done, when, meant, where
MARKS: tuple[tuple[str, str, str, bool | None, str], ...] = (
    ("pot-01", "rubbed", "09-11 10:00", None, "all over"),
    ("pot-06", "rubbed", "09-25 10:00", None, "outside"),
    ("pot-09", "rubbed", "10-09 10:00", None, "inside"),
    ("pot-10", "rubbed", "10-09 10:10", None, "all over"),
    ("pot-12", "rubbed", "10-09 10:20", None, "rim"),
    ("pot-13", "rubbed", "10-23 10:00", None, "outside"),
    ("pot-02", "touched up", "09-11 10:20", None, "finger mark by the handle"),
    ("pot-16", "touched up", "10-23 10:20", None, "back"),
    ("pot-12", "kissed", "10-10 15:40", None, "side, against a mug"),
    ("pot-14", "bare", "10-22 16:00", True, "a finger's width above the foot"),
    ("pot-16", "bare", "10-22 16:10", False, "thumb mark on the edge of the mouth"),
)
REMEMBERED = ("pot-03", "rubbed", "09-11 10:40", None, "rim", "I think", "11-13 20:00")

# pot, hoped or feared, when, in one line, whether it came true
HOPES: tuple[tuple[str, str, str, str, bool | None], ...] = (
    ("pot-05", "hoped", "09-26 15:00", "thick enough for red at last", True),
    ("pot-08", "feared", "09-26 15:05", "two coats that move, on a narrow foot", True),
    ("pot-09", "hoped", "10-10 15:00", "red like the bottle", False),
    ("pot-14", "feared", "10-24 15:00", "scraped from the bottom of the old bucket", False),
    ("pot-15", "hoped", "10-24 15:05", "red again", True),
    ("pot-17", "feared", "10-24 15:10", "the bucket hung like custard", True),
    ("pot-18", "feared", "11-14 15:00", "still cool to the cheek", True),
    ("pot-19", "hoped", "11-20 12:00", "a jug that pours without a drip", None),
)

AIR: tuple[tuple[str, str, float | None], ...] = (
    ("09-09 08:00", "ordinary", 66),
    ("09-10 08:00", "ordinary", 67),
    ("09-13 05:00", "ordinary", 68),
    ("09-22 08:00", "crisp", 58),
    ("09-24 07:50", "crisp", 55),
    ("09-27 05:00", "crisp", 56),
    ("10-06 08:00", "sticky", 77),
    ("10-08 07:50", "sticky", 79),
    ("10-11 05:00", "sticky", 78),
    ("10-20 08:00", "ordinary", None),
    ("10-22 07:50", "ordinary", 69),
    ("10-25 04:40", "ordinary", 70),
    ("11-09 08:00", "ordinary", 70),
    ("11-12 07:50", "sticky", 80),
    ("11-15 06:00", "fog", 87),
    ("11-20 08:00", "ordinary", 71),
)

PLANK_G = 1_840.0
STOOD_ON_PLANK = ("pot-15", "pot-16", "pot-18")
TURNED_WEIGHTS: dict[str, tuple[tuple[str, str, float], ...]] = {
    "pot-19": (("11-19 16:00", "bone dry", 1_085.0),),
    "pot-20": (
        ("11-18 12:00", "plastic", 2_356.0),
        ("11-19 09:00", "leather-hard", 2_141.0),
        ("11-19 17:00", "leather-hard", 2_052.0),
        ("11-20 09:00", "leather-hard", 1_963.0),
    ),
    "pot-21": (("11-20 09:05", "leather-hard", 668.0),),
}
IN_THE_MAKING = {
    "pot-19": ("jug", "11-16 15:00", "jug, 1 l"),
    "pot-20": ("casserole", "11-18 11:30", "casserole, in place of the one that burst"),
    "pot-21": ("soup-bowl", "11-19 11:00", "soup bowl with lugs"),
}
LINED = ("pot-19", "11-20 10:30", "rowan-bucket", 1_096.0, 1_151.0)
"""The jug has its inside and waits for its outside."""


def keep_asides(ledger: Ledger) -> None:
    """Write decoration, marks, hopes and the air."""
    for pot, (kind, day, facts) in DECORATIONS.items():
        ledger.entry("decorations", f"{pot}-{kind}", when(day), pot=pot, kind=kind, **facts)
    for pot, kind, day, meant, where in MARKS:
        mark = f"{pot}-{kind.replace(' ', '-')}"
        ledger.entry("marks", mark, when(day), pot=pot, kind=kind, meant=meant, where=where)
    pot, kind, day, meant, where, how, kept = REMEMBERED
    ledger.entry(
        "marks",
        f"{pot}-{kind}",
        when(day),
        kept=when(kept),
        pot=pot,
        kind=kind,
        meant=meant,
        where=where,
        remembered=how,
    )
    opened = {f"pot-{n:02d}": days.opened for n, days in _opened_by_pot().items()}
    for pot, kind, day, words, came_true in HOPES:
        hope = ledger.entry("hopes", f"{pot}-{kind}", when(day), pot=pot, kind=kind, words=words)
        if came_true is not None:
            at = when(opened[pot]) + timedelta(hours=2)
            ledger.entry("hope_answers", f"{hope}-answer", at, hope=hope, came_true=came_true)
    for day, word, rh_percent in AIR:
        humid = None if rh_percent is None else float(rh_percent)
        ledger.entry("air", f"air-{day[:5]}", when(day), word=word, rh_percent=humid)


def _opened_by_pot() -> dict[int, Any]:
    last_pots = {4: 1, 8: 2, 12: 3, 17: 4, 18: 5}
    return {
        number: LOAD_DAYS[next(load for last, load in last_pots.items() if number <= last)]
        for number in range(1, 19)
    }


def keep_in_the_making(ledger: Ledger) -> None:
    """Write the long plank, who stood on it, and three pots that are not fired yet."""
    plank = ledger.entry(
        "boards", "long-plank", when("03-02 13:00"), name="long plank", tare_g=PLANK_G
    )
    for pot, (form, day, name) in IN_THE_MAKING.items():
        ledger.entry("pots", pot, when(day), name=name, form=form, clay="buff-stoneware")
        ledger.entry(
            "standings",
            f"{pot}-on-plank",
            when(day) + timedelta(minutes=20),
            pot=pot,
            board=plank,
        )
        for number, (at, state, weight_g) in enumerate(TURNED_WEIGHTS[pot], start=1):
            ledger.entry(
                "weighings",
                f"{pot}-weighing-{number}",
                when(at),
                pot=pot,
                weight_g=weight_g,
                state=state,
            )
    pot, day, bucket, before_g, after_g = LINED
    ledger.entry(
        "coats",
        f"{pot}-coat-1",
        when(day),
        pot=pot,
        bucket=bucket,
        side="inside",
        how="poured",
        seconds=3.0,
        before_g=before_g,
        after_g=after_g,
        beneath="bone dry",
    )
    for pot in STOOD_ON_PLANK:
        load = "11-12" if pot == "pot-18" else "10-22"
        placed = "11-14" if pot == "pot-18" else "10-24"
        ledger.entry("standings", f"{pot}-on-plank", when(f"{load} 18:00"), pot=pot, board=plank)
        ledger.entry("standings", f"{pot}-off-plank", when(f"{placed} 14:30"), pot=pot)
    on_it_g = after_g + sum(TURNED_WEIGHTS[pot][-1][2] for pot in ("pot-20", "pot-21"))
    ledger.entry(
        "board_weighings",
        "long-plank-11-20",
        when("11-20 11:00"),
        board=plank,
        weight_g=PLANK_G + on_it_g,
    )
    ledger.entry("loads", "load-6", when("11-21 10:00"), kiln=KILN, name="next load")
    for pot in IN_THE_MAKING:
        ledger.entry("placings", f"{pot}-placed", when("11-21 10:05"), load="load-6", pot=pot)
