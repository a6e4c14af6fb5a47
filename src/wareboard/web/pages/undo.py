"""Taking back, for ten minutes, whatever was entered."""

from collections.abc import Sequence
from typing import Any

from django.apps import apps
from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from wareboard.records.kiln.log_queries import IN_A_LOG
from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.undoing import undo

CALLED = {
    "standing": gettext_lazy("move"),
    "placing": gettext_lazy("place in the load"),
    "boardweighing": gettext_lazy("weighing of the board"),
    "fuelweight": gettext_lazy("weight of the cylinder"),
    "bucketevent": gettext_lazy("change of the bucket"),
    "batchline": gettext_lazy("grams of the batch"),
    "logline": gettext_lazy("line of the log"),
    "hopeanswer": gettext_lazy("answer"),
    "potphoto": gettext_lazy("photo"),
    "shelfphoto": gettext_lazy("photo"),
}
"""What a potter calls an entry, where its kind has a name of the record's own."""


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


def _taken_back(entry: Entry, gone: Sequence[Entry]) -> str:
    """Say what was taken back; new pots before that they stood on a board."""
    if not gone:
        return _("That was taken back before.")
    kinds_gone = {str(one._meta.model_name) for one in gone}
    kind = "pot" if "pot" in kinds_gone else str(entry._meta.model_name)
    what = CALLED.get(kind, kinds()[kind]._meta.verbose_name)
    same = [one for one in gone if one._meta.model_name == kind]
    pots = {getattr(one, "pot_id", one.pk if kind == "pot" else None) for one in same}
    if len(pots) > 1 and kind == "pot":
        return _("Taken back: %d pots.") % len(pots)
    if len(pots) > 1:
        return _("Taken back: the %(what)s, %(n)d pots.") % {"what": what, "n": len(pots)}
    return _("Taken back: the %s.") % what


@require_POST
def undo_entry(request: StudioRequest, kind: str, entry_id: str) -> HttpResponse:
    """Take an entry back and return to the page it was made on.

    What stands in a log is taken back there: a moment that was put right stands again.
    """
    model = None if kind in IN_A_LOG else kinds().get(kind)
    if model is None:
        raise Http404
    entry = get_object_or_404(
        model._base_manager.filter(studio=request.member.studio_id), pk=entry_id
    )
    try:
        gone = undo(entry)
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    else:
        messages.success(request, _taken_back(entry, gone))
    back = request.POST.get("next", "")
    safe = url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
    return redirect(back if safe else "/")
