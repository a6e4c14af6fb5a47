"""Pages of the shelf."""

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.core.errors import CoreError
from wareboard.records.kiln.queries import firings_of_pots
from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest
from wareboard.records.ware.books import coats_of
from wareboard.records.ware.drawn import name_of
from wareboard.records.ware.planks import glazes_on
from wareboard.records.ware.queries import pots_for

from . import actions, queries
from .finding import told_of
from .forms import VerdictForm

LONGEST_SEARCH = 60
FOUND_A_PAGE = 24


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the newest verdicts, the way to what changed, and the pots that some words find."""
    text = request.GET.get("q", "").strip()[:LONGEST_SEARCH]
    after = request.GET.get("after", "")
    facts = _found(request, text, after) if text else _verdicts(request, after)
    return render(
        request,
        "shelf/_pots.html" if request.htmx else "shelf/home.html",
        {"q": text, "after": after, **facts},
    )


def _verdicts(request: StudioRequest, after: str) -> dict[str, Any]:
    """Gather a page of verdicts, newest first."""
    page = cut(queries.verdicts_for(request.member), by="at", after=after, newest_first=True)
    rows = [
        {"pot": v.pot_id, "name": name_of(v.pot), "at": v.at, "verdicts": [v]} for v in page.rows
    ]
    return {"rows": rows, "more": page.more}


def _found(request: StudioRequest, text: str, after: str) -> dict[str, Any]:
    """Gather a page of the pots that every word is found of."""
    member = request.member
    page = cut(
        told_of(member, text),
        by="at",
        after=after,
        newest_first=True,
        size=FOUND_A_PAGE,
        among=pots_for(member),
    )
    ids = [pot.pk for pot in page.rows]
    coats, verdicts = coats_of(member, ids), queries.verdicts_on(member, ids)
    fired = firings_of_pots(member, ids)
    rows = [
        {
            "pot": pot.pk,
            "name": name_of(pot),
            "at": pot.at,
            "whose": pot.whose,
            "glazes": glazes_on(coats.get(pot.pk, ())),
            "firing": fired[pot.pk].firing_number if pot.pk in fired else None,
            "verdicts": verdicts.get(pot.pk, ()),
        }
        for pot in page.rows
    ]
    return {"rows": rows, "more": page.more}


@require_http_methods(["GET", "POST"])
def judge(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Judge one surface of a pot."""
    pot = get_object_or_404(pots_for(request.member), pk=pot_id)
    form = VerdictForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.judge(request.member, pot, **form.facts())
        except (CoreError, EntryRefused) as refused:
            form.add_error(None, str(refused))
        else:
            return redirect("pages:story", pot.pk)
    return render(
        request,
        "shelf/judge.html",
        {"form": form, "pot": pot, "name": name_of(pot)},
        status=422 if form.errors else 200,
    )
