"""Rows of the glaze room, turned into what the core reckons with."""

import statistics
from collections.abc import Sequence
from dataclasses import dataclass

from wareboard.core.answer import Answer
from wareboard.core.slop import BottleDensity, density_from_bottle

from .models import Reading


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
