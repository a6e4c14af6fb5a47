"""What is to be said of a whole load before it is lit.

Sources
-------
Counts and sums of :mod:`wareboard.core.drying.lighting`.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from wareboard.core.answer import Answer, Interval
from wareboard.core.doubt import together
from wareboard.core.drying.air import SOURCES
from wareboard.core.drying.lighting import SLOW_START, BeforeLighting
from wareboard.core.drying.signs import Sign


@dataclass(frozen=True)
class LoadStatement:
    """A load, pot by pot and together.

    Attributes
    ----------
    go, wait, stop, cannot_tell : int
        Pots by sign.
    weighed : int
        Pots whose grams are in the sums.
    over_dry_g, over_air_g : float
        Their water over dry, and over what the air explains [g].
    say : str
        One sentence for the potter.
    """

    go: int
    wait: int
    stop: int
    cannot_tell: int
    weighed: int
    over_dry_g: float
    over_air_g: float
    say: str


def _count(number: int, says: str, say: str) -> str:
    return f"{number} pot{says if number == 1 else say}"


def _sentence(counts: dict[Sign, int], total: int) -> str:
    if total == 0:
        return "No pot in this load yet."
    if counts[Sign.GO] == total:
        whole = "The pot is" if total == 1 else f"All {total} pots are"
        return f"{whole} a {Sign.GO.reads}."
    parts = [
        _count(counts[Sign.STOP], " is too wet to light", "s are too wet to light"),
        _count(counts[Sign.WAIT], " should wait", "s should wait"),
        _count(counts[Sign.CANNOT_TELL], " cannot be told", "s cannot be told"),
    ]
    shown = [
        part
        for part, sign in zip(parts, (Sign.STOP, Sign.WAIT, Sign.CANNOT_TELL), strict=True)
        if counts[sign]
    ]
    return f"{', '.join(shown)}, of {total} in this load."


def load_statement(pots: Sequence[Answer[BeforeLighting]]) -> Answer[LoadStatement]:
    """Add up a load.

    Parameters
    ----------
    pots : sequence of Answer of BeforeLighting
        Every pot of the load, as :func:`before_lighting` judged it.

    Returns
    -------
    Answer of LoadStatement
        Counts by sign, and the grams of those pots whose dry weight is known
        or estimated; a caution says how many are left out.

    Notes
    -----
    Doubts of dry weights know nothing of each other; the doubt of the air is
    the same for every pot and is added straight.
    """
    counts = {sign: sum(pot.result.sign is sign for pot in pots) for sign in Sign}
    known = [pot for pot in pots if pot.result.over_dry_g is not None]
    sums = {}
    doubt = {}
    for name, add in (("over_dry_g", together), ("over_air_g", sum)):
        total = sum(getattr(pot.result, name) for pot in known)
        ends = [(getattr(pot.result, name), pot.doubt[name]) for pot in known]
        sums[name] = total
        if ends:
            doubt[name] = Interval(
                total - add([value - end.low for value, end in ends]),
                total + add([end.high - value for value, end in ends]),
                f"doubts of {len(known)} pot{'s' if len(known) > 1 else ''}",
            )
    left_out = len(pots) - len(known)
    cautions = [SLOW_START]
    if left_out:
        cautions.append(f"{_count(left_out, ' is', 's are')} not in the grams: no dry weight.")
    return Answer(
        LoadStatement(
            counts[Sign.GO],
            counts[Sign.WAIT],
            counts[Sign.STOP],
            counts[Sign.CANNOT_TELL],
            len(known),
            sums["over_dry_g"],
            sums["over_air_g"],
            _sentence(counts, len(pots)),
        ),
        doubt=doubt,
        working=(
            f"{sums['over_dry_g']:.0f} g over dry, {sums['over_air_g']:.0f} g over the air too.",
        ),
        cautions=tuple(cautions),
        sources=SOURCES,
    )
