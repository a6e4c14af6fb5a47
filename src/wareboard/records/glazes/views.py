"""Pages of the glaze room alone."""

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from wareboard.records.people.requests import StudioRequest

from . import queries


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the buckets and the glazes of the studio."""
    return render(
        request,
        "glazes/home.html",
        {
            "buckets": queries.buckets_for(request.member),
            "glazes": queries.glazes_for(request.member),
        },
    )
