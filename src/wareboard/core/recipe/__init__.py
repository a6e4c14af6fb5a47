"""What a recipe is, seen by its molecules and by its volume."""

from wareboard.core.recipe.lines import Mixture, RecipeLine, mixture
from wareboard.core.recipe.solid import SolidDensity, solid_density
from wareboard.core.recipe.unity import Unity, unity_formula

__all__ = [
    "Mixture",
    "RecipeLine",
    "SolidDensity",
    "Unity",
    "mixture",
    "solid_density",
    "unity_formula",
]
