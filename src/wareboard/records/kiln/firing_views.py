"""Pages of a firing: its log, its cones, its gas, its curve."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpResponse, JsonResponse, QueryDict
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wareboard.charts.stills import StillError, make_still
from wareboard.charts.theme import TOKENS, Light
from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.pictures.serving import inert_file

from . import actions, cautions, curves, queries, spoken
from .cone_answer import cones_told, pack_words, usual_cones
from .forms import COLD, HOT, ConesForm, GasForm, LineForm
from .gas_answer import gas_answer, kilos
from .log_answer import answer_for
from .logs import Course, course_of
from .models import ConeReading, Firing, FuelWeight, GoodFiring, LogLine, Moment
from .undoing import newest, undo_link
from .words import Fuel, MomentKind

LINES = 50
MOVING_HIGH_PX, STILL_HIGH_PX, STILL_PX = 140, 150, 360
CACHE = "cache"


def _sent(request: StudioRequest) -> QueryDict | None:
    """Give what was sent, also where that is nothing at all."""
    return request.POST if request.method == "POST" else None


def firing_of(member: Member, firing_id: str) -> Firing:
    """Give a firing of this studio, or say that there is none."""
    return get_object_or_404(queries.firings_for(member), pk=firing_id)


def line_form(member: Member, course: Course, data: Any = None) -> LineForm:
    """Make the form that takes the next line."""
    opened = course.moments.get(MomentKind.OPENED)
    return LineForm(
        data,
        studio=member.studio,
        lit_at=course.firing.at,
        until=opened.at if opened else None,
    )


def _chart(course: Course, shown: Shown) -> dict[str, str] | None:
    """Give the words and the addresses of the curve; its drawing is asked for there."""
    said = curves.said_of(course, shown)
    if said is None:
        return None
    last = course.lines[-1].pk if course.lines else ""
    good = ""
    if course.good is not None and course.good_log is not None:
        good = f"{course.good.pk}-{course.good_log.hours.size}"
    version = f"?v={len(course.lines)}-{last}-{len(course.moments)}-{len(course.cones)}-{good}"

    def address(name: str, light: Light) -> str:
        return reverse(f"kiln:{name}", args=[course.firing.pk, light]) + version

    return {
        "say": said.say,
        "label": said.label,
        "still_url": address("still", "light"),
        "still_dark_url": address("still", "dark"),
        "spec_url": address("curve", "light"),
        "spec_dark_url": address("curve", "dark"),
    }


def _rows(lines: Sequence[LogLine], shown: Shown) -> list[dict[str, Any]]:
    """Give lines as the table shows them."""
    rows = []
    for line in lines:
        more = [str(line.get_flame_display())] if line.flame else []
        if line.damper is not None:
            more.append(_("damper %s") % f"{line.damper:g}")
        if line.pressure_kpa is not None:
            more.append(f"{line.pressure_kpa:g} kPa")
        if line.note:
            more.append(line.note)
        if line.remembered:
            more.append(_("remembered: %s") % line.remembered)
        rows.append(
            {
                "line": line,
                "temp": "" if line.temp_c is None else shown.temperature(line.temp_c),
                "more": ", ".join(more),
            }
        )
    return rows


def _moments(course: Course) -> list[dict[str, Any]]:
    """Give what happens once in a firing: when it did, or that it may be tapped."""
    return [
        {"kind": kind.value, "label": kind.label, "at": found.at if found else None}
        for kind in MomentKind
        for found in [course.moments.get(kind)]
    ]


def _say_kept(entry: Entry, shown: Shown) -> str:
    if isinstance(entry, LogLine):
        if entry.temp_c is not None:
            return _("Kept: %s.") % shown.temperature(entry.temp_c)
        return _("Kept: a line.")
    if isinstance(entry, Moment):
        return _("Kept: %s.") % entry.get_kind_display()
    if isinstance(entry, GoodFiring):
        return _("Called the good one.")
    return _("Lit.")


def _undo(course: Course, called: Entry | None, shown: Shown) -> dict[str, Any] | None:
    """Give the last thing that may be taken back."""
    last = newest([course.firing, *course.lines[-3:], *course.moments.values(), called])
    if last is None:
        return None
    after = reverse("kiln:load", args=[course.firing.load_id]) if last == course.firing else ""
    return undo_link(last, _say_kept(last, shown), after=after)


def log_facts(member: Member, firing: Firing, before: str = "") -> dict[str, Any]:
    """Gather what the page says of a firing.

    Parameters
    ----------
    member : Member
        Who asks.
    firing : Firing
        Which one.
    before : str
        The line after which the table goes on; the last lines where it is empty.
    """
    shown = Shown(member.studio)
    course = course_of(member, firing)
    newest_first = list(reversed(course.lines))
    if before:
        ids = [line.pk for line in newest_first]
        if before not in ids:
            raise Http404
        newest_first = newest_first[ids.index(before) + 1 :]
    sealed = course.moments.get(MomentKind.SEALED)
    done = MomentKind.OPENED in course.moments
    return {
        "firing": firing,
        "course": course,
        "answer": answer_for(course, timezone.now(), shown),
        "chart": None if before else _chart(course, shown),
        "rows": _rows(newest_first[:LINES], shown),
        "more": newest_first[LINES - 1].pk if len(newest_first) > LINES else "",
        "before": before,
        "moments": _moments(course),
        "gas": gas_answer(course.fuel, sealed.at if sealed else None, shown),
        "burns_gas": firing.load.kiln.fuel in {Fuel.PROPANE, Fuel.NATURAL_GAS},
        "done": done,
        "shut": MomentKind.SHUT_OFF in course.moments,
        "form": line_form(member, course),
        "tap_form": EntryForm(),
        "cautions": () if done else cautions.FIRING,
        "undo": _undo(course, course.called, shown),
        "at": spoken.clock(timezone.now()),
    }


@require_http_methods(["GET", "POST"])
def firing(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Show the log of a firing, and take its next line."""
    found = firing_of(request.member, firing_id)
    facts = log_facts(request.member, found, request.GET.get("before", ""))
    status = 200
    if request.method == "POST":
        form = line_form(request.member, facts["course"], request.POST)
        if form.is_valid():
            try:
                actions.write_line(request.member, found, **form.facts())
            except EntryRefused as refused:
                form.add_error(None, str(refused))
            else:
                if not request.htmx:
                    return redirect("kiln:firing", found.pk)
                facts = log_facts(request.member, found)
        if form.errors:
            facts["form"], status = form, 422
    template = "kiln/_firing.html" if request.htmx else "kiln/firing.html"
    return render(request, template, facts, status=status)


@require_http_methods(["GET", "POST"])
def line(request: StudioRequest, line_id: str) -> HttpResponse:
    """Put a line of the log right; the old one is kept."""
    found = get_object_or_404(queries.lines_for(request.member), pk=line_id)
    shown = Shown(request.member.studio)
    given = {
        "temp_c": "" if found.temp_c is None else spoken.typed_temperature(found.temp_c, shown),
        "flame": found.flame,
        "damper": "" if found.damper is None else f"{found.damper:g}",
        "pressure_kpa": "" if found.pressure_kpa is None else f"{found.pressure_kpa:g}",
        "note": found.note,
    }
    form = LineForm(
        _sent(request),
        initial=given,
        studio=request.member.studio,
        lit_at=found.firing.at,
    )
    if request.method == "POST" and form.is_valid():
        facts = form.facts()
        facts.pop("at", None)
        try:
            actions.correct_line(request.member, found, **facts)
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("kiln:firing", found.firing_id)
    return render(
        request,
        "kiln/line.html",
        {"form": form, "line": found, "firing": found.firing},
        status=422 if form.errors else 200,
    )


@require_POST
def moment(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Keep what happens once in a firing; the tap stamps the time."""
    found = firing_of(request.member, firing_id)
    form = EntryForm(request.POST)
    kind = request.POST.get("kind", "")
    if kind not in MomentKind.values or not form.is_valid():
        raise Http404
    try:
        actions.keep_moment(request.member, found, MomentKind(kind), **form.facts())
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    back = request.POST.get("next", "")
    safe = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
    return redirect(back) if safe else redirect("kiln:firing", found.pk)


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

    form = form_for(_sent(request))
    if request.method == "POST" and form.is_valid():
        try:
            actions.read_cones(request.member, found, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("kiln:cones", found.pk)
    last = newest(course.cones)
    pack = pack_words(course.cones, found.load.kiln.end_cone)
    return render(
        request,
        "kiln/cones.html",
        {
            "firing": found,
            "form": form,
            "title": f"{pack[:1].upper()}{pack[1:]}." if pack else _("How do the cones stand?"),
            "told": cones_told(course, shown),
            "has_log": course.log is not None,
            "cautions": (cautions.EYES,) if hot else (),
            "undo": undo_link(last, _say_cone(last)) if isinstance(last, ConeReading) else None,
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


def _say_cone(reading: ConeReading) -> str:
    return _("Kept: cone %s.") % reading.cone


@require_http_methods(["GET", "POST"])
def gas(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Weigh a gas cylinder, and say how much was used."""
    found = firing_of(request.member, firing_id)
    shown = Shown(request.member.studio)
    weights, sealed_at = queries.fuel_of(found)
    last = weights[-1] if weights else None
    given = {"cylinder": last.cylinder, "tare_kg": _tare(last, shown)} if last else {}
    form = GasForm(_sent(request), initial=given, studio=request.member.studio)
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
