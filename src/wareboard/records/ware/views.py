"""The ware room: what stands on the boards, the newest pots, and new ones."""

from django.http import HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import urlencode
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest

from . import actions, queries
from .books import coats_of
from .drawn import name_of
from .finding import pots_found
from .forms import NewPotForm, SeveralForm
from .planks import glazes_on, names_on_boards, plank, shapes_of
from .taking_back import REFUSALS, sentence

DRAWN_ON_A_BOARD = 12
FORMS_AT_HAND = 8
LONGEST_SEARCH = 60


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the boards with what stands on them, and the newest pots."""
    member = request.member
    text = request.GET.get("q", "").strip()[:LONGEST_SEARCH]
    after = request.GET.get("after", "")
    page = cut(
        pots_found(member, text),
        by="at",
        after=after,
        newest_first=True,
        among=queries.pots_for(member),
    )
    boards = list(queries.boards_for(member)) if not text and not after else []
    standing = queries.pots_by_board(member)
    names = names_on_boards(standing)
    drawn = {board.pk: standing.get(board.pk, [])[:DRAWN_ON_A_BOARD] for board in boards}
    on_boards = [pot for pots in drawn.values() for pot in pots]
    coats = coats_of(member, [pot.pk for pot in (*on_boards, *page.rows)])
    shapes = shapes_of(on_boards) if on_boards else {}
    return render(
        request,
        "ware/_pots.html" if request.htmx else "ware/home.html",
        {
            "boards": [
                {
                    "board": board,
                    "n": len(standing.get(board.pk, ())),
                    "plank": plank(drawn[board.pk], coats, shapes=shapes, names=names),
                }
                for board in boards
            ],
            "rows": [
                {
                    "pot": pot,
                    "name": names.get(pot.pk) or name_of(pot),
                    "glazes": glazes_on(coats.get(pot.pk, ())),
                }
                for pot in page.rows
            ],
            "more": page.more,
            "after": after,
            "q": text,
        },
    )


@require_http_methods(["GET", "POST"])
def new(request: StudioRequest) -> HttpResponse:
    """Make a pot by one tap, with its photo where one was chosen."""
    member = request.member
    sent = (request.POST, request.FILES) if request.method == "POST" else ()
    form = NewPotForm(*sent, member=member)
    if form.is_valid():
        try:
            pot = actions.new_pot(member, **form.facts())
        except REFUSALS as refused:
            form.add_error("photo" if form.cleaned_data["photo"] else None, sentence(refused))
        else:
            return redirect("pages:pot", pot.pk)
    forms = list(queries.forms_in_use(member))
    return render(
        request,
        "ware/new.html",
        {
            "form": form,
            "first_forms": forms[:FORMS_AT_HAND],
            "other_forms": forms[FORMS_AT_HAND:],
        },
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def new_several(request: StudioRequest) -> HttpResponse:
    """Make several pots that are alike."""
    chosen = {name: request.GET.get(name, "") for name in ("form", "board")}
    form = SeveralForm(request.POST or None, member=request.member, initial=chosen)
    if request.method == "POST" and form.is_valid():
        try:
            pots = actions.new_pots(request.member, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            board = form.cleaned_data["board"]
            if board is not None:
                return redirect("ware:board", board.pk)
            return redirect("pages:pot", pots[0].pk)
    return render(
        request,
        "ware/several.html",
        {"form": form, "chosen": chosen},
        status=422 if form.errors else 200,
    )


def back_to_several(request: StudioRequest, **made: str) -> HttpResponseRedirect | None:
    """Lead back to the several alike that a form or a board was made for, with what was chosen."""
    if request.GET.get("for") != "several":
        return None
    chosen = {name: request.GET.get(name, "") for name in ("form", "board")} | made
    return redirect(f"{reverse('ware:new-several')}?{urlencode(chosen)}")
