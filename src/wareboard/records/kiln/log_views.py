"""The log of a firing: its lines, and what happened once in it."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any
from urllib.parse import quote

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from wareboard.charts.theme import Light
from wareboard.core.drying import SLOW_START_C
from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown

from . import actions, cautions, curves, happened, log_queries, queries, spoken, typed
from .gas_answer import gas_answer
from .log_answer import answer_for
from .log_forms import LineForm, as_meant
from .logs import Course, course_of
from .models import Firing, GoodFiring, LogLine, Moment
from .slipped import still_hot
from .slow_start import past_steam, slow_start, too_soon
from .undoing import newest, undo_link
from .words import Fuel, MomentKind

LINES = 50
LIT = "lit"
GO_ON = {"cones": "kiln:cones", "gas": "kiln:gas"}


def firing_of(member: Member, firing_id: str) -> Firing:
    """Give a firing of this studio, or say that there is none."""
    return get_object_or_404(queries.firings_for(member), pk=firing_id)


def line_form(
    member: Member, course: Course, data: Any = None, held: Mapping[str, str] | None = None
) -> LineForm:
    """Make the form that takes the next line, with what was typed in it before."""
    opened = course.moments.get(MomentKind.OPENED)
    return LineForm(
        data,
        initial=dict(held or {}),
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


def _moments(course: Course, now: datetime) -> list[dict[str, Any]]:
    """Give what happens once in a firing: when it did, or that it may be tapped.

    What a later moment has passed is not tapped any more, but said.
    """
    found = course.moments
    beside = course.firing.at if MomentKind.SHUT_OFF in found else now
    reached = max((happened.RANK[MomentKind(kind)] for kind in found), default=0)

    def row(kind: str, label: Any, at: datetime | None, rank: int) -> dict[str, Any]:
        url = reverse("kiln:happened", args=[course.firing.pk, slugify(kind)])
        when = spoken.clock(at, now=beside) if at else ""
        passed = at is None and rank < reached
        return {"kind": kind, "label": label, "when": when, "right_url": url, "passed": passed}

    return [
        row(LIT, _("lit"), course.firing.at, 0),
        *(
            row(k.value, k.label, found[k].at if k in found else None, happened.RANK[k])
            for k in MomentKind
        ),
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
    if last == course.firing:
        after = reverse("kiln:load", args=[course.firing.load_id])
        return undo_link(last, _say_kept(last, shown), after=after)
    url = reverse("kiln:log-undo", args=[course.firing.pk, last._meta.model_name, last.pk])
    return {"say": _say_kept(last, shown), "url": url, "beside_form": True}


def log_facts(
    member: Member,
    firing: Firing,
    before: str = "",
    *,
    held: Mapping[str, str] | None = None,
    course: Course | None = None,
) -> dict[str, Any]:
    """Gather what the page says of a firing.

    Parameters
    ----------
    member : Member
        Who asks.
    firing : Firing
        Which one.
    before : str
        The line after which the table goes on; the last lines where it is empty.
    held : mapping of str to str
        What was typed for the next line, and not kept yet.
    course : Course, optional
        Its course, where it is at hand.
    """
    shown = Shown(member.studio)
    course = course or course_of(member, firing)
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
        "moments": _moments(course, timezone.now()),
        "gas": gas_answer(course.fuel, sealed.at if sealed else None, shown),
        "burns_gas": firing.load.kiln.fuel in {Fuel.PROPANE, Fuel.NATURAL_GAS},
        "done": done,
        "shut": MomentKind.SHUT_OFF in course.moments,
        "form": line_form(member, course, held=held),
        "held": held,
        "hold_below": "" if before or past_steam(course) else shown.temperature(SLOW_START_C),
        "too_soon": "" if before else too_soon(course, shown),
        "tap_form": EntryForm(),
        "cautions": () if done else cautions.FIRING,
        "undo": _undo(course, course.called, shown),
        "at": spoken.clock(timezone.now()),
    }


@require_GET
def slow(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Say which pot that went in wet holds the kiln low; asked for beside the log."""
    found = firing_of(request.member, firing_id)
    shown = Shown(request.member.studio)
    say = slow_start(request.member, found, shown)
    facts = {"slow_start": say, "below": shown.temperature(SLOW_START_C)}
    return render(request, "kiln/_slow_start.html", facts)


@require_http_methods(["GET", "POST"])
def firing(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Show the log of a firing, and take its next line."""
    found = firing_of(request.member, firing_id)
    if request.method != "POST":
        return _log_page(request, found, before=request.GET.get("before", ""))
    course = course_of(request.member, found)
    form = line_form(request.member, course, as_meant(request.POST))
    if form.is_valid():
        form.ask_of_temperature(course, form.facts().get("at") or timezone.now())
    if form.is_valid():
        try:
            actions.write_line(request.member, found, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
    if form.errors:
        return _log_page(request, found, form=form, course=course)
    typed.drop(request)
    return _log_page(request, found) if request.htmx else redirect("kiln:firing", found.pk)


def _log_page(
    request: StudioRequest,
    found: Firing,
    *,
    before: str = "",
    form: LineForm | None = None,
    course: Course | None = None,
) -> HttpResponse:
    """Give the log as it is now; the typed line stands in it where it was not kept."""
    held = typed.held(request, found)
    facts = log_facts(request.member, found, before, held=held, course=course)
    if form is not None:
        facts["form"] = form
    template = "kiln/_firing.html" if request.htmx else "kiln/firing.html"
    return render(request, template, facts, status=422 if form is not None else 200)


def _back_to_log(request: StudioRequest, found: Firing) -> HttpResponse:
    return _log_page(request, found) if request.htmx else redirect("kiln:firing", found.pk)


@require_POST
def moment(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Keep what happens once in a firing; the tap stamps the time."""
    found = firing_of(request.member, firing_id)
    form = EntryForm({"entry_id": request.POST.get("entry_id", "")})
    kind = request.POST.get("kind", "")
    if kind not in MomentKind.values or not form.is_valid():
        raise Http404
    typed.hold(request, found)
    back = request.POST.get("next", "")
    if kind == MomentKind.OPENED and _hot_and_shut(request.member, found):
        ask = reverse("kiln:happened", args=[found.pk, slugify(kind)])
        return _whole_page(request, f"{ask}?next={quote(back)}" if back else ask)
    entry_id = form.cleaned_data["entry_id"]
    try:
        happened.keep_moment(request.member, found, MomentKind(kind), entry_id=entry_id)
    except EntryRefused as refused:
        messages.warning(request, str(refused))
        return _whole_page(request, reverse("kiln:happened", args=[found.pk, slugify(kind)]))
    if url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()}):
        return redirect(back)
    return _back_to_log(request, found)


def _hot_and_shut(member: Member, found: Firing) -> bool:
    """Tell whether a kiln, not opened yet by its log, cannot have cooled by now."""
    if MomentKind.OPENED in queries.moments_of(found):
        return False
    now = timezone.now()
    return bool(still_hot(log_queries.last_told(found, now), now, Shown(member.studio)))


def _whole_page(request: StudioRequest, url: str) -> HttpResponse:
    """Go to another page, also where only a fragment was asked for."""
    if request.htmx:
        return HttpResponse(status=204, headers={"HX-Redirect": url})
    return redirect(url)


@require_POST
def hold(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Go on to the cones or the gas; what is typed stays in the log."""
    found = firing_of(request.member, firing_id)
    typed.hold(request, found)
    to = GO_ON.get(request.POST.get("go", ""))
    if to is None:
        raise Http404
    return _whole_page(request, reverse(to, args=[found.pk]))


@require_POST
def log_undo(request: StudioRequest, firing_id: str, kind: str, entry_id: str) -> HttpResponse:
    """Take something of a log back; what is typed stays in it."""
    found = firing_of(request.member, firing_id)
    if kind not in log_queries.IN_A_LOG:
        raise Http404
    entry = get_object_or_404(log_queries.in_a_log(request.member, kind, found), pk=entry_id)
    typed.hold(request, found)
    try:
        happened.take_back(entry)
    except EntryRefused as refused:
        messages.warning(request, str(refused))
        return _whole_page(request, reverse("kiln:firing", args=[found.pk]))
    return _back_to_log(request, found)
