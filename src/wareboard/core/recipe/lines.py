"""The lines of a recipe, and what share each powder has in the whole.

Every line counts, additions as well: parts on top of the hundred are in the
bucket like the rest. Lines of nothing change nothing, and a powder that stands
there twice is the same as one line of both.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from wareboard.core.bounds import within
from wareboard.core.chemistry.analysis import Analysis
from wareboard.core.errors import CompositionError
from wareboard.core.units import PARTS


@dataclass(frozen=True)
class RecipeLine:
    """One line of a recipe.

    Attributes
    ----------
    material : str
        Id of the material, as the recipe has it.
    parts : float
        Parts by weight.
    addition : bool
        Whether it comes on top of the hundred.
    analysis : Analysis
        What the powder is made of.

    Raises
    ------
    CompositionError
        If the parts are negative or not finite.
    """

    material: str
    parts: float
    addition: bool
    analysis: Analysis

    def __post_init__(self) -> None:
        """Refuse parts that cannot be weighed."""
        within(
            self.parts,
            PARTS,
            field="parts",
            name=f"parts of {self.material}",
            error=CompositionError,
        )


@dataclass(frozen=True)
class Mixture:
    """A recipe as shares of its powders.

    Attributes
    ----------
    total_parts : float
        Sum of the parts, additions included.
    shares : tuple of (Analysis, float)
        Each powder once, with its share of the whole by weight [fraction].
    """

    total_parts: float
    shares: tuple[tuple[Analysis, float], ...]

    @property
    def sources(self) -> tuple[str, ...]:
        """Keys of the sources of the analyses; own sheets have none."""
        return tuple(sorted({analysis.source for analysis, _ in self.shares} - {""}))


def mixture(lines: Sequence[RecipeLine]) -> Mixture:
    """Work out the share of each powder in a recipe.

    Parameters
    ----------
    lines : sequence of RecipeLine
        In any order; lines of 0 parts are left out.

    Returns
    -------
    Mixture
        Each powder once, by id, so that the order of the lines changes nothing.
        Two lots of one id with different analyses are two powders.

    Raises
    ------
    CompositionError
        If all parts are 0.
    """
    powders: list[tuple[Analysis, list[float]]] = []
    for line in lines:
        if line.parts == 0.0:
            continue
        for analysis, parts in powders:
            if analysis == line.analysis:
                parts.append(line.parts)
                break
        else:
            powders.append((line.analysis, [line.parts]))
    if not powders:
        raise CompositionError(
            "All parts of this recipe are 0: there is nothing to calculate.",
            field="parts",
            seen=0,
            accepted="a recipe with at least one part above 0",
        )
    total = fsum(part for _, parts in powders for part in parts)
    powders.sort(key=lambda powder: (powder[0].id, sorted(powder[0].oxides.items())))
    return Mixture(
        total_parts=total,
        shares=tuple((analysis, fsum(parts) / total) for analysis, parts in powders),
    )
