"""One dip for all that stands on a board, one pot weighed for the rest."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.ware import actions, queries
from wareboard.records.ware.dip_forms import DipAllForm, WhichForm
from wareboard.records.ware.models import Board, Pot
from wareboard.records.ware.planks import numbered
from wareboard.records.ware.taking_back import REFUSALS, sentence
from wareboard.records.ware.words import Extent, How, Side

from .dip import chosen_of, planned_of
from .dip_answer import SPRAY
from .dip_doubt import hard_to_believe, tried_on
from .dip_warning import warn_board
from .good_coats import Known, gather


@require_http_methods(["GET", "POST"])
def dip_board(request: StudioRequest, board_id: str) -> HttpResponse:
    """Ask which bucket and side; warn; keep the coat on every pot of the board."""
    board = get_object_or_404(queries.boards_for(request.member), pk=board_id)
    pots = queries.pots_on(request.member, board)
    if not pots:
        return redirect("ware:board", board.pk)
    buckets = queries.buckets_at_hand(request.member)
    posted = request.method == "POST"
    which = WhichForm(
        request.POST if posted else request.GET if "bucket" in request.GET else None,
        initial={"side": Side.INSIDE, "extent": Extent.WHOLE},
        buckets=buckets,
    )
    if not which.is_valid():
        return _ask(request, board, which, len(pots))
    form = DipAllForm(
        request.POST if posted else None,
        initial={"how": How.DIPPED},
        buckets=buckets,
        pots=pots,
        names=numbered(pots),
    )
    planned, tried = planned_of(which), None
    if posted and form.is_valid():
        facts = form.facts()
        tried = tried_on(facts["weighed"], facts) if facts["weighed"] else None
    known = gather(request.member, pots, planned.glaze, planned.side, tried=tried)
    if posted and not form.errors:
        form.ask("after_g", hard_to_believe(known, Shown(request.member.studio)))
    if posted and not form.errors:
        try:
            coats = actions.dip_all(request.member, pots, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("pages:coat", coats[0].pk)
    return _scale(request, board, pots, which, form, known)


def _ask(request: StudioRequest, board: Board, which: WhichForm, n: int) -> HttpResponse:
    """Ask which bucket, which side, how far."""
    return render(
        request,
        "ware/_dip_board.html" if request.htmx else "ware/dip_board.html",
        {"board": board, "n": n, "which": which},
        status=422 if which.errors else 200,
    )


def _scale(
    request: StudioRequest,
    board: Board,
    pots: list[Pot],
    which: WhichForm,
    form: DipAllForm,
    known: Known,
) -> HttpResponse:
    """Warn of the pot that is worst off, and ask for the weights of one."""
    shown, planned = Shown(request.member.studio), planned_of(which)
    told = warn_board(pots, known, planned, shown, timezone.now())
    return render(
        request,
        "ware/_dip_board.html" if request.htmx else "ware/dip_board.html",
        {
            "board": board,
            "n": len(pots),
            "which": None,
            "form": form,
            "chosen": chosen_of(which),
            "told": told,
            "worst_name": numbered(pots)[told.pot.pk],
            "spray": SPRAY,
        },
        status=422 if form.errors else 200,
    )
