"""Putting a log right: a line of it, and when something happened in the firing."""

from datetime import datetime

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.requests import StudioRequest, sent
from wareboard.records.people.shown import Shown
from wareboard.records.people.standing_for import standing_for

from . import actions, happened, log_queries, queries
from .log_forms import LineRightForm, WhenForm, as_meant
from .log_views import LIT, firing_of
from .logs import course_of
from .models import Firing, LogLine
from .slipped import still_hot
from .words import MomentKind


@require_http_methods(["GET", "POST"])
def line(request: StudioRequest, line_id: str) -> HttpResponse:
    """Put a line of the log right; the old one is kept."""
    found = standing_for(queries.lines_for(request.member), LogLine, line_id)
    opened = queries.moments_of(found.firing).get(MomentKind.OPENED)
    told = sent(request)
    form = LineRightForm(
        None if told is None else as_meant(told),
        line=found,
        studio=request.member.studio,
        until=opened.at if opened else None,
    )
    if request.method == "POST" and form.is_valid() and form.reads_otherwise:
        course = course_of(request.member, found.firing)
        at = form.facts().get("at") or found.at
        form.ask_of_temperature(course, at, left_out=found.pk)
    if request.method == "POST" and form.is_valid():
        try:
            actions.correct_line(request.member, found, **form.facts())
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


@require_http_methods(["GET", "POST"])
def moment_right(request: StudioRequest, firing_id: str, which: str) -> HttpResponse:
    """Say when a firing was lit, sealed, shut off or opened; what stood there is kept."""
    found = firing_of(request.member, firing_id)
    kinds = {slugify(one.value): one for one in MomentKind}
    if which != LIT and which not in kinds:
        raise Http404
    kind = kinds.get(which)
    stands = queries.moments_of(found).get(kind) if kind else None
    if kind is not None and request.POST.get("did") == "not":
        return _never_was(request, found, kind)
    at = stands.at if stands else found.at if kind is None else None
    begun = {"when": at or timezone.now(), "remembered": stands.remembered if stands else ""}
    form = WhenForm(sent(request), initial=begun)
    question = ""
    if kind == MomentKind.OPENED and not form.is_bound and stands is None:
        question = _still_hot(request, found, at or timezone.now())
        form.asked = bool(question)
    if kind == MomentKind.OPENED and form.is_valid():
        form.ask("when", _still_hot(request, found, form.cleaned_data["when"]))
    if request.method == "POST" and form.is_valid():
        facts = {name: value for name, value in form.facts().items() if name in form.data}
        when = facts.pop("when")
        try:
            if kind is None:
                happened.put_lighting_right(found, at=when)
            else:
                happened.put_moment_right(request.member, found, kind, at=when, **facts)
        except EntryRefused as refused:
            form.add_error("when", str(refused))
        else:
            back = request.GET.get("next", "")
            safe = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
            return redirect(back) if safe else redirect("kiln:firing", found.pk)
    before = log_queries.stood_before(stands) if stands else None
    return render(
        request,
        "kiln/happened.html",
        {
            "form": form,
            "firing": found,
            "what": kind.label if kind else _("lit"),
            "at": at,
            "question": question,
            "may_go": stands is not None,
            "is_moment": kind is not None,
            "before": before.at if before else None,
        },
        status=422 if form.errors else 200,
    )


def _still_hot(request: StudioRequest, found: Firing, at: datetime) -> str:
    """Ask whether a kiln is open that its log says is hot."""
    return still_hot(log_queries.last_told(found, at), at, Shown(request.member.studio))


def _never_was(request: StudioRequest, found: Firing, kind: MomentKind) -> HttpResponse:
    """Take a moment away that was tapped by mistake, and say so above the log."""
    if happened.did_not_happen(found, kind) is not None:
        say = _("“%s” is taken away: it did not happen. What stood there is kept.")
        messages.info(request, say % kind.label)
    return redirect("kiln:firing", found.pk)
