"""Nobody reads or writes without being a member of the studio."""

from collections.abc import Callable
from typing import Any, TypeVar
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.http import HttpRequest, HttpResponse, HttpResponseBase, HttpResponseForbidden
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.http import urlencode
from django.utils.translation import gettext as _

from wareboard.records.people.backend import membership_of
from wareboard.records.people.models import Member, Studio

View = TypeVar("View", bound=Callable[..., HttpResponseBase])
READING = frozenset({"GET", "HEAD", "OPTIONS"})


def open_to_strangers(view: View) -> View:
    """Mark one of the few views that answer without a sign-in."""
    view.open_to_strangers = True  # type: ignore[attr-defined] # a mark on the function itself
    return view


def open_to_readers(view: View) -> View:
    """Mark one of the few views where somebody who may only read changes what is their own."""
    view.open_to_readers = True  # type: ignore[attr-defined] # a mark on the function itself
    return view


class MembersOnly:
    """Find out who asks; send strangers to the sign-in page."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Show times as the studio's clock does."""
        try:
            return self.get_response(request)
        finally:
            timezone.deactivate()

    def process_view(
        self, request: Any, view: Callable[..., Any], _args: Any, _kwargs: Any
    ) -> HttpResponseBase | None:
        """Let members in; readers may not change anything."""
        if getattr(view, "open_to_strangers", False):
            return None
        member = member_of(request)
        if member is None:
            return to_sign_in(request)
        if not (
            request.method in READING or member.may_write or getattr(view, "open_to_readers", False)
        ):
            return HttpResponseForbidden(
                _("You may read this record, not add to it."), content_type="text/plain"
            )
        request.member = member
        timezone.activate(clock_of(member.studio))
        return None


def member_of(request: Any) -> Member | None:
    """Find the member who asks."""
    if not request.user.is_authenticated:
        return None
    known: Member | None = request.user.asks_as
    return known or membership_of(request.user.pk)


def clock_of(studio: Studio) -> ZoneInfo:
    """Give the studio's time zone; UTC where this machine does not know it."""
    try:
        return ZoneInfo(studio.time_zone)
    except (ZoneInfoNotFoundError, ValueError):
        return ZoneInfo("UTC")


def to_sign_in(request: Any) -> HttpResponse:
    """Send a stranger to the sign-in page, and a fragment's whole page with it."""
    reading = request.method in READING
    back = request.get_full_path() if reading and not request.htmx else request.path
    address = "/sign-in/?" + urlencode({"next": back})
    if request.htmx:
        return HttpResponse(status=401, headers={"HX-Redirect": address})
    return redirect(address)
