"""A request whose sender is known."""

from django.http import HttpRequest, QueryDict
from django_htmx.middleware import HtmxDetails

from .models import Member


class StudioRequest(HttpRequest):
    """What every view of a room gets: the member who asks comes with it."""

    member: Member
    htmx: HtmxDetails


def sent(request: HttpRequest) -> QueryDict | None:
    """Give what was sent, also where that is nothing at all; None where nothing was."""
    return request.POST if request.method == "POST" else None
