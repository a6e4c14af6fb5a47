"""A request whose sender is known."""

from django.http import HttpRequest
from django_htmx.middleware import HtmxDetails

from .models import Member


class StudioRequest(HttpRequest):
    """What every view of a room gets: the member who asks comes with it."""

    member: Member
    htmx: HtmxDetails
