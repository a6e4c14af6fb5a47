"""What a person is told when something goes wrong: what happened, and what to do."""

import logging
import sys

from django.conf import settings
from django.db import OperationalError
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from wareboard.records.keeping import places
from wareboard.web.sqlite.base import TAKEN_AWAY

logger = logging.getLogger(__name__)


def fault(request: HttpRequest, status: int, title: str, say: str) -> HttpResponse:
    """Show one sentence, on a page where that is possible."""
    try:
        page = render_to_string("faults/fault.html", {"title": title, "say": say}, request)
    except Exception:  # the page that reports faults must not have one of its own
        logger.exception("The page for faults failed itself.")
        return HttpResponse(f"{title}. {say}\n", status=status, content_type="text/plain")
    return HttpResponse(page, status=status)


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer a request that cannot be read."""
    del exception  # what was sent is not repeated to whoever sent it
    return fault(request, 400, _("Not understood"), _("What was sent cannot be read."))


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer what is not allowed."""
    del exception  # as in bad_request
    return fault(request, 403, _("Not allowed"), _("This is not yours to see or change."))


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Answer an address that leads nowhere."""
    del exception  # as in bad_request
    return fault(request, 404, _("Not here"), _("There is no such page in this studio."))


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Answer a form that does not come from a page of this studio."""
    del reason  # meant for programmers
    return fault(
        request,
        403,
        _("Not taken in"),
        _("This form came from an old or foreign page. Reload the page and enter it once more."),
    )


def server_error(request: HttpRequest) -> HttpResponse:
    """Answer a fault: a full disk, a record that is gone, or one of our own."""
    error = sys.exc_info()[1]
    if isinstance(error, OperationalError):
        return database_fault(request, str(error))
    return fault(
        request,
        500,
        _("Something went wrong"),
        _(
            "This is a fault of the program; what you entered before is kept. Go back and try once"
            " more; the terminal where Wareboard runs says more."
        ),
    )


def database_fault(request: HttpRequest, what: str) -> HttpResponse:
    """Answer a fault of the record itself."""
    if "full" in what or "disk I/O" in what:
        free_mb = places.free_bytes(settings.DATA) / 1e6
        return fault(
            request,
            507,
            _("The disk is full"),
            _(
                "This was not kept; everything before it is. %(free)d MB are free: make room on the"
                " disk of this machine, then enter it once more."
            )
            % {"free": free_mb},
        )
    if "locked" in what or "busy" in what:
        answer = fault(
            request,
            503,
            _("Busy"),
            _("The record was busy for too long and this was not kept. Enter it once more."),
        )
        answer.headers["Retry-After"] = "2"
        return answer
    if "readonly" in what:
        say = _("The record cannot be written to, so this was not kept. Reading still works.")
    elif what == TAKEN_AWAY or "unable to open" in what:
        say = _(
            "The record's file is gone or was replaced while the studio was open. Nothing more is"
            " written. Stop the studio on its machine and start it again."
        )
    else:
        say = _("The record cannot be read. Stop the studio and run: wareboard look-over")
    return fault(request, 503, _("The record cannot be used"), say)
