"""Rows of the glaze room, turned into what the core reckons with."""

import math
import statistics
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Protocol

from wareboard.core.answer import Answer
from wareboard.core.chemistry import Analysis
from wareboard.core.coat.weighed import SOLID_G_CM3_WHERE_NOT_KNOWN
from wareboard.core.doubt import student_90
from wareboard.core.recipe import RecipeLine, SolidDensity, solid_density
from wareboard.core.slop import (
    BottleDensity,
    SlopWord,
    Water,
    density_from_bottle,
    dry_fraction,
    water,
)
from wareboard.records.people.shown import rounded
from wareboard.records.stores.models import Material

from .models import Batch, BatchLine, Reading

REMEMBERED = 4096
HUNDRED = 100.0
ENOUGH = 3
SG_STEP, HEAVIER_THAN_WATER = 0.001, 1.001


@dataclass(frozen=True)
class Asked:
    """One line of a recipe, its material found.

    Attributes
    ----------
    material : Material or str
        From the stores; a name that is to be taken into them.
    parts : float
        Parts by weight.
    addition : bool
        Whether it comes on top of the hundred.
    """

    material: Material | str
    parts: float
    addition: bool


@dataclass(frozen=True)
class Liked:
    """The density a glaze had on its good pots.

    Attributes
    ----------
    sg : float
        Median of the readings in force.
    readings : int
        How many different readings it rests on.
    half : float
        Half of the 90 % interval of the density: how far they lie apart, and
        how far one reading can be trusted.
    """

    sg: float
    readings: int
    half: float


class Weighed(Protocol):
    """A bottle of slop on the scale: a reading, or as much of one as is needed."""

    @property
    def pk(self) -> str:
        """Which reading."""

    @property
    def bucket_id(self) -> str:
        """Of which bucket."""

    @property
    def at(self) -> datetime:
        """When."""

    @property
    def full_g(self) -> float:
        """Full bottle [g]."""

    @property
    def empty_g(self) -> float:
        """Empty bottle [g]."""

    @property
    def volume_ml(self) -> float:
        """What it holds [ml]."""

    @property
    def flow(self) -> str:
        """How the slop hung."""


def density_of(reading: Weighed, *, scale_step_g: float) -> Answer[BottleDensity]:
    """Work out the density of a reading, with its doubt."""
    return _density(reading.full_g, reading.empty_g, reading.volume_ml, scale_step_g)


@lru_cache(maxsize=REMEMBERED)
def _density(
    full_g: float, empty_g: float, volume_ml: float, scale_step_g: float
) -> Answer[BottleDensity]:
    """Remember the density of a full bottle: hundreds of coats rest on the same."""
    return density_from_bottle(full_g, empty_g, volume_ml, scale_step_g=scale_step_g)


def liked_density(readings: Sequence[Reading], *, scale_step_g: float) -> Liked | None:
    """Give the density that readings on good pots had; None where there are none."""
    if not readings:
        return None
    answers = [density_of(r, scale_step_g=scale_step_g) for r in readings]
    densities = [answer.result.sg for answer in answers]
    own = statistics.median(half_of(answer) for answer in answers)
    return Liked(statistics.median(densities), len(densities), max(own, _apart(densities)))


def half_of(density: Answer[BottleDensity]) -> float:
    """Give half of the 90 % interval of a reading's density."""
    spread = density.doubt["sg"]
    return (spread.high - spread.low) / 2


def _apart(densities: Sequence[float]) -> float:
    """Give how well the middle of some densities is known, from how far they lie apart.

    Two are not enough for Student's factors: half of their range stands in.
    """
    if len(densities) < ENOUGH:
        return (max(densities) - min(densities)) / 2
    spread = statistics.stdev(densities) / math.sqrt(len(densities))
    return student_90(len(densities) - 1) * spread


def against(density: Answer[BottleDensity], liked: Liked) -> SlopWord:
    """Say whether a slop is thin, right or thick: right where it may want no water at all.

    How much is in the bucket does not matter: the water grows with it, and its doubt too.
    """
    wants = water_for(1.0, density, liked).doubt["water_ml"]
    if wants.low <= 0.0 <= wants.high:
        return SlopWord.RIGHT
    return SlopWord.THICK if wants.high > 0.0 else SlopWord.THIN


def water_for(litres: float, density: Answer[BottleDensity], liked: Liked) -> Answer[Water]:
    """Work out the water that brings a bucket to the density its good pots had.

    Both densities are taken as they are shown, to the third decimal, so that
    the sum can be done again.
    """
    return water(
        litres,
        as_shown(density.result.sg),
        as_shown(liked.sg),
        sg_doubt=half_of(density),
        want_doubt=liked.half,
    )


def as_shown(sg: float) -> float:
    """Round a density to the third decimal; a slop is never water alone."""
    return max(float(rounded(sg, SG_STEP)), HEAVIER_THAN_WATER)


def weights_of(
    batch: Batch, lines: Mapping[str, Sequence[BatchLine]]
) -> list[tuple[BatchLine, float]]:
    """Give what a batch holds, line by line, the drawn share of its base included."""
    own = [(line, line.weighed_g) for line in lines.get(batch.pk, ()) if line.weighed_g]
    base = batch.drawn_from
    if base is None or batch.drawn_wet_g is None or batch.drawn_sg is None:
        return own
    under = [(line, line.weighed_g) for line in lines.get(base.pk, ()) if line.weighed_g]
    total = sum(grams for _line, grams in under)
    if not total:
        return own
    drawn_g = batch.drawn_wet_g * dry_fraction(batch.drawn_sg, SOLID_G_CM3_WHERE_NOT_KNOWN)
    return own + [(line, grams * drawn_g / total) for line, grams in under]


def solid_answer_of(
    batch: Batch,
    lines: Mapping[str, Sequence[BatchLine]],
    densities: Mapping[str, Analysis],
) -> Answer[SolidDensity] | None:
    """Work out the density of a batch's powder, with its doubt, from what was weighed into it.

    Parameters
    ----------
    batch : Batch
        Which batch, its base at hand.
    lines : mapping of str to sequence of BatchLine
        For this batch and its base what went in.
    densities : mapping of str to Analysis
        What is known of the density of each material.

    Returns
    -------
    Answer of SolidDensity, or None
        None where nothing was weighed.
    """
    weights = weights_of(batch, lines)
    if not weights:
        return None
    powder = [
        RecipeLine(line.material_id, grams, addition=False, analysis=densities[line.material_id])
        for line, grams in weights
    ]
    return solid_density(powder)


def solid_of(
    batch: Batch,
    lines: Mapping[str, Sequence[BatchLine]],
    densities: Mapping[str, Analysis],
) -> float | None:
    """Give the density alone [g/cm³], as :func:`solid_answer_of` works it out."""
    answer = solid_answer_of(batch, lines, densities)
    return None if answer is None else answer.result.solid_density_g_cm3


def in_hundred(lines: Iterable[tuple[float, bool]]) -> list[float]:
    """Scale parts so that all but the additions come to a hundred.

    Parameters
    ----------
    lines : iterable of (float, bool)
        Parts of each line as typed, and whether it is an addition.
    """
    known = list(lines)
    total = sum(parts for parts, addition in known if not addition) or HUNDRED
    return [parts * HUNDRED / total for parts, _addition in known]
