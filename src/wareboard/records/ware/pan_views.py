"""The page on which small pots are weighed together, twice."""

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown

from . import pans, queries
from .forms import PanForm
from .planks import names_on_boards
from .proved import too_soon
from .taking_back import REFUSALS, sentence, undo_of
from .weighing_answer import when_said
from .words import WeighingState


@require_http_methods(["GET", "POST"])
def weigh_together(request: StudioRequest) -> HttpResponse:
    """Weigh the pots that the address names: before two warm hours, and after them."""
    member = request.member
    asked = request.GET.getlist("pot")
    pots = pans.pots_named(member, asked)
    names = names_on_boards(queries.pots_by_board(member))
    form = PanForm(request.POST or None, pots=pots, names=names)
    here = f"{reverse('ware:weigh-together')}?{urlencode({'pot': asked}, doseq=True)}"
    last = pans.last_on_pan(pots)
    waiting = pans.waits_for_second(last)
    if request.method == "POST" and form.is_valid():
        second = form.cleaned_data["state"] == WeighingState.PAN_AFTER
        form.ask("state", too_soon(waiting[0], timezone.now()) if second and waiting else "")
    if request.method == "POST" and not form.errors:
        facts = form.facts()
        try:
            pans.weigh_together(member, list(facts.pop("pots")), **facts)
        except REFUSALS as refused:
            form.add_error("pots", sentence(refused))
        else:
            return redirect(here)
    if not form.is_bound:
        first = [row.pot_id for row in waiting] or [pot.pk for pot in pots]
        state = WeighingState.PAN_AFTER if waiting else WeighingState.PAN_BEFORE
        form = PanForm(initial={"pots": first, "state": state}, pots=pots, names=names)
    shown = Shown(member.studio)
    newest = last[-1] if last else None
    return render(
        request,
        "ware/together.html",
        {
            "form": form,
            "pots": pots,
            "here": here,
            "weight": shown.mass(waiting[0].weight_g) if waiting else "",
            "when": when_said(waiting[0].at) if waiting else "",
            "proved": shown.mass(newest.weight_g) if newest and not waiting else "",
            "undo": undo_of(
                newest, _("Kept: %s together.") % shown.mass(newest.weight_g), back=here
            )
            if newest
            else None,
        },
        status=422 if form.errors else 200,
    )
