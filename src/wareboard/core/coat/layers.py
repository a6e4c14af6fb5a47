"""Coats on top of each other, and whether the next one may run.

Where the inside, the outside and a third dip meet at the lip, three coats add
up. How much a glaze bears is its own: one wants 0.8 mm and another runs above
0.7, so the limit is given with the glaze and never assumed.

Sources
-------
Sums of thicknesses; the limits come from the studio's own pots.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from wareboard.core.answer import Answer
from wareboard.core.bounds import within
from wareboard.core.coat.words import CoatWord, check_coat_mm, check_doubt_mm, coat_words
from wareboard.core.doubt import around
from wareboard.core.errors import ShapeError
from wareboard.core.units import LENGTH_MM

_GAP_MM = replace(
    LENGTH_MM, name="foot gap", above=False, words="millimetres from 0 to 100000, such as 4"
)


@dataclass(frozen=True)
class Layer:
    """One coat and where it lies.

    Attributes
    ----------
    coat_mm : float
        Dry thickness [mm].
    doubt_mm : float
        Half of its 90 % interval [mm].
    regions : frozenset of str
        Parts of the pot it covers, such as inside, lip, outside.
    """

    coat_mm: float
    doubt_mm: float
    regions: frozenset[str]


@dataclass(frozen=True)
class Place:
    """All the coats on one part of a pot.

    Attributes
    ----------
    region : str
        Which part.
    layers : int
        How many coats lie there.
    total_mm, low_mm, high_mm : float
        Their thickness together, and its 90 % interval [mm].
    """

    region: str
    layers: int
    total_mm: float
    low_mm: float
    high_mm: float


@dataclass(frozen=True)
class Stack:
    """The coats of a pot, part by part.

    Attributes
    ----------
    places : tuple of Place
        In order of region.
    thickest : str or None
        Region with the most on it; None without any coat.
    thickest_mm : float
        What lies there [mm].
    """

    places: tuple[Place, ...]
    thickest: str | None
    thickest_mm: float


class RunRisk(StrEnum):
    """Whether a thickness may run, against this glaze's own limit."""

    NO = "no"
    CLOSE = "close to where it runs"
    MAY_RUN = "may run"
    NOT_KNOWN = "not known yet"


@dataclass(frozen=True)
class LayerWarning:
    """What the next layer would make of it.

    Attributes
    ----------
    word : CoatWord
        Against this glaze's own good pots.
    run : RunRisk
        Against the thickness above which this glaze runs.
    over_limit_mm : float or None
        Thickness less that limit [mm]; None where no limit is known.
    foot_gap_mm : float or None
        Bare clay from the glaze line to the shelf [mm], as given.
    say : str
        One sentence for the potter.
    """

    word: CoatWord
    run: RunRisk
    over_limit_mm: float | None
    foot_gap_mm: float | None
    say: str


def stack(layers: Sequence[Layer]) -> Answer[Stack]:
    """Add up the coats on each part of a pot.

    Parameters
    ----------
    layers : sequence of Layer
        Every coat on the pot, in any order.

    Returns
    -------
    Answer of Stack
        Total thickness where coats meet, with its doubt.

    Raises
    ------
    ShapeError
        If a thickness or its doubt cannot be, or a coat lies nowhere.

    Notes
    -----
    The doubts are added straight, not at a right angle: the packing and the
    area behind them are the same guess for every coat of a pot.
    """
    for layer in layers:
        check_coat_mm(layer.coat_mm)
        check_doubt_mm(layer.doubt_mm)
        if not layer.regions:
            raise ShapeError(
                f"The coat of {layer.coat_mm:g} mm lies on no part of the pot.",
                field="regions",
                seen=(),
                accepted="at least one part, such as inside, lip or outside",
            )
    places = []
    for region in sorted({region for layer in layers for region in layer.regions}):
        here = [layer for layer in layers if region in layer.regions]
        total = sum(layer.coat_mm for layer in here)
        half = sum(layer.doubt_mm for layer in here)
        places.append(Place(region, len(here), total, max(total - half, 0.0), total + half))
    if not places:
        return Answer(Stack((), None, 0.0), working=("No coat on this pot yet.",))
    most = max(places, key=lambda place: place.total_mm)
    return Answer(
        Stack(tuple(places), most.region, most.total_mm),
        doubt={
            "thickest_mm": around(
                most.total_mm,
                most.high_mm - most.total_mm,
                f"doubts of {most.layers} coat{'s' if most.layers > 1 else ''} added up",
                lowest=0.0,
            )
        },
        working=tuple(
            f"{place.region}: {place.layers} coat{'s' if place.layers > 1 else ''}, "
            f"{place.total_mm:.2f} mm."
            for place in places
        ),
    )


def _run_risk(
    total_mm: float, doubt_mm: float, runs_above_mm: float | None
) -> tuple[RunRisk, float | None]:
    if runs_above_mm is None:
        return RunRisk.NOT_KNOWN, None
    over = total_mm - runs_above_mm
    if over > 0.0:
        return RunRisk.MAY_RUN, over
    return (RunRisk.CLOSE if over + doubt_mm > 0.0 else RunRisk.NO), over


def _sentence(
    total_mm: float,
    word: CoatWord,
    risk: RunRisk,
    runs_above_mm: float | None,
    foot_gap_mm: float | None,
) -> str:
    said = f"{total_mm:.2f} mm in all"
    if word is not CoatWord.NOT_KNOWN:
        said += f", {word.value} for this glaze"
    gap = "" if foot_gap_mm is None else f", with {foot_gap_mm:g} mm of bare foot to catch it"
    if risk is RunRisk.MAY_RUN:
        return f"{said}: it runs above {runs_above_mm:g} mm, so it may run{gap}."
    if risk is RunRisk.CLOSE:
        return f"{said}: close to the {runs_above_mm:g} mm above which it runs{gap}."
    if risk is RunRisk.NO:
        return f"{said}: under the {runs_above_mm:g} mm above which it runs."
    return f"{said}: where this glaze runs is not known yet."


def layer_warning(
    total_mm: float,
    *,
    doubt_mm: float,
    good_mm: Sequence[float] = (),
    runs_above_mm: float | None = None,
    foot_gap_mm: float | None = None,
) -> Answer[LayerWarning]:
    """Say before the next dip what its coat would make of the thickest part.

    Parameters
    ----------
    total_mm : float
        Thickness with the next layer counted in [mm], as :func:`stack` gives it.
    doubt_mm : float
        Half of its 90 % interval [mm].
    good_mm : sequence of float
        Thicknesses of this glaze's own good pots [mm].
    runs_above_mm : float, optional
        Thickness above which this glaze runs [mm]; of two glazes on each
        other, the one that runs first.
    foot_gap_mm : float, optional
        Bare clay from the glaze line to the shelf [mm].

    Returns
    -------
    Answer of LayerWarning
        Word, risk and sentence. Above the limit it may run; within the doubt
        of it, it is close.

    Raises
    ------
    ShapeError
        If a length cannot be.
    """
    band = coat_words(total_mm, good_mm, doubt_mm=doubt_mm)
    if runs_above_mm is not None:
        check_coat_mm(runs_above_mm, field="runs-above-mm")
    if foot_gap_mm is not None:
        within(foot_gap_mm, _GAP_MM, field="foot-gap-mm", error=ShapeError)
    risk, over = _run_risk(total_mm, doubt_mm, runs_above_mm)
    doubt = {}
    if over is not None:
        doubt["over_limit_mm"] = around(over, doubt_mm, "doubt of the coats")
    return Answer(
        LayerWarning(
            band.result.word,
            risk,
            over,
            foot_gap_mm,
            _sentence(total_mm, band.result.word, risk, runs_above_mm, foot_gap_mm),
        ),
        doubt=doubt,
        working=band.working,
        cautions=band.cautions,
    )
