"""Boards: what stands on them, the whole board on the scale, pots on and off."""

from collections.abc import Mapping, Sequence

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.records.people.entry import Entry
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.undoing import may_undo

from . import actions, queries
from .board_drying import board_answer, board_weight
from .board_forms import BoardForm, BoardWeighForm, TareForm
from .books import coats_of
from .kept import kept_board_weighing, kept_coat, kept_doing, kept_moves
from .models import Board, BoardWeighing, Coat, Pot
from .planks import plank, shapes_of
from .queries import Doing
from .taking_back import REFUSALS, sentence, undo_by, undo_of
from .views import back_to_several
from .weighing_answer import when_said


def _board(request: StudioRequest, board_id: str) -> Board:
    board: Board = get_object_or_404(queries.boards_for(request.member), pk=board_id)
    return board


def _undo(
    board: Board,
    pots: Sequence[Pot],
    coats: Mapping[str, Sequence[Coat]],
    weighed: BoardWeighing | None,
    shown: Shown,
) -> dict[str, str] | None:
    """Offer to take back what was entered last, of all that the page shows."""
    doings = [one for one in queries.doings_of(pots) if one.kind != "standing"]
    all_coats = [coat for on_pot in coats.values() for coat in on_pot]
    moves = queries.last_moves(board)
    entered: list[Doing | Entry] = [
        *moves[:1],
        *doings,
        *all_coats,
        *([weighed] if weighed else []),
    ]
    last = max(entered, key=lambda one: one.kept_at, default=None)
    if last is None:
        return None
    if isinstance(last, Doing):
        n = sum(one.kind == last.kind and one.together == last.together for one in doings)
        say = kept_doing(last, shown, pots=n if last.together else 1)
        return undo_by(last.kind, last.id, last.kept_at, say)
    if isinstance(last, Coat):
        n = sum(coat.together == last.together for coat in all_coats)
        return undo_of(last, kept_coat(last, pots=n if last.together else 1))
    if isinstance(last, BoardWeighing):
        return undo_of(last, kept_board_weighing(last, shown))
    return undo_of(last, kept_moves(moves, board.pk))


@require_safe
def board(request: StudioRequest, board_id: str) -> HttpResponse:
    """Show a board with what stands on it."""
    found = _board(request, board_id)
    shown = Shown(request.member.studio)
    pots = queries.pots_on(request.member, found)
    coats = coats_of(request.member, [pot.pk for pot in pots])
    dips = [coat.at for found_on in coats.values() for coat in found_on]
    rows = queries.board_weighings_of(found, last=1)
    return render(
        request,
        "ware/board.html",
        {
            "board": found,
            "n": len(pots),
            "plank": plank(pots, coats, shapes=shapes_of(pots)),
            "weight": board_weight(found, pots, rows[0], dips, shown) if rows else "",
            "tare": shown.mass(found.tare_g) if found.tare_g is not None else "",
            "undo": _undo(found, pots, coats, rows[0] if rows else None, shown),
        },
    )


@require_http_methods(["GET", "POST"])
def new_board(request: StudioRequest) -> HttpResponse:
    """Name a plank, with its tare."""
    form = BoardForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            made = actions.new_board(request.member, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return back_to_several(request, board=made.pk) or redirect("pages:arrange", made.pk)
    return render(
        request, "ware/new_board.html", {"form": form}, status=422 if form.errors else 200
    )


@require_http_methods(["GET", "POST"])
def weigh_board(request: StudioRequest, board_id: str) -> HttpResponse:
    """Put a whole board on the scale, and say what its weight means."""
    found = _board(request, board_id)
    form = BoardWeighForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.weigh_board(request.member, found, **form.facts())
        except REFUSALS as refused:
            form.add_error("weight_g", sentence(refused))
        else:
            if not request.htmx:
                return redirect("ware:weigh-board", found.pk)
            form = BoardWeighForm()
    shown = Shown(request.member.studio)
    pots = queries.pots_on(request.member, found)
    rows = queries.board_weighings_of(found)
    newest = rows[0] if rows else None
    return render(
        request,
        "ware/_weigh_board.html" if request.htmx else "ware/weigh_board.html",
        {
            "board": found,
            "form": form,
            "tare_form": TareForm(board=found) if found.tare_g is None else None,
            "answer": board_answer(request.member, found, pots, rows),
            "weighed": when_said(newest.at) if newest else "",
            "fresh": newest is not None and may_undo(newest),
            "rows": [{"weight": shown.mass(r.weight_g), "at": r.at} for r in rows],
            "undo": undo_of(newest, _("Kept: %s.") % shown.mass(newest.weight_g))
            if newest
            else None,
        },
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def tare(request: StudioRequest, board_id: str) -> HttpResponse:
    """Take in what the empty plank weighs, or put it right."""
    found = _board(request, board_id)
    form = TareForm(request.POST or None, board=found)
    if request.method == "POST" and form.is_valid():
        actions.weigh_empty(found, form.cleaned_data["tare_g"])
        return redirect("ware:board" if form.puts_right else "ware:weigh-board", found.pk)
    return render(
        request,
        "ware/tare.html",
        {"board": found, "tare_form": form},
        status=422 if form.errors else 200,
    )
