"""What stands typed in the form of a log while something else is tapped.

The form of the next line is posted along with every tap on its page; what it says is held in
the visit until the line is kept, so that it stands there again on whichever way one comes back.
"""

from datetime import datetime, timedelta

from django.http import HttpRequest
from django.utils import timezone

from .models import Firing

FIELDS = ("temp_c", "flame", "damper", "pressure_kpa", "note", "seen", "remembered")
HELD = "typed_in_log"
HELD_FOR = timedelta(hours=1)
LONGEST = 300


def hold(request: HttpRequest, firing: Firing) -> None:
    """Hold what came along from the form of the next line, where it came along."""
    if FIELDS[0] not in request.POST:
        return
    sent = {name: request.POST.get(name, "").strip()[:LONGEST] for name in FIELDS}
    typed = {name: text for name, text in sent.items() if text}
    if typed:
        at = timezone.now().isoformat()
        request.session[HELD] = {"firing": firing.pk, "at": at, "typed": typed}
    else:
        drop(request)


def drop(request: HttpRequest) -> None:
    """Forget it: the line is kept."""
    if HELD in request.session:
        del request.session[HELD]


def held(request: HttpRequest, firing: Firing) -> dict[str, str]:
    """Give what was typed for the next line of a firing, and not kept yet."""
    found = request.session.get(HELD)
    if not found or found["firing"] != firing.pk:
        return {}
    if timezone.now() - datetime.fromisoformat(found["at"]) > HELD_FOR:
        return {}
    typed: dict[str, str] = found["typed"]
    return typed
