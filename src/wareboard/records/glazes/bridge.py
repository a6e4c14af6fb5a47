"""Rows of the glaze room, turned into what the core reckons with."""

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from wareboard.core.answer import Answer
from wareboard.core.chemistry import Analysis
from wareboard.core.coat.weighed import SOLID_G_CM3_WHERE_NOT_KNOWN
from wareboard.core.recipe import RecipeLine, solid_density
from wareboard.core.slop import BottleDensity, density_from_bottle, dry_fraction

from .models import Batch, BatchLine, Reading


@dataclass(frozen=True)
class Liked:
    """The density a glaze had on its good pots.

    Attributes
    ----------
    sg : float
        Median of the readings in force.
    readings : int
        How many different readings it rests on.
    """

    sg: float
    readings: int


def density_of(reading: Reading, *, scale_step_g: float) -> Answer[BottleDensity]:
    """Work out the density of a reading, with its doubt."""
    return density_from_bottle(
        reading.full_g, reading.empty_g, reading.volume_ml, scale_step_g=scale_step_g
    )


def liked_density(readings: Sequence[Reading], *, scale_step_g: float) -> Liked | None:
    """Give the density that readings on good pots had; None where there are none."""
    if not readings:
        return None
    densities = [density_of(r, scale_step_g=scale_step_g).result.sg for r in readings]
    return Liked(statistics.median(densities), len(densities))


def _weights(
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


def solid_of(
    batch: Batch,
    lines: Mapping[str, Sequence[BatchLine]],
    densities: Mapping[str, Analysis],
) -> float | None:
    """Work out the density of a batch's powder from what was weighed into it.

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
    float or None
        Density [g/cm³]; None where nothing was weighed.
    """
    weights = _weights(batch, lines)
    if not weights:
        return None
    powder = [
        RecipeLine(line.material_id, grams, addition=False, analysis=densities[line.material_id])
        for line, grams in weights
    ]
    return solid_density(powder).result.solid_density_g_cm3
