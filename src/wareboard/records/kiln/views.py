"""Pages of the kiln room up to lighting."""

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest, sent
from wareboard.records.ware.books import coats_of
from wareboard.records.ware.drawn import name_of

from . import actions, cautions, loading, queries, rows
from .forms import AirForm, KilnForm, LoadForm, PutForm
from .lighting import before_lighting_of
from .models import Load
from .undoing import newest, undo_link


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the kilns, the loads that wait, and the firings."""
    member = request.member
    last = None
    if "after" in request.GET:
        last = get_object_or_404(queries.firings_for(member), pk=request.GET["after"])
    firings, more = queries.firings_after(member, last)
    kilns = list(queries.kilns_for(member))
    loads = list(queries.unlit(member)[: queries.PAGE])
    cones = queries.cones_of_firings([firing.pk for firing in firings])
    return render(
        request,
        "kiln/home.html",
        {
            "title": rows.title_of([] if last else firings, loads, timezone.now()),
            "first_page": last is None,
            "burning": firings[0] if firings and not last and not firings[0].opened_at else None,
            "kilns": rows.kiln_rows(kilns, queries.places_by_kiln(member)),
            "loads": rows.load_rows(loads),
            "ready": next((load for load in loads if load.pots), None),
            "firings": rows.firing_rows(firings, cones, queries.good_ones(member)),
            "more": firings[-1].pk if more else "",
            "form": EntryForm(),
        },
    )


@require_http_methods(["GET", "POST"])
def new_kiln(request: StudioRequest) -> HttpResponse:
    """Take in a kiln with its three shelves."""
    form = KilnForm(sent(request))
    if request.method == "POST" and form.is_valid():
        try:
            actions.new_kiln(request.member, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("kiln:home")
    return render(request, "kiln/new_kiln.html", {"form": form}, status=422 if form.errors else 200)


@require_http_methods(["GET", "POST"])
def new_load(request: StudioRequest) -> HttpResponse:
    """Begin a load; one tap where there is one kiln."""
    kilns = list(queries.kilns_for(request.member))
    if not kilns:
        return redirect("kiln:new-kiln")
    form = LoadForm(sent(request), kilns=kilns, initial={"kiln": kilns[0].pk})
    if request.method == "POST" and form.is_valid():
        try:
            load = actions.new_load(request.member, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("kiln:load", load.pk)
    return render(
        request,
        "kiln/new_load.html",
        {"form": form, "only": kilns[0] if len(kilns) == 1 else None},
        status=422 if form.errors else 200,
    )


def load_facts(member: Member, load: Load, *, again: bool = False) -> dict[str, Any]:
    """Gather what the page says of a load."""
    placings, out = queries.in_and_just_out(load)
    places = queries.places_of(load.kiln)
    waiting = [] if load.lit_at else list(queries.waiting_pots(member, again=again)[: queries.PAGE])
    coats = coats_of(member, [p.pot_id for p in placings] + [pot.pk for pot in waiting])
    standings = [] if load.lit_at or again else queries.boards_that_wait(member)
    sizes = [] if load.lit_at else queries.sizes_of_last_loads(load.kiln)
    last = newest(placings)
    undo = None
    out_at = out.undone_at if out is not None else None
    if last is not None and not load.lit_at and (out_at is None or last.kept_at > out_at):
        count = sum(placing.together == last.together for placing in placings)
        say = ngettext("Put in: %(n)d pot.", "Put in: %(n)d pots.", count) % {"n": count}
        undo = undo_link(last, say, after=reverse("kiln:load", args=[load.pk]))
    elif out is not None and not load.lit_at:
        undo = {
            "say": _("Taken out: %s.") % name_of(out.pot),
            "url": reverse("kiln:put-back", args=[out.pk]),
            "next": reverse("kiln:load", args=[load.pk]),
        }
    return {
        "load": load,
        "name": rows.load_name(load),
        "full": loading.how_full(load, len(placings), sizes),
        "shelves": loading.shelves_of(placings, coats, places, standings),
        "pots": len(placings),
        "places": places,
        "groups": loading.groups_of(waiting, coats, standings),
        "more_wait": len(waiting) == queries.PAGE,
        "boards": loading.boards_of(standings),
        "again": again,
        "undo": undo,
    }


def _load_page(
    request: StudioRequest, load: Load, form: EntryForm, refused: str = ""
) -> HttpResponse:
    again = "again" in request.GET
    return render(
        request,
        "kiln/_load.html" if request.htmx else "kiln/load.html",
        {"form": form, "refused": refused, **load_facts(request.member, load, again=again)},
        status=422 if refused or form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def load(request: StudioRequest, load_id: str) -> HttpResponse:
    """Show a load as it stands in the kiln, and put pots into it."""
    found = get_object_or_404(queries.loads_for(request.member), pk=load_id)
    places = queries.places_of(found.kiln)
    data = sent(request)
    form = PutForm(data, member=request.member, places=places)
    if data is not None and form.is_valid():
        facts = form.facts()
        try:
            actions.put_in(
                request.member, found, facts["pots"], facts["place"], entry_id=facts["entry_id"]
            )
        except EntryRefused as refused:
            return _load_page(request, found, form, str(refused))
        if not request.htmx:
            return redirect("kiln:load", found.pk)
        form = PutForm(member=request.member, places=places)
    return _load_page(request, found, form)


@require_POST
def take_out(request: StudioRequest, placing_id: str) -> HttpResponse:
    """Take a pot out of a load that was not lit."""
    # One that was taken out already is answered as the first time: the answer may be lost.
    placing = get_object_or_404(queries.placings_ever(request.member), pk=placing_id)
    found = get_object_or_404(queries.loads_for(request.member), pk=placing.load_id)
    refused = ""
    try:
        actions.take_out(placing)
    except EntryRefused as error:
        refused = str(error)
    else:
        if not request.htmx:
            return redirect("kiln:load", found.pk)
    return _load_page(request, found, EntryForm(), refused)


@require_POST
def put_back(request: StudioRequest, placing_id: str) -> HttpResponse:
    """Put a pot back where it was just taken out."""
    placing = get_object_or_404(queries.placings_ever(request.member), pk=placing_id)
    try:
        actions.put_back(request.member, placing)
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    return redirect("kiln:load", placing.load_id)


@require_safe
def before_lighting(request: StudioRequest, load_id: str) -> HttpResponse:
    """Say of a load whether it may be lit; of one that was, whether it might have been."""
    found = get_object_or_404(queries.loads_for(request.member), pk=load_id)
    when = found.lit_at or timezone.now()
    return render(
        request,
        "kiln/before_lighting.html",
        {
            "load": found,
            "name": rows.load_name(found),
            "was_lit": found.lit_at,
            "before": before_lighting_of(request.member, queries.pots_in(found), when),
            "air_form": AirForm(),
            "light_form": EntryForm(),
            "cautions": cautions.LIGHTING,
        },
    )


@require_POST
def light(request: StudioRequest, load_id: str) -> HttpResponse:
    """Light a load: one tap, and its firing begins."""
    found = get_object_or_404(queries.loads_for(request.member), pk=load_id)
    form = EntryForm(request.POST)
    if not form.is_valid():
        return _load_page(request, found, form)
    try:
        firing = actions.light(request.member, found, **form.facts())
    except EntryRefused as refused:
        return _load_page(request, found, EntryForm(), str(refused))
    return redirect("kiln:firing", firing.pk)


@require_POST
def air(request: StudioRequest) -> HttpResponse:
    """Keep how the air is today and go back to the page that asked."""
    form = AirForm(request.POST)
    back = request.POST.get("next", "")
    if not form.is_valid():
        return render(request, "kiln/air.html", {"air_form": form, "next": back}, status=422)
    try:
        actions.say_air(request.member, **form.facts())
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    safe = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
    return redirect(back if safe else "/")
