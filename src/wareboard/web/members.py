"""Nobody reads or writes without being a member of the studio."""

from collections.abc import Callable
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse, HttpResponseBase, HttpResponseForbidden
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.http import urlencode
from django.utils.translation import gettext as _

from wareboard.records.people.models import Member

View = TypeVar("View", bound=Callable[..., HttpResponseBase])


def open_to_strangers(view: View) -> View:
    """Mark one of the few views that answer without a sign-in."""
    view.open_to_strangers = True  # type: ignore[attr-defined] # a mark on the function itself
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
        member = None
        if request.user.is_authenticated:
            member = (
                Member.objects.select_related("studio").filter(person_id=request.user.pk).first()
            )
        if member is None:
            return to_sign_in(request)
        if request.method not in {"GET", "HEAD", "OPTIONS"} and not member.may_write:
            return HttpResponseForbidden(_("You may read this record, not add to it."))
        request.member = member
        timezone.activate(ZoneInfo(member.studio.time_zone))
        return None


def to_sign_in(request: Any) -> HttpResponse:
    """Send a stranger to the sign-in page, and a fragment's whole page with it."""
    address = "/sign-in/?" + urlencode({"next": request.path})
    if request.htmx:
        return HttpResponse(status=401, headers={"HX-Redirect": address})
    return redirect(address)
