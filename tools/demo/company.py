"""The other pots of each load, in brief: what, where, and whether it came out well."""

from dataclasses import dataclass
from datetime import timedelta
from random import Random

from demo.forms import SHAPES
from demo.ledger import Ledger, when
from demo.pots import CLAY, LOAD_DAYS, Judged, faults, judge, place, water_from_air_g, weigh

SEED = 1309
LEVELS = ("top", "middle", "bottom")
SPREAD = 0.04
"""Thrown pots of one form differ by so much of their weight, one standard deviation."""

# Forms of the other pots, load by load; with the pots told in full and the
# tiles the loads are 38, 41, 40, 36 and 39 pieces.
COMPANY: dict[int, dict[str, int]] = {
    1: {"butter-dish": 1, "jug": 2, "pie-dish": 1, "casserole": 1, "mug": 12, "beaker": 7,
        "cereal-bowl": 6, "egg-cup": 4},
    2: {"jug": 1, "oil-bottle": 1, "casserole": 2, "colander-bowl": 1, "mug": 14, "beaker": 6,
        "cereal-bowl": 7, "bud-vase": 5},
    3: {"butter-dish": 1, "jug": 1, "casserole": 1, "soup-bowl": 2, "mug": 12, "beaker": 8,
        "cereal-bowl": 6, "egg-cup": 5},
    4: {"pie-dish": 1, "oil-bottle": 1, "casserole": 1, "salt-pig": 1, "planter": 1, "mug": 11,
        "beaker": 6, "cereal-bowl": 4, "bud-vase": 5},
    5: {"butter-dish": 1, "jug": 1, "casserole": 1, "garden-pot": 2, "mug": 12, "beaker": 6,
        "cereal-bowl": 5, "egg-cup": 4},
}  # fmt: skip
WEIGHED = frozenset(SHAPES) - {
    "mug",
    "beaker",
    "cereal-bowl",
    "egg-cup",
    "bud-vase",
    "test-tile",
}
"""Forms of which every pot is weighed bone dry."""

WORKSHOP = "Saturday workshop, place "
NOBODY = "Saturday workshop, no mark"
# Load, and whose the last pots of it are; with the one beside the casserole eleven, two of them
# with nobody's mark.
STUDENTS = {
    4: (*(f"{WORKSHOP}{n}" for n in (1, 1, 2, 3)), NOBODY),
    5: (*(f"{WORKSHOP}{n}" for n in (2, 4, 5, 6)), NOBODY),
}

HANDLE = Judged("whole", "sideways", "handle cracked where it joins", faults("crack"))
WARPED = Judged("whole", "sideways", "rim out of true", faults("warped"))
CRUMBS = Judged("whole", "sideways", "crumbs of the casserole on it", faults("specks"))
PALE = Judged("whole", "sideways", "paler than in September", faults("pale"))
SPOILT = {
    1: {4: HANDLE},
    2: {9: WARPED, 20: HANDLE},
    3: {6: PALE, 13: HANDLE, 19: PALE},
    4: {12: WARPED},
    5: {8: CRUMBS, 15: HANDLE, 26: CRUMBS},
}
GOOD = Judged("whole", "up")

BESIDE_CASSEROLE = 3
"""Number, in the last load, of the pot that stood beside the casserole."""


@dataclass(frozen=True)
class Other:
    """One of the other pots."""

    number: int
    firing: int
    form: str
    level: str
    whose: str
    judged: Judged

    @property
    def pot(self) -> str:
        """Its id: the load is its hundred."""
        return f"pot-{self.firing}{self.number:02d}"


def others_of(firing: int) -> list[Other]:
    """Give the other pots of a load, in the order they were thrown."""
    forms = [form for form, count in COMPANY[firing].items() for _ in range(count)]
    Random(SEED + firing).shuffle(forms)
    whose = dict(enumerate(STUDENTS.get(firing, ()), start=len(forms) - 4))
    if firing == max(LOAD_DAYS):
        whose[BESIDE_CASSEROLE] = f"{WORKSHOP}1"
    return [
        Other(
            number,
            firing,
            form,
            "bottom" if number == BESIDE_CASSEROLE else LEVELS[number % 3],
            whose.get(number, ""),
            SPOILT[firing].get(number, GOOD),
        )
        for number, form in enumerate(forms, start=1)
    ]


def keep_company(ledger: Ledger) -> None:
    """Write the other pots of all loads."""
    for firing in COMPANY:
        for other in others_of(firing):
            _keep_other(ledger, other)


def _keep_other(ledger: Ledger, other: Other) -> None:
    days = LOAD_DAYS[other.firing]
    minutes = timedelta(minutes=other.number)
    shape = SHAPES[other.form]
    is_casserole_neighbour = other.firing == max(LOAD_DAYS) and other.number == BESIDE_CASSEROLE
    ledger.entry(
        "pots",
        other.pot,
        when(f"{days.thrown} 14:00") + minutes,
        name=shape.name,
        form=other.form,
        clay=CLAY,
        whose=other.whose,
        note="Stood beside the casserole that burst." if is_casserole_neighbour else "",
    )
    if other.form in WEIGHED:
        scatter = Random(f"{SEED} {other.pot}").gauss(1.0, SPREAD)
        dry_g = float(round(shape.dry_g * scatter))
        weigh(ledger, other.pot, "bone-dry", when(f"{days.bone_dry} 17:30") + minutes, dry_g)
        if other.form == "garden-pot":
            _keep_bare(ledger, other, dry_g)
    place(ledger, other.pot, other.firing, other.level, minutes + timedelta(hours=1))
    judge(ledger, other.pot, when(days.opened) + minutes + timedelta(minutes=25), (other.judged,))


def _keep_bare(ledger: Ledger, other: Other, dry_g: float) -> None:
    """Weigh a garden pot, which is never glazed, on the morning of its firing."""
    days = LOAD_DAYS[other.firing]
    minutes = timedelta(minutes=other.number)
    ledger.entry(
        "marks",
        f"{other.pot}-bare",
        when(f"{days.glazed} 17:00") + minutes,
        pot=other.pot,
        kind="bare",
        meant=True,
        where="all of it",
    )
    weigh(
        ledger,
        other.pot,
        f"before-firing-{other.firing}",
        when(days.lit) - timedelta(minutes=30) + minutes / 3,
        dry_g + water_from_air_g(dry_g, days.rh_percent) + other.number % 2,
        state="dry on the shelf",
    )
