"""How a pot of the demo was made: weighed, coated dip by dip, weighed again, judged.

What the scale showed is worked out backwards from the thickness a coat is to
have, so that the program, reckoning forwards, finds that thickness again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from demo.buckets import slop_in
from demo.forms import SHAPES
from demo.ledger import Ledger, when
from wareboard.core.pot.coated import Extent, Side, coated_dm2

PACKING = 0.50
CM3_IN_DM2_BY_MM = 10.0
CLAY = "buff-stoneware"

# Share of water that dry clay takes from the air: 0.8 % times a power of the humidity.
AIR_SHARE = 0.008
AIR_POWER = 0.42

LEFT_OF_THE_WATER = 0.12
"""What is left in the wall of a coat's water when the next coat goes on."""

WIPED_CM = 0.5
"""How far below the rim an outside dip ends."""

STICKS_G_DM2 = 1.6
FILTERS_G_DM2 = 3.0
"""Dry coat after no time, and what it gains with the root of the seconds."""


@dataclass(frozen=True)
class Days:
    """When the pots of one load were thrown, dried, glazed, placed, fired and taken out."""

    thrown: str
    bone_dry: str
    glazed: str
    placed: str
    lit: str
    opened: str
    rh_percent: float


LOAD_DAYS = {
    1: Days("09-02", "09-09", "09-10", "09-12", "09-13 05:30", "09-14 10:10", 68.0),
    2: Days("09-15", "09-22", "09-24", "09-26", "09-27 05:30", "09-28 10:20", 56.0),
    3: Days("09-29", "10-06", "10-08", "10-10", "10-11 05:30", "10-12 10:10", 78.0),
    4: Days("10-13", "10-20", "10-22", "10-24", "10-25 05:00", "10-26 10:30", 70.0),
    5: Days("11-02", "11-09", "11-12", "11-14", "11-15 06:40", "11-16 13:00", 87.0),
}


@dataclass(frozen=True)
class Dip:
    """One coat: from which bucket, on which side, how thick when dry [mm]."""

    bucket: str
    side: Side
    mm: float
    extent: Extent = "whole"
    lip_cm: float | None = None
    seconds: float | None = None


@dataclass(frozen=True)
class Judged:
    """How one surface came out."""

    surface: str
    thumb: str
    words: str = ""
    faults: tuple[Mapping[str, Any], ...] = ()


@dataclass(frozen=True)
class Plan:
    """A pot from the wheel to the shelf."""

    number: int
    form: str
    dry_g: float
    firing: int
    level: str
    dips: tuple[Dip, ...]
    judged: tuple[Judged, ...]
    foot_gap_mm: float | None = None
    name: str = ""
    note: str = ""
    over_g: float = 0.0
    own_id: str = ""
    scale_digits: int = 0
    facts: Mapping[str, Any] = field(default_factory=dict)

    @property
    def pot(self) -> str:
        """Its id."""
        return self.own_id or f"pot-{self.number:02d}"


def inside(bucket: str, mm: float) -> Dip:
    """Pour a pot out, lip and all."""
    return Dip(bucket, "inside", mm)


def outside(bucket: str, mm: float) -> Dip:
    """Dip a pot up to its lip, which has the inside's coat already."""
    return Dip(bucket, "outside", mm, extent="below the lip", lip_cm=WIPED_CM)


def water_from_air_g(dry_g: float, rh_percent: float) -> float:
    """Work out what dry clay holds of the air's water [g]."""
    humidity = rh_percent / 100
    return dry_g * AIR_SHARE * float((humidity / (1 - humidity)) ** AIR_POWER)


def faults(*words: str, **facts: Any) -> tuple[dict[str, Any], ...]:
    """Name the faults of a verdict."""
    return tuple({"word": word, **facts} for word in words)


def keep_pot(ledger: Ledger, plan: Plan) -> None:
    """Write one pot with all that happened to it."""
    days = LOAD_DAYS[plan.firing]
    minutes = timedelta(minutes=3 * (plan.number % 20))
    ledger.entry(
        "pots",
        plan.pot,
        when(f"{days.thrown} 10:00") + minutes,
        name=plan.name or SHAPES[plan.form].name,
        form=plan.form,
        clay=CLAY,
        foot_gap_mm=plan.foot_gap_mm,
        note=plan.note,
        **plan.facts,
    )
    weigh(ledger, plan.pot, "bone-dry", when(f"{days.bone_dry} 16:00") + minutes, plan.dry_g)
    coats_g = keep_coats(ledger, plan, when(f"{days.glazed} 09:00") + minutes)
    lit = when(days.lit)
    morning_g = plan.dry_g + coats_g + water_from_air_g(plan.dry_g, days.rh_percent) + plan.over_g
    weigh(
        ledger,
        plan.pot,
        f"before-firing-{plan.firing}",
        lit - timedelta(minutes=45) + minutes / 3,
        morning_g,
        state="glazed",
        digits=plan.scale_digits,
    )
    place(ledger, plan.pot, plan.firing, plan.level, minutes)
    judge(ledger, plan.pot, when(days.opened) + minutes, plan.judged)


def weigh(
    ledger: Ledger,
    pot: str,
    occasion: str,
    at: datetime,
    weight_g: float,
    *,
    state: str = "bone dry",
    digits: int = 0,
) -> None:
    """Write what the scale showed; most pots are weighed to the gram."""
    shown_g = float(round(weight_g, digits))
    ledger.entry("weighings", f"{pot}-{occasion}", at, pot=pot, weight_g=shown_g, state=state)


def keep_coats(ledger: Ledger, plan: Plan, at: datetime) -> float:
    """Write the coats of a pot; gives the dry glaze on it [g].

    The inside is poured in the morning, the outside dipped when the wall is
    pale again, and whatever comes on top of it two hours later.
    """
    rh_percent = LOAD_DAYS[plan.firing].rh_percent
    before_g = plan.dry_g + water_from_air_g(plan.dry_g, min(rh_percent, 70.0))
    coats_g = 0.0
    hours = 0
    for number, dip in enumerate(plan.dips, start=1):
        if number > 1:
            hours += 5 if dip.side == "outside" and hours == 0 else 2
        at_this = at + timedelta(hours=hours)
        slop = slop_in(ledger, dip.bucket, at_this)
        dry_g_dm2 = dip.mm * CM3_IN_DM2_BY_MM * PACKING * slop.solid_g_cm3
        dry_g = dry_g_dm2 * coated_dm2(
            SHAPES[plan.form].outline,
            SHAPES[plan.form].wall_mm,
            side=dip.side,
            extent=dip.extent,
            depth_cm=dip.lip_cm,
            foot_gap_mm=plan.foot_gap_mm or 0.0,
        )
        wet_g = dry_g / slop.dry_fraction
        start_g = float(round(before_g, plan.scale_digits))
        ledger.entry(
            "coats",
            f"{plan.pot}-coat-{number}",
            at_this,
            pot=plan.pot,
            bucket=dip.bucket,
            side=dip.side,
            extent=dip.extent,
            how="poured" if dip.side == "inside" else "dipped",
            seconds=dip.seconds or seconds_for(dry_g_dm2),
            before_g=start_g,
            after_g=float(round(start_g + wet_g, plan.scale_digits)),
            lip_cm=dip.lip_cm,
            beneath="bone dry" if number == 1 else "just turning pale",
        )
        before_g += dry_g + LEFT_OF_THE_WATER * (wet_g - dry_g)
        coats_g += dry_g
    return coats_g


def seconds_for(dry_g_dm2: float) -> float:
    """How long a pot stays in the slop for such a coat [s], to the half second."""
    root = max(dry_g_dm2 - STICKS_G_DM2, 0.0) / FILTERS_G_DM2
    return max(round(2 * root**2) / 2, 1.0)


def place(ledger: Ledger, pot: str, firing: int, level: str, minutes: timedelta) -> None:
    """Write where a pot stood."""
    ledger.entry(
        "placings",
        f"{pot}-in-load-{firing}",
        when(f"{LOAD_DAYS[firing].placed} 15:00") + minutes,
        load=f"load-{firing}",
        pot=pot,
        place=f"place-{level}",
    )


def judge(ledger: Ledger, pot: str, at: datetime, judged: Sequence[Judged]) -> None:
    """Write the verdicts on a pot's surfaces."""
    for verdict in judged:
        verdict_id = f"{pot}-{verdict.surface}"
        ledger.entry(
            "verdicts",
            verdict_id,
            at,
            pot=pot,
            surface=verdict.surface,
            thumb=verdict.thumb,
            words=verdict.words,
        )
        ledger.parts("faults", "verdict", verdict_id, verdict.faults)
