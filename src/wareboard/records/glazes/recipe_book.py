"""Recipes with what their powders are made of, read in three queries and one for each base.

A child recipe holds its base by reference: a hundred parts of the base's
newest version, so that a change of the base shows in all its children.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from django.db.models import Q

from wareboard.core.answer import Answer
from wareboard.core.errors import CompositionError
from wareboard.core.recipe import RecipeLine as Line
from wareboard.core.recipe import SolidDensity, Unity, solid_density, unity_formula
from wareboard.records.stores.bridge import Sheets
from wareboard.records.stores.models import Lot, Material

from .models import Recipe, RecipeLine

HUNDRED = 100.0


@dataclass(frozen=True)
class Powder:
    """One powder that a recipe is weighed out from.

    Attributes
    ----------
    material : Material
        Which.
    parts : float
        Parts by weight, on a hundred of the base where there is one.
    addition : bool
        Whether it comes on top, in this recipe or in a base of it.
    on_top : bool
        Whether it comes on top of the hundred of this recipe; what a base adds
        is within the hundred of what rests on it.
    """

    material: Material
    parts: float
    addition: bool
    on_top: bool = False


class RecipeBook:
    """What some recipes are made of.

    Parameters
    ----------
    recipes : iterable of Recipe
        Which recipes; their bases come with them.
    """

    def __init__(self, recipes: Iterable[Recipe]) -> None:
        self._lines: dict[str, list[RecipeLine]] = defaultdict(list)
        self._newest: dict[str, Recipe] = {}
        wanted = list(recipes)
        ids, bases = {r.pk for r in wanted}, {r.base_id for r in wanted if r.base_id}
        seen = set(bases)
        while ids or bases:
            deeper = self._read(ids, bases)
            ids, bases = set(), deeper - seen
            seen |= deeper
        self._sheets = Sheets(line.material for found in self._lines.values() for line in found)

    def _read(self, recipe_ids: set[str], glaze_ids: set[str]) -> set[str]:
        """Read recipes and the versions of some glazes; give the bases these rest on."""
        lines = (
            RecipeLine.objects.filter(
                Q(recipe__in=recipe_ids) | Q(recipe__glaze__in=glaze_ids),
                recipe__undone_at__isnull=True,
            )
            .select_related("material", "recipe__glaze")
            .order_by("recipe", "position")
        )
        fresh: dict[str, list[RecipeLine]] = defaultdict(list)
        deeper = set()
        for line in lines:
            fresh[line.recipe_id].append(line)
            if line.recipe.base_id:
                deeper.add(line.recipe.base_id)
            known = self._newest.get(line.recipe.glaze_id)
            if known is None or line.recipe.version > known.version:
                self._newest[line.recipe.glaze_id] = line.recipe
        self._lines.update(fresh)
        return deeper

    def newest_of(self, glaze_id: str) -> Recipe | None:
        """Give the newest version of a base; None where it has none."""
        return self._newest.get(glaze_id)

    def powders(self, recipe: Recipe) -> list[Powder]:
        """Give what a recipe is weighed out from, its base written out.

        Raises
        ------
        CompositionError
            If the recipe rests on itself by way of its base.
        """
        return self._written_out(recipe, ())

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
        return [
            Line(
                powder.material.pk,
                powder.parts,
                powder.addition,
                self._sheets.analysis_for(powder.material, given.get(powder.material.pk)),
            )
            for powder in self.powders(recipe)
        ]

    def _written_out(self, recipe: Recipe, above: tuple[str, ...]) -> list[Powder]:
        """Write a recipe's base out, and the base of that, unless it goes round in a ring."""
        if recipe.glaze_id in above:
            raise CompositionError(
                f"{recipe.glaze.name} rests on itself by way of its base: give it another base.",
                field="base",
                seen=recipe.glaze.name,
                accepted="a base that does not rest on this glaze",
            )
        more = [line.addition or bool(recipe.base_id) for line in self._lines[recipe.pk]]
        own = [
            Powder(line.material, line.parts, addition, on_top=addition)
            for line, addition in zip(self._lines[recipe.pk], more, strict=True)
        ]
        base = self._newest.get(recipe.base_id) if recipe.base_id else None
        if base is None:
            return own
        under = self._written_out(base, (*above, recipe.glaze_id))
        total = sum(powder.parts for powder in under) or HUNDRED
        return [
            replace(powder, parts=powder.parts * HUNDRED / total, on_top=False) for powder in under
        ] + own

    def unity(self, recipe: Recipe, lots: Mapping[str, Lot] | None = None) -> Answer[Unity]:
        """Work out a recipe's unity formula."""
        return unity_formula(self.lines(recipe, lots))

    def materials(self, recipe: Recipe) -> list[Material]:
        """Give what goes into a recipe, of its base as well where that can be told."""
        try:
            return [powder.material for powder in self.powders(recipe)]
        except CompositionError:
            return [line.material for line in self._lines[recipe.pk]]

    def solid(self, recipe: Recipe) -> Answer[SolidDensity]:
        """Work out the density of a recipe's powder."""
        return solid_density(self.lines(recipe))
