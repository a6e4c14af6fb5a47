"""The forms that pots are made to: their outlines, drawn back at once."""

from dataclasses import replace

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.core.errors import CoreError
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import rounded

from . import actions, queries
from .board_forms import DrawForm, ShapeForm
from .drawn import Measures, Shape, draw_shape, measures_of, profiles_of, shape_of_form
from .outlines import draw_form
from .taking_back import REFUSALS, sentence, undo_of
from .views import back_to_several


@require_safe
def forms(request: StudioRequest) -> HttpResponse:
    """Show the forms, each drawn."""
    found = list(queries.forms_in_use(request.member))
    profiles = profiles_of(form.pk for form in found)
    shapes = {form.pk: shape_of_form(form, profiles) for form in found}
    return render(
        request,
        "ware/forms.html",
        {
            "rows": [
                {
                    "form": form,
                    "general": not shapes[form.pk].own,
                    "drawing": mark_safe(draw_shape(shapes[form.pk], form.name)),  # noqa: S308 - our own drawing, every text in it escaped
                }
                for form in found
            ]
        },
    )


@require_http_methods(["GET", "POST"])
def new_form(request: StudioRequest) -> HttpResponse:
    """Type a form's outline; what cannot be drawn is not kept."""
    form = ShapeForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        facts = form.facts()
        try:
            if facts["outline"]:
                draw_shape(Shape(facts["outline"], facts["wall_mm"] or 5.0, own=True), "")
            made = actions.new_form(request.member, **facts)
        except CoreError as refused:
            form.add_error("outline", str(refused))
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return back_to_several(request, form=made.pk) or redirect("ware:form", made.pk)
    return render(request, "ware/new_form.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
def form(request: StudioRequest, form_id: str) -> HttpResponse:
    """Show a form as it was typed, drawn, with what it measures."""
    found = get_object_or_404(queries.forms_for(request.member), pk=form_id)
    profiles = profiles_of([found.pk])
    shape = shape_of_form(found, profiles)
    size = measures_of(shape)
    return render(
        request,
        "ware/form.html",
        {
            "form": found,
            "drawing": mark_safe(draw_shape(shape, found.name, px_cm=9.0)),  # noqa: S308 - our own drawing, every text in it escaped
            "own": shape.own,
            "points": [
                {"r": f"{r_cm:g}", "z": f"{z_cm:g}"} for r_cm, z_cm in profiles.get(found.pk, ())
            ],
            "wall": f"{shape.wall_mm:g}",
            "wall_known": found.wall_mm is not None,
            "height": rounded(size.height_cm, 0.1),
            "width": rounded(size.width_cm, 0.1),
            "outside": rounded(size.outside_dm2, 0.1),
            "inside": rounded(size.inside_dm2, 0.1),
            "again": EntryForm(),
            "undo": undo_of(found, _("Kept: %s.") % found.name, back="/ware/forms/"),
        },
    )


@require_http_methods(["GET", "POST"])
def draw(request: StudioRequest, form_id: str) -> HttpResponse:
    """Draw a form that has a name alone: shown first, then kept, for nothing takes it back."""
    found = get_object_or_404(queries.forms_for(request.member), pk=form_id)
    if request.method != "POST" and profiles_of([found.pk]):
        return render(request, "ware/draw_form.html", {"of": found})
    form = DrawForm(request.POST if request.method == "POST" else None)
    drawing = ""
    if request.method == "POST" and form.is_valid():
        outline, wall_mm = form.cleaned_data["outline"], form.cleaned_data["wall_mm"]
        shape = shape_of_form(found, {found.pk: outline})
        try:
            if wall_mm is not None:
                shape = replace(shape, wall_mm=wall_mm)
            drawing = draw_shape(shape, found.name, px_cm=9.0)
            form.ask("outline", _is_it_this(measures_of(shape)))
            if not form.errors:
                draw_form(found, outline=outline, wall_mm=wall_mm)
        except CoreError as refused:
            form.add_error("outline", str(refused))
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        if not form.errors:
            return redirect("ware:form", found.pk)
    facts = {"of": found, "form": form, "drawing": mark_safe(drawing)}  # noqa: S308 - our own drawing, every text in it escaped
    return render(request, "ware/draw_form.html", facts, status=422 if form.errors else 200)


def _is_it_this(size: Measures) -> str:
    """Ask whether a drawing is right before it is kept for all pots of its form."""
    say = _("Is it this, %(high)s cm high and %(wide)s cm wide? Then say so below, and keep it.")
    return say % {"high": rounded(size.height_cm, 0.1), "wide": rounded(size.width_cm, 0.1)}
