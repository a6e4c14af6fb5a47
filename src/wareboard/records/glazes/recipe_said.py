"""A recipe in words and numbers for its page: parts, chemistry, and how far to believe it."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from django.utils.translation import gettext as _

from wareboard.core.answer import Interval
from wareboard.core.chemistry import Analysis, Standing
from wareboard.core.errors import CoreError
from wareboard.core.recipe import RecipeLine, solid_density, unity_formula
from wareboard.exchange.typed_number import written
from wareboard.records.people.shown import Shown, rounded
from wareboard.records.stores.cautions import COMES_FIRST, cautions_of, release_caution
from wareboard.records.stores.models import Material
from wareboard.refdata.oxides import FLUXES

from .bridge import HUNDRED, in_hundred
from .models import Recipe

NEAR_HUNDRED = 0.05


def parts_of(recipe: Recipe) -> dict[str, Any]:
    """Give a recipe's lines in parts as typed, and in the hundred where that differs."""
    lines = list(recipe.lines.all())
    based = recipe.base is not None
    additions = [based or line.addition for line in lines]
    pairs = list(zip((line.parts for line in lines), additions, strict=True))
    hundred = [parts for parts, _more in pairs] if based else in_hundred(pairs)
    main = sum(parts for parts, addition in pairs if not addition)
    return {
        "base": recipe.base,
        "rows": [
            {
                "material": line.material,
                "parts": written(line.parts),
                "hundred": rounded(percent, 0.1 if percent >= 1 else 0.01),
                "addition": addition,
            }
            for line, percent, addition in zip(lines, hundred, additions, strict=True)
        ],
        "differs": not based and abs(main - HUNDRED) > NEAR_HUNDRED,
        "total": written(round(main, 4)),
    }


def chemistry_of(lines: Callable[[], Sequence[RecipeLine]]) -> dict[str, Any]:
    """Work out what stands behind a recipe or a batch; where it cannot be, say why.

    Parameters
    ----------
    lines : callable
        Gives what it is made of, as ``RecipeBook.lines`` does; it may refuse.
    """
    try:
        powders = lines()
        unity = unity_formula(powders)
        solid = solid_density(powders)
    except CoreError as refused:
        return {"missing": str(refused)}
    analyses = [line.analysis for line in powders]
    result = unity.result
    oxides = sorted(result.unity, key=lambda oxide: oxide not in FLUXES)
    return {
        "rows": [
            {
                "oxide": oxide,
                "unity": rounded(result.unity[oxide], 0.01),
                "unity_doubt": Shown.span(unity.doubt[f"unity.{oxide}"], 0.01),
                "fired": rounded(result.fired_percent[oxide], 0.1),
                "fired_doubt": Shown.span(unity.doubt[f"fired_percent.{oxide}"], 0.1),
            }
            for oxide in oxides
        ],
        "ratio": _number(result.sio2_al2o3, unity.doubt.get("sio2_al2o3"), 0.1, ""),
        "loss": _number(result.loi_percent, unity.doubt["loi_percent"], 0.1, " %"),
        "solid": _number(
            solid.result.solid_density_g_cm3, solid.doubt["solid_density_g_cm3"], 0.01, " g/cm³"
        ),
        "standing": standing_of(analyses),
        "trust": "worked-out" if all(a.standing is Standing.GIVEN for a in analyses) else "general",
        "cautions": list(dict.fromkeys((*unity.cautions, *solid.cautions))),
        "release": release_caution(result.fired_percent),
    }


def _number(value: float | None, doubt: Interval | None, step: float, unit: str) -> str:
    if value is None:
        return ""
    return f"{rounded(value, step)}{unit} {Shown.span(doubt, step)}".strip()


def standing_of(analyses: Sequence[Analysis]) -> list[str]:
    """Say which powders rest on what, the weakest first."""
    said = []
    shaky = {
        Standing.FROM_MEMORY: _("A guess, from memory: %s."),
        Standing.ILLUSTRATIVE: _("General, typical figures: %s."),
    }
    for standing, words in shaky.items():
        names = _names(a for a in analyses if a.standing is standing)
        if names:
            said.append(words % names)
    general = _names(a for a in analyses if a.standing in {Standing.COMPUTED, Standing.VERIFIED})
    if general:
        said.append(_("General, not of the bag: %s.") % general)
    own = _names(a for a in analyses if a.standing is Standing.GIVEN)
    if own:
        said.append(_("Measured, by a sheet of its own: %s.") % own)
    memory = _names(
        a for a in analyses if a.density_g_cm3 is not None and a.density_standing in shaky
    )
    if memory:
        said.append(_("The density is a guess, from memory: %s.") % memory)
    return said


def _names(analyses: Iterable[Analysis]) -> str:
    return ", ".join(dict.fromkeys(analysis.called for analysis in analyses))


def cautions_for(materials: Iterable[Material]) -> list[str]:
    """Say what to mind with the materials of a recipe: one line for all that harm alike."""
    lines = cautions_of(materials)
    return [*lines, str(COMES_FIRST)] if lines else []
