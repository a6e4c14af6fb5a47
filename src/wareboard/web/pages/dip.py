"""The dip: which bucket and which side, a warning, the scale, and what it left."""

from datetime import timedelta
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wareboard.records.people.fields import EntryForm
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.standing_for import standing_for
from wareboard.records.ware import actions, queries
from wareboard.records.ware.books import coats_of
from wareboard.records.ware.dip_forms import CorrectCoatForm, DipForm, WhichForm
from wareboard.records.ware.drawn import kind_of
from wareboard.records.ware.forms import typed
from wareboard.records.ware.kept import kept_coat
from wareboard.records.ware.models import Coat, Pot, Weighing
from wareboard.records.ware.planks import called
from wareboard.records.ware.taking_back import REFUSALS, sentence, undo_of
from wareboard.records.ware.weighing_answer import when_said
from wareboard.records.ware.words import Extent, How, Side

from .dip_answer import SPRAY, answer_for
from .dip_doubt import hard_to_believe, tried_on
from .dip_warning import Planned, warn, water_caution
from .good_coats import Known, gather

STILL_THE_SAME = timedelta(minutes=30)
"""How long a weighing counts as the weight before the dip (common practice)."""


def next_side(coats_sides: set[str]) -> str:
    """Give the side that is usually next: the inside first."""
    return Side.OUTSIDE if Side.INSIDE in coats_sides else Side.INSIDE


def _pot(request: StudioRequest, pot_id: str) -> Pot:
    pot: Pot = get_object_or_404(queries.pots_for(request.member), pk=pot_id)
    return pot


def planned_of(which: WhichForm) -> Planned:
    """Give the coat that was chosen."""
    facts = which.facts()
    return Planned(facts["bucket"].glaze, facts["side"], facts["extent"])


def chosen_of(which: WhichForm) -> dict[str, Any]:
    """Give what was chosen, as the page of the scale shows and sends it on."""
    facts = which.facts()
    return {
        "bucket": facts["bucket"],
        "side": facts["side"],
        "extent": facts["extent"],
        "side_word": Side(facts["side"]).label,
        "extent_word": Extent(facts["extent"]).label,
    }


@require_http_methods(["GET", "POST"])
def dip_page(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Ask which bucket and side; warn; take the weights before and after."""
    pot = _pot(request, pot_id)
    buckets, shown = queries.buckets_at_hand(request.member), Shown(request.member.studio)
    posted, side = request.method == "POST", request.GET.get("side", "")
    which = WhichForm(
        request.POST if posted else request.GET if "bucket" in request.GET else None,
        initial={"side": side if side in Side.values else Side.INSIDE, "extent": Extent.WHOLE},
        buckets=buckets,
    )
    if not which.is_valid():
        return _ask(request, pot, which)
    form = DipForm(request.POST, buckets=buckets) if posted else None
    planned, tried = planned_of(which), None
    if form is not None and form.is_valid():
        tried = tried_on(pot, form.facts())
    known = gather(request.member, [pot], planned.glaze, planned.side, tried=tried)
    since = _since(pot, known)
    if form is not None and not form.errors:
        weighed_g = since.weight_g if since else None
        form.ask("after_g", hard_to_believe(known, shown, weighed_g=weighed_g))
    if form is not None and not form.errors:
        try:
            coat = actions.dip(request.member, pot, **form.facts())
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("pages:coat", coat.pk)
    return _scale(request, pot, which, form, known, since)


def _ask(request: StudioRequest, pot: Pot, which: WhichForm) -> HttpResponse:
    """Ask which bucket, which side, how far."""
    return render(
        request,
        "ware/_dip.html" if request.htmx else "ware/dip.html",
        {"pot": pot, "name": called(request.member, pot), "which": which},
        status=422 if which.errors else 200,
    )


def _last_coat(pot: Pot, known: Known) -> Coat | None:
    on_pot = known.coats.get(pot.pk, ())
    return on_pot[-1].coat if on_pot else None


def _since(pot: Pot, known: Known) -> Weighing | None:
    """Give what a pot weighed when it was last on the scale, where no coat came since."""
    last = _last_coat(pot, known)
    newest = next(iter(queries.weighings_of(pot, last=1)), None)
    return newest if newest and (last is None or newest.at > last.at) else None


def _scale(
    request: StudioRequest,
    pot: Pot,
    which: WhichForm,
    form: DipForm | None,
    known: Known,
    since: Weighing | None,
) -> HttpResponse:
    """Warn, and ask for the weights."""
    now, shown = timezone.now(), Shown(request.member.studio)
    planned, last = planned_of(which), _last_coat(pot, known)
    dried_g = 0.0
    if since is not None and last is not None and last.after_g is not None:
        dried_g = max(last.after_g - since.weight_g, 0.0)
    if form is None:
        form = DipForm(initial={"how": How.DIPPED}, buckets=list(which.buckets.values()))
        if since is not None and now - since.at < STILL_THE_SAME:
            form.initial["before_g"] = typed(since.weight_g)
    return render(
        request,
        "ware/_dip.html" if request.htmx else "ware/dip.html",
        {
            "pot": pot,
            "name": called(request.member, pot),
            "which": None,
            "form": form,
            "chosen": chosen_of(which),
            "warning": warn(pot, known, planned, shown),
            "water": water_caution(known, pot, planned, now, dried_g=dried_g),
            "spray": SPRAY,
            "since": _("On the scale it was %(g)s, %(when)s.")
            % {"g": shown.mass(since.weight_g), "when": when_said(since.at)}
            if since
            else "",
        },
        status=422 if form.errors else 200,
    )


def _coat(request: StudioRequest, coat_id: str) -> Coat:
    return standing_for(queries.coats_for(request.member), Coat, coat_id)


@require_safe
def coat_page(request: StudioRequest, coat_id: str) -> HttpResponse:
    """Say what a dip left, and offer the next."""
    coat = _coat(request, coat_id)
    shown = Shown(request.member.studio)
    glaze = coat.bucket.glaze if coat.bucket else coat.glaze
    assert glaze is not None  # noqa: S101 - the constraint holds it: a bucket or a glaze
    known = gather(request.member, [coat.pot], glaze, coat.side)
    on_pot = known.coats[coat.pot_id]
    one = next(worked for worked in on_pot if worked.coat.pk == coat.pk)
    same = queries.same_dip(coat)
    others = _others(request, coat) if coat.like is None else []
    source = coat.like_id or coat.pk
    likes = sum(other.like_id == source for other in same) + (coat.like_id is not None)
    newest = max((coat, *same), key=lambda one: one.kept_at)
    sides = {worked.coat.side for worked in on_pot}
    return render(
        request,
        "ware/coat.html",
        {
            "coat": coat,
            "pot": coat.pot,
            "name": called(request.member, coat.pot),
            "glaze": glaze,
            "answer": answer_for(one, on_pot, known.usual, likes, shown),
            "likes": likes if coat.like is None else 0,
            "others": len(others),
            "more_coats": sum(worked.coat.like is None for worked in on_pot) > 1,
            "kind": kind_of(coat.pot),
            "next_side": next_side(sides),
            "again": EntryForm(),
            "undo": undo_of(
                newest,
                kept_coat(coat),
                back="" if newest.together != coat.together else f"/ware/pots/{coat.pot_id}/",
            ),
        },
    )


def _others(request: StudioRequest, coat: Coat) -> list[Pot]:
    """Give the pots of the board that are like this one and have no such coat yet."""
    beside = queries.beside_without(request.member, coat)
    return [pot for pot in beside if actions.alike(coat.pot, pot)]


@require_POST
def dip_others(request: StudioRequest, coat_id: str) -> HttpResponse:
    """Keep the same coat on the other pots of the board, and what they lack of those before it."""
    coat = _coat(request, coat_id)
    own = coats_of(request.member, [coat.pot_id])[coat.pot_id]
    until = [one for one in own if one.like is None and one.at <= coat.at]
    given = [(one, _others(request, one)) for one in until]
    form = EntryForm(request.POST)
    entry_id = form.cleaned_data["entry_id"] if form.is_valid() else ""
    try:
        actions.dip_others(request.member, given, entry_id=entry_id)
    except REFUSALS as refused:
        messages.warning(request, sentence(refused))
    return redirect("pages:coat", coat.pk)


def _doubted(request: StudioRequest, wrong: Coat, form: CorrectCoatForm) -> str:
    """Ask about a coat put right that is thicker than one dip gets."""
    tried = tried_on(wrong.pot, form.facts(), wrong=wrong)
    if tried is None or tried.bucket is None:
        return ""
    known = gather(request.member, [wrong.pot], tried.bucket.glaze, tried.side, tried=tried)
    return hard_to_believe(known, Shown(request.member.studio))


@require_http_methods(["GET", "POST"])
def correct_coat(request: StudioRequest, coat_id: str) -> HttpResponse:
    """Put a coat right; the wrong one stays in the record."""
    wrong = _coat(request, coat_id)
    likely, others = queries.buckets_for_coat(request.member, wrong)
    form = CorrectCoatForm(request.POST or None, wrong=wrong, likely=likely, others=others)
    if request.method == "POST" and form.is_valid():
        form.ask("after_g", _doubted(request, wrong, form))
    if request.method == "POST" and not form.errors:
        try:
            right = actions.correct_coat(
                request.member, wrong, queries.likened_to(wrong), **form.facts()
            )
        except REFUSALS as refused:
            form.add_error(None, sentence(refused))
        else:
            return redirect("pages:coat", right.pk)
    return render(
        request,
        "ware/correct_coat.html",
        {"form": form, "coat": wrong, "name": called(request.member, wrong.pot)},
        status=422 if form.errors else 200,
    )
