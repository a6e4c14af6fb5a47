"""A material: its bags, its sheets, and the recipes that rest on it."""

from collections.abc import Sequence
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from wareboard.records.glazes.models import RecipeLine
from wareboard.records.glazes.queries import recipe_lines_with
from wareboard.records.people.entry import Entry
from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.undoing import may_undo
from wareboard.records.stores import queries
from wareboard.records.stores.actions import own_sheet
from wareboard.records.stores.cautions import COMES_FIRST, caution_of
from wareboard.records.stores.forms import told
from wareboard.records.stores.models import Lot, Material

from .sheet_answer import from_sheet, known_of
from .undo import undo_link


def caution_line(material: Material) -> str:
    """Give the one line of caution of a material; empty where it is plain dust."""
    say = caution_of(material)
    return f"{material.name[:1].upper()}{material.name[1:]}: {say} {COMES_FIRST}" if say else ""


def lot_row(lot: Lot, shown: Shown) -> dict[str, Any]:
    """Say of a lot what is left of it and how it is known."""
    more = []
    if own_sheet(lot) is not None:
        more.append(_("its own sheet"))
    if lot.jar_kept:
        more.append(_("jar kept"))
    if lot.remembered:
        more.append(lot.remembered)
    left = _("%s left") % shown.mass(lot.left_g) if lot.left_g else ""
    if queries.is_used_up(lot):
        left = _("used up")
    return {"lot": lot, "told": told(lot), "left": left, "more": " · ".join(more)}


def recipe_row(line: RecipeLine) -> dict[str, Any]:
    """Say of a recipe how much of the material is in it."""
    parts = _("%g parts") % line.parts
    if line.addition:
        parts = _("+ %g on the hundred") % line.parts
    more = _("version %d") % line.recipe.version
    return {"glaze": line.recipe.glaze, "parts": parts, "more": more}


@require_safe
def material_page(request: StudioRequest, material_id: str) -> HttpResponse:
    """Show a material."""
    member = request.member
    shown = Shown(member.studio)
    material = get_object_or_404(queries.materials_for(member), pk=material_id)
    lots = cut(
        queries.lots_for(member).filter(material=material),
        by="at",
        after=request.GET.get("after", ""),
        newest_first=True,
    )
    sheets = queries.sheets_of(member, material)
    return render(
        request,
        "stores/material.html",
        {
            "material": material,
            "shrinkage": shown.percent(material.shrinkage_percent)
            if material.shrinkage_percent is not None
            else "",
            "caution": caution_line(material),
            "lots": [lot_row(lot, shown) for lot in queries.in_use_first(lots.rows)],
            "more": lots.more,
            "recipes": [recipe_row(line) for line in recipe_lines_with(member, material)],
            "known": known_of(material, None, sheets[0] if sheets else None),
            "sheets": [{**from_sheet(sheet, material), "say": ""} for sheet in sheets],
            "undo": undo_of([*sheets, material]),
        },
    )


def undo_of(entries: Sequence[Entry]) -> dict[str, Any] | None:
    """Offer taking back what was kept last of some entries, where it is young enough."""
    for entry in sorted(entries, key=lambda entry: entry.kept_at, reverse=True):
        if may_undo(entry):
            corrects = getattr(entry, "corrects_id", None)
            link = undo_link(entry, _("Put right.") if corrects else _("Kept."))
            return {**link, "next": "/stores/"} if isinstance(entry, Material | Lot) else link
    return None
