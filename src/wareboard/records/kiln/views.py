"""Pages of the kiln room."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST, require_safe

from wareboard.records.people.requests import StudioRequest

from . import actions, queries
from .forms import AirForm
from .lighting import before_lighting_of


@require_safe
def before_lighting(request: StudioRequest, load_id: str) -> HttpResponse:
    """Say of a load whether it may be lit; of one that was, whether it might have been."""
    load = get_object_or_404(queries.loads_for(request.member), pk=load_id)
    when = load.lit_at or timezone.now()
    return render(
        request,
        "kiln/before_lighting.html",
        {
            "load": load,
            "was_lit": load.lit_at,
            "before": before_lighting_of(request.member, queries.pots_in(load), when),
            "air_form": AirForm(),
        },
    )


@require_safe
def firing(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Show the log of a firing."""
    found = get_object_or_404(queries.firings_for(request.member), pk=firing_id)
    return render(request, "kiln/firing.html", {"firing": found, "lines": queries.lines_of(found)})


@require_POST
def air(request: StudioRequest) -> HttpResponse:
    """Keep how the air is today and go back to the page that asked."""
    form = AirForm(request.POST)
    back = request.POST.get("next", "")
    if not form.is_valid():
        return render(request, "kiln/air.html", {"air_form": form, "next": back}, status=422)
    actions.say_air(request.member, **form.facts())
    safe = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
    return redirect(back if safe else "/")
