"""Pages of the shelf."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.core.errors import CoreError
from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.requests import StudioRequest
from wareboard.records.ware.drawn import name_of
from wareboard.records.ware.queries import pots_for

from . import actions, queries
from .forms import VerdictForm

NEWEST = 40


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the newest verdicts and the way to what changed."""
    verdicts = queries.verdicts_for(request.member)[:NEWEST]
    return render(
        request,
        "shelf/home.html",
        {"rows": [{"verdict": v, "name": name_of(v.pot)} for v in verdicts]},
    )


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
