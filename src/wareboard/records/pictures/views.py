"""Photos and spoken notes, for members of the studio that holds them."""

from django.http import HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from wareboard.records.people.requests import StudioRequest

from . import queries, storage
from .disk import Disk
from .kinds import PHOTO_TYPES, SOUND_TYPES
from .models import Original
from .serving import INERT, inert_file


@require_safe
def view(request: StudioRequest, original_id: str, size: str) -> HttpResponseBase:
    """Show a photo in one of its sizes."""
    original = get_object_or_404(queries.originals_for(request.member), pk=original_id)
    if not queries.has_view(original):
        return placard(_("kept, no preview"), status=200)
    if not ready(original, size):
        return placard(_("missing"), status=404)
    return inert_file(
        request,
        storage.view_path(original.sha256, size),
        content_type="image/jpeg",
        name=f"{original}.jpg",
        attachment=False,
    )


def ready(original: Original, size: str) -> bool:
    """See that a view is there, making it where it was thrown away."""
    if storage.view_path(original.sha256, size).exists():
        return True
    from . import photos  # noqa: PLC0415 - loads the reader of pictures, which few requests need

    try:
        photo = photos.read_photo(storage.original_path(original.file_name).read_bytes())
    except (OSError, photos.PhotoUnreadable):
        return False
    storage.keep_views(original.sha256, photo.views, disk=Disk())
    return True


@require_safe
def original(request: StudioRequest, original_id: str) -> HttpResponseBase:
    """Hand out an original, byte for byte, to be saved or listened to."""
    found = get_object_or_404(queries.originals_for(request.member), pk=original_id)
    path = storage.original_path(found.file_name)
    if not path.is_file():
        return placard(_("missing"), status=404)
    types = {**PHOTO_TYPES, **SOUND_TYPES}
    return inert_file(
        request,
        path,
        content_type=types.get(found.suffix, "application/octet-stream"),
        name=f"{found}.{found.suffix}",
        attachment=True,
    )


def placard(words: str, *, status: int) -> HttpResponse:
    """Draw a card with two words on it, where a picture should be."""
    drawn = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 240 160">'
        '<rect width="240" height="160" fill="#e8e1d5"/>'
        '<text x="120" y="86" text-anchor="middle" font-family="sans-serif" font-size="18"'
        f' fill="#5c534a">{words}</text></svg>'
    )
    return HttpResponse(drawn, status=status, content_type="image/svg+xml", headers=INERT)
