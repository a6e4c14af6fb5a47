"""What is done to one pot or to all on a board in the same way: decorate, mark."""

from collections.abc import Mapping, Sequence
from typing import Any

from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_http_methods

from wareboard.records.people.requests import StudioRequest

from . import actions, queries
from .forms import DecorateForm, MarkForm
from .models import Pot
from .planks import called
from .taking_back import REFUSALS, sentence
from .words import DecorationKind, MarkKind

METALS = {DecorationKind.SPRINKLED, DecorationKind.INLAID, DecorationKind.BRUSHED}

CAUTIONS: Mapping[str, Any] = {
    DecorationKind.RESIST: _(
        "Shellac, latex and other resists with spirit or solvent in them: no hot plate, flame or "
        "kiln near until they are dry, and air in the room. Follow what the tin says."
    ),
    DecorationKind.CUT: _("Cut and scrape damp, so that no dust flies."),
    MarkKind.RUBBED: _(
        "Rub damp, never blow, wear a mask: the dust harms the lungs. Your local rules come first."
    ),
}
FOUND = _(
    "Found metal may be plated, painted or an alloy nobody knows: never where food or lips touch."
)


def _subject(request: StudioRequest, pot_id: str, board_id: str) -> dict[str, Any]:
    """Find the pot, or the board with all that stands on it."""
    if pot_id:
        pot = get_object_or_404(queries.pots_for(request.member), pk=pot_id)
        return {"pots": [pot], "name": called(request.member, pot), "pot": pot}
    board = get_object_or_404(queries.boards_for(request.member), pk=board_id)
    return {"pots": queries.pots_on(request.member, board), "name": board.name, "board": board}


def _back(subject: dict[str, Any]) -> HttpResponseRedirect:
    if "pot" in subject:
        return redirect("pages:pot", subject["pot"].pk)
    return redirect("ware:board", subject["board"].pk)


def _known(word: str, kinds: Sequence[str]) -> str:
    return word if word in kinds else ""


@require_http_methods(["GET", "POST"])
def decorate(request: StudioRequest, pot_id: str = "", board_id: str = "") -> HttpResponse:
    """Ask what was done, then with what; keep it of the pot, or of all on the board."""
    subject = _subject(request, pot_id, board_id)
    pots: list[Pot] = subject["pots"]
    given = request.POST if request.method == "POST" else request.GET
    kind = _known(given.get("kind", ""), DecorationKind.values)
    form = DecorateForm(request.POST or None, initial={"kind": kind}, member=request.member)
    if request.method == "POST" and pots and form.is_valid():
        try:
            actions.decorate(request.member, pots, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return _back(subject)
    return render(
        request,
        "ware/decorate.html",
        {
            "form": form,
            "kind": kind,
            "word": DecorationKind(kind).label if kind else "",
            "kinds": DecorationKind.choices,
            "caution": CAUTIONS.get(kind, ""),
            "found_caution": FOUND if kind in METALS else "",
            **subject,
        },
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def mark(request: StudioRequest, pot_id: str = "", board_id: str = "") -> HttpResponse:
    """Ask what a hand did, then where; keep it of the pot, or of all on the board."""
    subject = _subject(request, pot_id, board_id)
    pots: list[Pot] = subject["pots"]
    given = request.POST if request.method == "POST" else request.GET
    kind = _known(given.get("kind", ""), MarkKind.values)
    form = MarkForm(request.POST or None, initial={"kind": kind})
    if request.method == "POST" and pots and form.is_valid():
        try:
            actions.mark(request.member, pots, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return _back(subject)
    return render(
        request,
        "ware/mark.html",
        {
            "form": form,
            "kind": kind,
            "word": MarkKind(kind).label if kind else "",
            "kinds": MarkKind.choices,
            "caution": CAUTIONS.get(kind, ""),
            **subject,
        },
        status=422 if form.errors else 200,
    )
