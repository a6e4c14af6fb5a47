"""What every page knows: the studio and its rooms."""

from typing import Any

from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

ROOMS = (
    ("today", _("Today"), "/"),
    ("stores", _("Stores"), "/stores/"),
    ("glazes", _("Glazes"), "/glazes/"),
    ("ware", _("Ware"), "/ware/"),
    ("kiln", _("Kiln"), "/kiln/"),
    ("shelf", _("Shelf"), "/shelf/"),
)


def house(request: HttpRequest) -> dict[str, Any]:
    """Give the rooms, marking the one this page stands in."""
    member = getattr(request, "member", None)
    if member is None:
        return {"rooms": (), "studio": None, "member": None}
    first = request.path.split("/")[1] or "today"
    rooms = [
        {"name": name, "url": url, "current": key == first, "key": key} for key, name, url in ROOMS
    ]
    head_links = [{"name": _("This studio"), "url": "/status/"}]
    return {"rooms": rooms, "studio": member.studio, "member": member, "head_links": head_links}
