"""The density of the dry powder of a recipe.

The powders keep their volumes when they are mixed, so the volumes are added:
the result is the harmonic mean of the densities by weight.

Sources
-------
Densities of the library: table ``materials__wareboard2026``. The doubt is told
in `wareboard.core.recipe.spread`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from wareboard.core.answer import Answer
from wareboard.core.doubt import NORMAL_90, around
from wareboard.core.recipe.lines import RecipeLine, mixture
from wareboard.core.recipe.spread import BASIS_OF_DENSITIES, USUAL_SOLID_G_CM3, density_g_cm3


@dataclass(frozen=True)
class SolidDensity:
    """Density of a recipe's powder.

    Attributes
    ----------
    solid_density_g_cm3 : float
        Mass over volume of the grains themselves [g cm⁻³].
    """

    solid_density_g_cm3: float


def solid_density(lines: Sequence[RecipeLine]) -> Answer[SolidDensity]:
    """Work out the density of the powder of a recipe.

    Parameters
    ----------
    lines : sequence of RecipeLine
        In any order.

    Returns
    -------
    Answer of SolidDensity
        With a caution for every powder whose density had to be taken as 2.6.

    Raises
    ------
    CompositionError
        If all parts are 0.

    Notes
    -----
    ``1 / density = sum(share_i / density_i)``. The errors of the densities
    know nothing of each other and count by share of volume.
    """
    mixed = mixture(lines)
    volumes = []
    relative = []
    cautions = []
    for analysis, share in mixed.shares:
        density, deviation = density_g_cm3(analysis)
        volumes.append(share / density)
        relative.append(share / density * deviation / density)
        if analysis.density_g_cm3 is None:
            cautions.append(
                f"No density is given for {analysis.called}: counted as {USUAL_SOLID_G_CM3} g/cm³."
            )
    volume = fsum(volumes)
    found = 1.0 / volume
    half = NORMAL_90 * found * sqrt(fsum(part * part for part in relative)) / volume
    return Answer(
        result=SolidDensity(found),
        doubt={"solid_density_g_cm3": around(found, half, BASIS_OF_DENSITIES)},
        working=(f"100 g fill {100.0 * volume:.1f} cm³, which is {found:.2f} g/cm³.",),
        cautions=tuple(cautions),
        sources=mixed.sources,
    )
