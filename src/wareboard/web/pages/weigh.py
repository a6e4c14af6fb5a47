"""A pot on the scale: what it weighs, and what that means; of a fired one, no word of lighting."""

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from wareboard.records.kiln.queries import last_lit_with
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.undoing import may_undo
from wareboard.records.ware import actions, queries
from wareboard.records.ware.forms import WeighForm
from wareboard.records.ware.kept import kept_weighing
from wareboard.records.ware.models import Pot, Weighing
from wareboard.records.ware.planks import called
from wareboard.records.ware.proved import too_soon
from wareboard.records.ware.taking_back import REFUSALS, sentence, undo_of
from wareboard.records.ware.weighing_answer import (
    answer_for,
    heavy_for_dry,
    likely_state,
    states_for,
    when_said,
)
from wareboard.records.ware.words import WeighingState


def _weighings(request: StudioRequest, pot: Pot) -> dict[str, Any]:
    """Gather what the page of a weighing says."""
    shown = Shown(request.member.studio)
    weighings = list(queries.weighings_of(pot))
    lit_at = last_lit_with(request.member, pot)
    answer, coats = answer_for(request.member, pot, weighings, lit_at=lit_at)
    newest = weighings[0] if weighings else None
    last = max(weighings, key=lambda one: one.kept_at, default=None)
    return {
        "pot": pot,
        "name": called(request.member, pot),
        "answer": answer,
        "weighed": when_said(newest.at) if newest and not (answer and answer.since_dip) else "",
        "fresh": newest is not None and may_undo(newest),
        "states": states_for(coats),
        "likely": likely_state(weighings, coats, lit_at=lit_at),
        "rows": [
            {
                "weighing": w,
                "weight": shown.mass(w.weight_g),
                "state": w.get_state_display(),
            }
            for w in weighings
        ],
        "undo": undo_of(last, kept_weighing(last, shown)) if last else None,
    }


@require_http_methods(["GET", "POST"])
def weigh(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Put a pot on the scale, and say what its weight means."""
    pot: Pot = get_object_or_404(queries.pots_for(request.member), pk=pot_id)
    back = _inside(request)
    form = WeighForm(request.POST) if request.method == "POST" else None
    if form is not None and form.is_valid():
        form.ask("weight_g", heavy_for_dry(request.member, pot, form.cleaned_data))
        form.ask("state", _proved_too_soon(pot, form.cleaned_data["state"]))
    if form is not None and not form.errors:
        try:
            kept = actions.weigh(request.member, pot, **form.facts())
        except REFUSALS as refused:
            form.add_error("weight_g", sentence(refused))
        else:
            if back:
                return _gone_back(request, back, pot, kept)
            if not request.htmx:
                return redirect("pages:weigh", pot.pk)
            form = None
    facts = _weighings(request, pot)
    if form is None:
        form = WeighForm(initial={"state": facts["likely"]})
    form.fields["state"].choices = facts["states"]  # type: ignore[attr-defined] # a choice of words
    return render(
        request,
        "ware/_weigh.html" if request.htmx else "ware/weigh.html",
        {"form": form, "next": back, **facts},
        status=422 if form.errors else 200,
    )


def _proved_too_soon(pot: Pot, state: str) -> str:
    """Ask about the second weighing of a proof that comes too soon after the first."""
    if state != WeighingState.AFTER_PROOF:
        return ""
    first = (one for one in queries.weighings_of(pot) if one.state == WeighingState.BEFORE_PROOF)
    return too_soon(next(first, None), timezone.now())


def _inside(request: StudioRequest) -> str:
    """Give the page that one came from, if it lies in this studio; else nothing."""
    address = request.POST.get("next", request.GET.get("next", ""))
    safe = url_has_allowed_host_and_scheme(address, allowed_hosts={request.get_host()})
    return address if safe else ""


def _gone_back(request: StudioRequest, back: str, pot: Pot, kept: Weighing) -> HttpResponse:
    """Go back to the load that asked for the weight, and say there what was kept."""
    weight = Shown(request.member.studio).mass(kept.weight_g)
    say = _("Kept: %(pot)s, %(weight)s.")
    messages.info(request, say % {"pot": called(request.member, pot), "weight": weight})
    if request.htmx:
        return HttpResponse(status=204, headers={"HX-Redirect": back})
    return redirect(back)
