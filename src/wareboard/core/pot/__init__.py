"""The pot itself: its surface, what it holds, its clay, and what the fire made of it."""

from wareboard.core.pot.coated import coated_dm2
from wareboard.core.pot.fired import (
    Absorption,
    Shrinkage,
    absorption,
    shrink,
    wet_for_fired_mm,
)
from wareboard.core.pot.outline import PotShape, handle_dm2, pot

__all__ = [
    "Absorption",
    "PotShape",
    "Shrinkage",
    "absorption",
    "coated_dm2",
    "handle_dm2",
    "pot",
    "shrink",
    "wet_for_fired_mm",
]
