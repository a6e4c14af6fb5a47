"""Pots on a board or off it: those that stand there, and those that may; no fired ones."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from wareboard.records.kiln.queries import waiting_pots
from wareboard.records.people.requests import StudioRequest
from wareboard.records.ware import actions, queries
from wareboard.records.ware.board_forms import ArrangeForm
from wareboard.records.ware.books import coats_of
from wareboard.records.ware.planks import glazes_on
from wareboard.records.ware.taking_back import REFUSALS, sentence


@require_http_methods(["GET", "POST"])
def arrange(request: StudioRequest, board_id: str) -> HttpResponse:
    """Tick which pots stand on a board."""
    member = request.member
    board = get_object_or_404(queries.boards_for(member), pk=board_id)
    there = queries.pots_on(member, board)
    free = queries.free_pots(member, waiting_pots(member))
    coats = coats_of(member, [pot.pk for pot in (*there, *free)])
    glazes = {pot_id: glazes_on(found) for pot_id, found in coats.items()}
    form = ArrangeForm(request.POST or None, there=there, free=free, glazes=glazes)
    if request.method == "POST" and form.is_valid():
        try:
            actions.arrange(
                member,
                board,
                there=there,
                wanted=form.wanted(),
                entry_id=form.cleaned_data["entry_id"],
            )
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("ware:board", board.pk)
    return render(
        request,
        "ware/arrange.html",
        {"board": board, "form": form, "any": bool(there or free)},
        status=422 if form.errors else 200,
    )
