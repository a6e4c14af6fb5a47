"""Pages of the stores alone."""

from functools import partial
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.records.people.asked import answered, asking
from wareboard.records.people.models import Member
from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.standing_for import stands_now

from . import actions, queries
from .bridge import row_of
from .forms import (
    CountForm,
    LotForm,
    MaterialForm,
    RightSheetForm,
    SheetForm,
    StandInForm,
    told,
    usual_lot,
)
from .library_row import library_names
from .models import Lot, Material


def home_row(material: Material, lot: Lot | None, shown: Shown) -> dict[str, Any]:
    """Say of a material which lot is open and what is left of it."""
    left_g = lot.left_g if lot is not None else None
    return {
        "material": material,
        "lot": lot,
        "told": told(lot) if lot is not None else "",
        "left": shown.mass(left_g) if left_g is not None else "",
        "left_at": lot.left_at if lot is not None else None,
    }


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the materials with the lot that is open and what is left of it."""
    member = request.member
    page = cut(queries.materials_for(member), by="sort_name", after=request.GET.get("after", ""))
    lots = queries.in_use_by_material(member, page.rows)
    shown = Shown(member.studio)
    rows = [home_row(material, lots.get(material.pk), shown) for material in page.rows]
    return render(request, "stores/home.html", {"rows": rows, "more": page.more})


@require_http_methods(["GET", "POST"])
def new_material(request: StudioRequest) -> HttpResponse:
    """Take a new material into the stores."""
    form = MaterialForm(request.POST or None)
    material = answered(form, partial(actions.add_material, request.member), beside="name")
    if material is not None:
        return redirect("pages:material", material.pk)
    return asking(request, "stores/new_material.html", form, library=library_names())


@require_http_methods(["GET", "POST"])
def stand_in(request: StudioRequest, material_id: str) -> HttpResponse:
    """Choose which powder of the built-in table stands in for a material."""
    material = get_object_or_404(queries.materials_for(request.member), pk=material_id)
    form = StandInForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.stand_in(material, **form.cleaned_data)
        messages.success(request, _("That one stands in now."))
        return redirect("pages:material", material.pk)
    return render(
        request,
        "stores/stand_in.html",
        {
            "form": form,
            "material": material,
            "row": row_of(material),
            "library": library_names(),
        },
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def new_lot(request: StudioRequest, material_id: str) -> HttpResponse:
    """Open a new bag of a material; the form is filled in from the last one."""
    member = request.member
    material = get_object_or_404(queries.materials_for(member), pk=material_id)
    last = queries.newest_lot(member, material)
    form = LotForm(request.POST or None, initial=usual_lot(last))
    back = inside(request, request.POST.get("next", request.GET.get("next", "")))
    lot = answered(form, partial(actions.open_lot, member, material), beside=None)
    if lot is not None:
        return redirect(back) if back else redirect("pages:lot", lot.pk)
    before = told(last) if last else ""
    return asking(request, "stores/new_lot.html", form, material=material, last=before, next=back)


def inside(request: StudioRequest, address: str) -> str:
    """Give an address to go back to, if it lies in this studio; else nothing."""
    safe = url_has_allowed_host_and_scheme(address, allowed_hosts={request.get_host()})
    return address if safe else ""


@require_http_methods(["GET", "POST"])
def new_sheet(request: StudioRequest, material_id: str) -> HttpResponse:
    """Enter an analysis of a material."""
    material = get_object_or_404(queries.materials_for(request.member), pk=material_id)
    return ask_sheet(request, material, None)


@require_http_methods(["GET", "POST"])
def lot_sheet(request: StudioRequest, lot_id: str) -> HttpResponse:
    """Enter the analysis of one bag."""
    lot = get_object_or_404(queries.lots_for(request.member), pk=lot_id)
    return ask_sheet(request, lot.material, lot)


def ask_sheet(request: StudioRequest, material: Material, lot: Lot | None) -> HttpResponse:
    """Ask for an analysis, and keep it."""
    form = SheetForm(request.POST or None)
    enter = partial(actions.enter_sheet, request.member, material, lot=lot)
    if answered(form, enter, beside="sheet"):
        if lot is not None:
            return redirect("pages:lot", lot.pk)
        return redirect("pages:material", material.pk)
    first = actions.own_sheet(lot) if lot is not None else None
    refused = actions.one_sheet_only(lot, first) if lot is not None and first else ""
    return asking(
        request,
        "stores/new_sheet.html",
        form,
        material=material,
        lot=lot,
        first=first,
        refused=refused,
    )


@require_http_methods(["GET", "POST"])
def right_sheet(request: StudioRequest, sheet_id: str) -> HttpResponse:
    """Put a sheet right; the wrong one stays in the record."""
    member = request.member
    asked = get_object_or_404(queries.sheets_for(member), pk=sheet_id)
    form = RightSheetForm(request.POST or None, written=(stands := stands_now(asked)))
    back = inside(request, request.POST.get("next", request.GET.get("next", "")))
    if answered(form, partial(actions.correct_sheet, member, asked), beside="sheet"):
        return redirect(back) if back else redirect("pages:material", asked.material_id)
    return asking(
        request,
        "stores/right_sheet.html",
        form,
        material=asked.material,
        stands=stands,
        next=back,
    )


@require_http_methods(["GET", "POST"])
def count(request: StudioRequest, lot_id: str) -> HttpResponse:
    """Count what is left of a bag."""
    lot = get_object_or_404(queries.lots_for(request.member), pk=lot_id)
    form = CountForm(request.POST or None)
    if answered(form, partial(actions.count_left, request.member, lot), beside="left_g"):
        return redirect("pages:lot", lot.pk)
    left = said_left(request.member, lot)
    return asking(request, "stores/count.html", form, lot=lot, left=left)


def said_left(member: Member, lot: Lot) -> str:
    """Say what was left at the last count; empty where nobody counted."""
    left_g = lot.left_g
    return Shown(member.studio).mass(left_g) if left_g is not None else ""
