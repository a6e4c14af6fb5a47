"""Pages beside the log of a firing: its cones, its gas, its curve, and that it is the good one."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpResponse, JsonResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wareboard.charts.stills import StillError, make_still
from wareboard.charts.theme import TOKENS
from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.requests import StudioRequest, sent
from wareboard.records.people.shown import Shown
from wareboard.records.pictures.serving import inert_file

from . import actions, cautions, curves, queries
from .cone_answer import (
    cones_told,
    odd_order,
    pack_words,
    too_cold,
    usual_cones,
    which_is_not_counted,
    which_is_trusted,
)
from .forms import COLD, HOT, ConesForm, GasForm
from .gas_answer import gas_answer, kilos
from .log_views import firing_of
from .logs import Course, course_of
from .models import ConeReading, FuelWeight
from .undoing import newest, undo_link
from .words import MomentKind

MOVING_HIGH_PX, STILL_HIGH_PX, STILL_PX = 140, 150, 360
CACHE = "cache"


@require_POST
def good(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Call a firing the good one."""
    found = firing_of(request.member, firing_id)
    form = EntryForm(request.POST)
    if not form.is_valid():
        raise Http404
    try:
        actions.call_good(request.member, found, entry_id=form.cleaned_data["entry_id"])
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    return redirect("kiln:firing", found.pk)


def _drawn(
    request: StudioRequest, firing_id: str, light: str, *, width_px: int | None, height_px: int
) -> Any:
    """Draw the curve of a firing, where there is anything to draw."""
    if light not in TOKENS:
        raise Http404
    course = course_of(request.member, firing_of(request.member, firing_id))
    shown = Shown(request.member.studio)
    if curves.said_of(course, shown) is None:
        raise Http404
    return curves.curve_of(course, shown, light, width_px=width_px, height_px=height_px)


@require_safe
def curve(request: StudioRequest, firing_id: str, light: str) -> HttpResponse:
    """Give the curve of a firing as the moving chart reads it."""
    return JsonResponse(_drawn(request, firing_id, light, width_px=None, height_px=MOVING_HIGH_PX))


@require_safe
def still(request: StudioRequest, firing_id: str, light: str) -> HttpResponseBase:
    """Give the curve of a firing as a still picture, made once."""
    spec = _drawn(request, firing_id, light, width_px=STILL_PX, height_px=STILL_HIGH_PX)
    try:
        path = make_still(spec, Path(settings.DATA) / CACHE)
    except StillError as error:
        return HttpResponse(f"{error}\n", status=503, content_type="text/plain")
    return inert_file(
        request, path, content_type="image/svg+xml", name="curve.svg", attachment=False
    )


@require_http_methods(["GET", "POST"])
def cones(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Read a cone pack by the hour its tips point to, beside what the log says."""
    found = firing_of(request.member, firing_id)
    course = course_of(request.member, found)
    shown = Shown(request.member.studio)
    places = queries.places_of(found.load.kiln)
    chain = [course.series.table.cones[i] for i in course.series.table.chain]
    hot = MomentKind.SHUT_OFF not in course.moments
    given = {"how": HOT if hot else COLD, "place": _next_place(course, places, hot=hot)}

    def form_for(data: Any = None) -> ConesForm:
        return ConesForm(data, initial=given, cones=usual_cones(course), known=chain, places=places)

    form = form_for(sent(request))
    if request.method == "POST" and form.is_valid():
        clocks = form.cleaned_data["clocks"]
        form.ask(None, odd_order(course, clocks) or too_cold(course, clocks, timezone.now(), shown))
    if request.method == "POST" and form.is_valid():
        try:
            actions.read_cones(request.member, found, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("kiln:cones", found.pk)
    last, told = newest(course.cones), cones_told(course, shown)
    pack = pack_words(course.cones, found.load.kiln.end_cone)
    return render(
        request,
        "kiln/cones.html",
        {
            "firing": found,
            "form": form,
            "title": f"{pack[:1].upper()}{pack[1:]}." if pack else _("How do the cones stand?"),
            "told": told,
            "trusted": which_is_trusted(told),
            "not_counted": which_is_not_counted(told, shown),
            "has_log": course.log is not None,
            "cautions": (cautions.EYES,) if hot else (),
            "undo": undo_link(last, _say_cones(last, course.cones))
            if isinstance(last, ConeReading)
            else None,
        },
        status=422 if form.errors else 200,
    )


def _next_place(course: Course, places: Sequence[Any], *, hot: bool) -> str:
    """Give the pack that is read next: cold, the first without a reading; hot, the last one."""
    if hot:
        seen = [reading.place_id for reading in course.cones if reading.place_id]
        middle = [place.pk for place in places if place.level == "middle"]
        return str((seen[-1:] or middle or [""])[0])
    read = {reading.place_id for reading in course.cones if reading.when_cold}
    return next((place.pk for place in places if place.pk not in read), "")


def _say_cones(last: ConeReading, readings: Sequence[ConeReading]) -> str:
    """Say what taking the last cone back takes back: all of its tap."""
    n = sum(bool(last.together) and one.together == last.together for one in readings)
    if n > 1:
        return ngettext("Kept: %d cone.", "Kept: %d cones.", n) % n
    return _("Kept: cone %s.") % last.cone


@require_http_methods(["GET", "POST"])
def gas(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Weigh a gas cylinder, and say how much was used."""
    found = firing_of(request.member, firing_id)
    shown = Shown(request.member.studio)
    weights, sealed_at = queries.fuel_of(found)
    last = weights[-1] if weights else None
    given = {"cylinder": last.cylinder, "tare_kg": _tare(last, shown)} if last else {}
    form = GasForm(sent(request), initial=given, studio=request.member.studio)
    if request.method == "POST" and form.is_valid():
        try:
            actions.weigh_cylinder(request.member, found, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("kiln:gas", found.pk)
    kept = newest(weights)
    return render(
        request,
        "kiln/gas.html",
        {
            "firing": found,
            "form": form,
            "answer": gas_answer(weights, sealed_at, shown),
            "rows": [{"weight": w, "gross": kilos(w.gross_kg, shown)} for w in reversed(weights)],
            "caution": cautions.GAS,
            "undo": undo_link(kept, _("Kept: %s.") % kilos(kept.gross_kg, shown))
            if isinstance(kept, FuelWeight)
            else None,
        },
        status=422 if form.errors else 200,
    )


def _tare(last: FuelWeight, shown: Shown) -> str:
    return "" if last.tare_kg is None else kilos(last.tare_kg, shown)
