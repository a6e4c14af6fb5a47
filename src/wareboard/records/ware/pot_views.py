"""What is done to one pot: weigh, decorate, mark, hope, photograph, name, put on a board."""

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.undoing import may_undo

from . import actions, queries
from .drawn import name_of
from .forms import (
    CorrectWeighingForm,
    DescribeForm,
    HopeForm,
    PhotoForm,
    StandForm,
    WeighForm,
    typed,
)
from .kept import kept_weighing
from .models import Pot, Weighing
from .standing_for import standing_for
from .taking_back import REFUSALS, sentence, undo_of
from .weighing_answer import answer_for, likely_state, states_for, when_said


def _pot(request: StudioRequest, pot_id: str) -> Pot:
    pot: Pot = get_object_or_404(queries.pots_for(request.member), pk=pot_id)
    return pot


def _weighings(request: StudioRequest, pot: Pot) -> tuple[dict[str, Any], list[Weighing]]:
    """Gather what the page of a weighing says, and the weighings themselves."""
    shown = Shown(request.member.studio)
    weighings = list(queries.weighings_of(pot))
    answer, coats = answer_for(request.member, pot, weighings)
    newest = weighings[0] if weighings else None
    last = max(weighings, key=lambda one: one.kept_at, default=None)
    facts = {
        "pot": pot,
        "name": name_of(pot),
        "answer": answer,
        "weighed": when_said(newest.at) if newest else "",
        "fresh": newest is not None and may_undo(newest),
        "states": states_for(coats),
        "likely": likely_state(weighings, coats),
        "rows": [
            {
                "weighing": w,
                "weight": shown.mass(w.weight_g),
                "state": w.get_state_display(),
            }
            for w in weighings
        ],
        "undo": undo_of(last, kept_weighing(last, shown)) if last else None,
    }
    return facts, weighings


@require_http_methods(["GET", "POST"])
def weigh(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Put a pot on the scale, and say what its weight means."""
    pot = _pot(request, pot_id)
    form = WeighForm(request.POST) if request.method == "POST" else None
    if form is not None and form.is_valid():
        try:
            actions.weigh(request.member, pot, **form.facts())
        except REFUSALS as refused:
            form.add_error("weight_g", sentence(refused))
        else:
            if not request.htmx:
                return redirect("ware:weigh", pot.pk)
            form = None
    facts, _rows = _weighings(request, pot)
    if form is None:
        form = WeighForm(initial={"state": facts["likely"]})
    form.fields["state"].choices = facts["states"]  # type: ignore[attr-defined] # a choice of words
    return render(
        request,
        "ware/_weigh.html" if request.htmx else "ware/weigh.html",
        {"form": form, **facts},
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def correct_weighing(request: StudioRequest, weighing_id: str) -> HttpResponse:
    """Put an earlier weighing right; the wrong one stays in the record."""
    wrong = standing_for(queries.weighings_for(request.member), Weighing, weighing_id)
    known = {"state": wrong.state, "remembered": wrong.remembered}
    form = CorrectWeighingForm(
        request.POST or None, initial={"weight_g": typed(wrong.weight_g), **known}
    )
    if request.method == "POST" and form.is_valid():
        try:
            actions.weigh(request.member, wrong.pot, corrects=wrong, **form.facts())
        except REFUSALS as refused:
            form.add_error("weight_g", sentence(refused))
        else:
            return redirect("ware:weigh", wrong.pot_id)
    return render(
        request,
        "ware/correct_weighing.html",
        {
            "form": form,
            "pot": wrong.pot,
            "name": name_of(wrong.pot),
            "was": Shown(request.member.studio).mass(wrong.weight_g),
            "when": when_said(wrong.at),
        },
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def hope(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Say what is hoped or feared of a pot."""
    pot = _pot(request, pot_id)
    form = HopeForm(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.hope(request.member, pot, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("pages:pot", pot.pk)
    return render(
        request,
        "ware/hope.html",
        {"form": form, "pot": pot, "name": name_of(pot)},
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def photo(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Take a photo of a pot."""
    pot = _pot(request, pot_id)
    form = PhotoForm(request.POST, request.FILES) if request.method == "POST" else PhotoForm()
    if request.method == "POST" and form.is_valid():
        try:
            actions.add_photo(request.member, pot, **form.facts())
        except REFUSALS as refused:
            form.add_error("photo", sentence(refused))
        else:
            return redirect("pages:pot", pot.pk)
    return render(
        request,
        "ware/photo.html",
        {"form": form, "pot": pot, "name": name_of(pot)},
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def describe(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Say what a pot is called, its form, its clay, whose it is."""
    pot = _pot(request, pot_id)
    known = {
        "name": pot.name,
        "form": pot.form_id,
        "clay": pot.clay_id,
        "whose": pot.whose,
        "foot_gap_mm": typed(pot.foot_gap_mm),
        "test_piece": pot.test_piece,
        "note": pot.note,
    }
    form = DescribeForm(request.POST or None, initial=known, member=request.member)
    if request.method == "POST" and form.is_valid():
        try:
            actions.describe_pot(pot, **form.cleaned_data)
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("pages:pot", pot.pk)
    return render(
        request,
        "ware/describe.html",
        {"form": form, "pot": pot, "name": name_of(pot)},
        status=422 if form.errors else 200,
    )


@require_http_methods(["GET", "POST"])
def stand(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Put a pot on a board, or take it off."""
    pot = _pot(request, pot_id)
    form = StandForm(request.POST or None, member=request.member)
    if request.method == "POST" and form.is_valid():
        try:
            actions.stand(request.member, pot, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("pages:pot", pot.pk)
    return render(
        request,
        "ware/stand.html",
        {
            "form": form,
            "pot": pot,
            "name": name_of(pot),
            "boards": queries.boards_for(request.member),
            "now": queries.board_of(request.member, pot),
        },
        status=422 if form.errors else 200,
    )
