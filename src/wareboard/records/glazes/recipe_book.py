"""Recipes with what their powders are made of, read in three queries.

A child recipe holds its base by reference: a hundred parts of the base's
newest version, so that a change of the base shows in all its children.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from django.db.models import Q

from wareboard.core.answer import Answer
from wareboard.core.recipe import RecipeLine as Line
from wareboard.core.recipe import SolidDensity, Unity, solid_density, unity_formula
from wareboard.records.stores.bridge import Sheets
from wareboard.records.stores.models import Lot

from .models import Recipe, RecipeLine

HUNDRED = 100.0


class RecipeBook:
    """What some recipes are made of.

    Parameters
    ----------
    recipes : iterable of Recipe
        Which recipes; their bases come with them.
    """

    def __init__(self, recipes: Iterable[Recipe]) -> None:
        wanted = list(recipes)
        bases = {recipe.base_id for recipe in wanted if recipe.base_id}
        lines = (
            RecipeLine.objects.filter(
                Q(recipe__in=[r.pk for r in wanted]) | Q(recipe__glaze__in=bases),
                recipe__undone_at__isnull=True,
            )
            .select_related("material", "recipe")
            .order_by("recipe", "position")
        )
        self._lines: dict[str, list[RecipeLine]] = defaultdict(list)
        self._newest: dict[str, Recipe] = {}
        for line in lines:
            self._lines[line.recipe_id].append(line)
            known = self._newest.get(line.recipe.glaze_id)
            if known is None or line.recipe.version > known.version:
                self._newest[line.recipe.glaze_id] = line.recipe
        self._sheets = Sheets(line.material for found in self._lines.values() for line in found)

    def lines(self, recipe: Recipe, lots: Mapping[str, Lot] | None = None) -> list[Line]:
        """Give a recipe's lines for the core, its base written out.

        Parameters
        ----------
        recipe : Recipe
            One of those the book was opened for.
        lots : mapping of str to Lot, optional
            For a material the lot that is meant.

        Raises
        ------
        CompositionError
            If a material is not known.
        """
        given = lots or {}
        own = [
            Line(
                line.material_id,
                line.parts,
                line.addition or bool(recipe.base_id),
                self._sheets.analysis_for(line.material, given.get(line.material_id)),
            )
            for line in self._lines[recipe.pk]
        ]
        base = self._newest.get(recipe.base_id) if recipe.base_id else None
        if base is None:
            return own
        under = self.lines(base, given)
        total = sum(line.parts for line in under) or HUNDRED
        return [
            Line(line.material, line.parts * HUNDRED / total, line.addition, line.analysis)
            for line in under
        ] + own

    def unity(self, recipe: Recipe, lots: Mapping[str, Lot] | None = None) -> Answer[Unity]:
        """Work out a recipe's unity formula."""
        return unity_formula(self.lines(recipe, lots))

    def solid(self, recipe: Recipe) -> Answer[SolidDensity]:
        """Work out the density of a recipe's powder."""
        return solid_density(self.lines(recipe))
