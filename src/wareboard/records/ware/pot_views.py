"""What is done to one pot: weigh, decorate, mark, hope, photograph, name, put on a board."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.standing_for import standing_for

from . import actions, queries
from .forms import (
    CorrectWeighingForm,
    DescribeForm,
    HopeForm,
    PhotoForm,
    StandForm,
    typed,
)
from .models import Pot, Weighing
from .planks import called
from .taking_back import REFUSALS, sentence
from .weighing_answer import heavy_for_dry, when_said


def _pot(request: StudioRequest, pot_id: str) -> Pot:
    pot: Pot = get_object_or_404(queries.pots_for(request.member), pk=pot_id)
    return pot


@require_http_methods(["GET", "POST"])
def correct_weighing(request: StudioRequest, weighing_id: str) -> HttpResponse:
    """Put an earlier weighing right; the wrong one stays in the record."""
    wrong = standing_for(queries.weighings_for(request.member), Weighing, weighing_id)
    known = {"state": wrong.state, "remembered": wrong.remembered}
    form = CorrectWeighingForm(
        request.POST or None, initial={"weight_g": typed(wrong.weight_g), **known}
    )
    if request.method == "POST" and form.is_valid():
        stays = {"weight_g": wrong.weight_g, **known}
        form.ask("weight_g", heavy_for_dry(request.member, wrong.pot, stays | form.facts()))
    if request.method == "POST" and not form.errors:
        try:
            actions.weigh(request.member, wrong.pot, corrects=wrong, **form.facts())
        except REFUSALS as refused:
            form.add_error("weight_g", sentence(refused))
        else:
            return redirect("pages:weigh", wrong.pot_id)
    return render(
        request,
        "ware/correct_weighing.html",
        {
            "form": form,
            "pot": wrong.pot,
            "name": called(request.member, wrong.pot),
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
        {"form": form, "pot": pot, "name": called(request.member, pot)},
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
        {"form": form, "pot": pot, "name": called(request.member, pot)},
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
        {"form": form, "pot": pot, "name": called(request.member, pot)},
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
            "name": called(request.member, pot),
            "boards": queries.boards_for(request.member),
            "now": queries.board_of(request.member, pot),
        },
        status=422 if form.errors else 200,
    )
