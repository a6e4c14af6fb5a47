"""Taking back, for ten minutes, whatever was entered."""

from typing import Any

from django.apps import apps
from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.undoing import undo


def kinds() -> dict[str, type[Entry]]:
    """Give every kind of entry by its short name."""
    return {
        str(model._meta.model_name): model
        for model in apps.get_models()
        if issubclass(model, Entry)
    }


def undo_link(entry: Entry, say: str) -> dict[str, Any]:
    """Give what the foot of a page needs to offer taking an entry back."""
    kind = str(entry._meta.model_name)
    return {"say": say, "url": reverse("pages:undo", args=[kind, entry.pk])}


@require_POST
def undo_entry(request: StudioRequest, kind: str, entry_id: str) -> HttpResponse:
    """Take an entry back and return to the page it was made on."""
    model = kinds().get(kind)
    if model is None:
        raise Http404
    entry = get_object_or_404(
        model._base_manager.filter(studio=request.member.studio_id), pk=entry_id
    )
    try:
        undo(entry)
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    else:
        messages.success(request, _("Taken back."))
    back = request.POST.get("next", "")
    safe = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
    return redirect(back if safe else "/")
