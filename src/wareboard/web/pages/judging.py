"""Judging a pot that came out: a thumb for the whole, faults by surface, hopes asked back."""

from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from wareboard.core.errors import CoreError
from wareboard.records.kiln import queries as kiln
from wareboard.records.kiln.models import Firing, Placing
from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.shelf import queries as shelf
from wareboard.records.shelf.actions import answer_hope, judge
from wareboard.records.shelf.forms import VerdictForm
from wareboard.records.shelf.models import Verdict
from wareboard.records.shelf.words import Surface, Thumb
from wareboard.records.ware.drawn import name_of
from wareboard.records.ware.models import Hope

from .opening import firing_of, of_it, rows_of, title_of, undo_of


def _placing(request: StudioRequest, firing_id: str, pot_id: str) -> tuple[Firing, Placing]:
    """Find a pot in the load of a firing."""
    firing = firing_of(request, firing_id)
    placings = kiln.placings_for(request.member)
    return firing, get_object_or_404(placings, load=firing.load_id, pot=pot_id)


def _pot_answer(
    request: StudioRequest,
    firing: Firing,
    placing: Placing,
    verdict_form: VerdictForm | None,
    kept: Entry | None,
    *,
    row: dict[str, Any] | None = None,
) -> HttpResponse:
    """Give one pot again, as a fragment, with its questions where there are any."""
    row = row or rows_of(request.member, firing, [placing])[placing.pot_id]
    title, left = "", None
    if request.htmx and kept is not None:
        left, pots = shelf.left_to_judge(request.member, firing)
        title = title_of(firing, left, pots)
    facts = {
        "firing": firing,
        "row": row,
        "verdict_form": verdict_form,
        "title": title,
        "all_judged": left == 0,
        "undo": undo_of(firing, [kept], title),
    }
    template = "kiln/_judged_pot.html" if request.htmx else "kiln/opened_pot.html"
    wrong = verdict_form is not None and verdict_form.errors
    return render(request, template, facts, status=422 if wrong else 200)


def _back_to_pot(firing: Firing, placing: Placing) -> HttpResponse:
    return redirect(reverse("pages:opening", args=[firing.pk]) + f"#pot-{placing.pot_id}")


def _say_refused(
    request: StudioRequest, firing: Firing, placing: Placing, refused: EntryRefused
) -> HttpResponse:
    """Say on the whole page why something was not kept."""
    messages.warning(request, str(refused))
    if request.htmx:
        return HttpResponse(status=204, headers={"HX-Refresh": "true"})
    return _back_to_pot(firing, placing)


def _refuse_if_fired_again(request: StudioRequest, firing: Firing, placing: Placing) -> None:
    """Refuse to judge a pot as it came out of a firing after which it was fired again."""
    again = shelf.fired_again(request.member, firing, [placing.pot_id]).get(placing.pot_id)
    if again is not None:
        say = _("%(pot)s was fired again in firing %(n)d: judge it there.")
        raise EntryRefused(say % {"pot": name_of(placing.pot), "n": again[2]})


@require_POST
def thumb(request: StudioRequest, firing_id: str, pot_id: str) -> HttpResponse:
    """Keep how a pot came out, by one tap; of one that is not good, ask what is wrong."""
    firing, placing = _placing(request, firing_id, pot_id)
    form = EntryForm(request.POST)
    word = request.POST.get("thumb", "")
    if word not in Thumb.values or not form.is_valid():
        raise Http404
    kept = _kept_of(_stands_of(request.member, firing, placing, Surface.WHOLE))
    try:
        _refuse_if_fired_again(request, firing, placing)
        verdict = judge(
            request.member,
            placing.pot,
            surface=Surface.WHOLE,
            thumb=word,
            **kept,
            **form.facts(),
        )
    except EntryRefused as refused:
        return _say_refused(request, firing, placing, refused)
    typed = _typed(request.POST) or kept
    asks = word != Thumb.UP or bool(typed["faults"] or typed["words"].strip())
    if request.htmx:
        ask = _verdict_form(placing, word, typed) if asks else None
        return _pot_answer(request, firing, placing, ask, verdict)
    if asks:
        return redirect("pages:opened-pot", firing.pk, placing.pot_id)
    return _back_to_pot(firing, placing)


def _stands_of(member: Member, firing: Firing, placing: Placing, surface: str) -> Verdict | None:
    """Give what stands of one surface, or of the whole pot."""
    verdicts = shelf.verdicts_on(member, [placing.pot_id]).get(placing.pot_id, ())
    found = [v for v in of_it(firing, verdicts, None) if v.surface == surface]
    return found[-1] if found else None


def _kept_of(verdict: Verdict | None) -> dict[str, Any]:
    """Give the faults and words of a verdict: another thumb does not wipe them out."""
    faults = list(verdict.faults.all()) if verdict else []
    first = faults[0] if faults else None
    return {
        "faults": [fault.word for fault in faults],
        "where": first.where if first else "",
        "amount_mm": first.amount_mm if first else None,
        "words": verdict.words if verdict else "",
    }


def _placed(kept: Mapping[str, Any]) -> dict[str, Any]:
    """Give where a fault is and how large: the page does not ask, so what was kept stays."""
    return {name: kept[name] for name in ("where", "amount_mm")}


def _said_last(last: Verdict | None) -> dict[str, Any]:
    """Give what the questions of a pot start from: its newest verdict, of whichever surface."""
    said = {"surface": last.surface, "thumb": last.thumb} if last else {}
    return {**_kept_of(last), **said}


def _typed(sent: QueryDict) -> dict[str, Any]:
    """Give what was ticked and not kept yet; nothing where no questions stood open."""
    if "surface" not in sent:
        return {}
    words = sent.get("words", "")
    return {"surface": sent["surface"], "faults": sent.getlist("faults"), "words": words}


def _verdict_form(placing: Placing, word: str, held: Mapping[str, Any]) -> VerdictForm:
    """Ask what is wrong with a pot; what was ticked stays so."""
    first = {"surface": Surface.WHOLE, "thumb": word or Thumb.DOWN, **held}
    return VerdictForm(initial=first, auto_id=_ids(placing))


def _ids(placing: Placing) -> str:
    """Give the questions of each pot ids of their own: several stand open on one page."""
    return f"id_{placing.pot_id}_%s"


@require_http_methods(["GET", "POST"])
def opened_pot(request: StudioRequest, firing_id: str, pot_id: str) -> HttpResponse:
    """Say of a pot which surface has which faults."""
    firing, placing = _placing(request, firing_id, pot_id)
    row = rows_of(request.member, firing, [placing])[placing.pot_id]
    if request.method != "POST":
        form = _verdict_form(placing, row["thumb"], _said_last(row["last"]))
        return _pot_answer(request, firing, placing, form, None, row=row)
    form = VerdictForm(request.POST, auto_id=_ids(placing))
    if form.is_valid():
        try:
            _refuse_if_fired_again(request, firing, placing)
            facts = form.facts()
            if not {"where", "amount_mm"} & set(form.data):
                stands = _stands_of(request.member, firing, placing, facts["surface"])
                facts |= _placed(_kept_of(stands))
            verdict = judge(request.member, placing.pot, **facts)
        except (CoreError, EntryRefused) as refused:
            form.add_error(None, str(refused))
        else:
            if request.htmx:
                return _pot_answer(request, firing, placing, None, verdict)
            return _back_to_pot(firing, placing)
    return _pot_answer(request, firing, placing, form, None, row=row)


@require_POST
def hope(request: StudioRequest, firing_id: str, hope_id: str) -> HttpResponse:
    """Keep whether a hope or a fear came true."""
    found: Hope = get_object_or_404(shelf.hopes_for(request.member), pk=hope_id)
    firing, placing = _placing(request, firing_id, found.pot_id)
    form = EntryForm(request.POST)
    came_true = {"yes": True, "no": False}.get(request.POST.get("came_true", ""))
    if came_true is None or not form.is_valid():
        raise Http404
    try:
        answer = answer_hope(
            request.member, found, came_true=came_true, entry_id=form.cleaned_data["entry_id"]
        )
    except EntryRefused as refused:
        return _say_refused(request, firing, placing, refused)
    if request.htmx:
        return _pot_answer(request, firing, placing, None, answer)
    return _back_to_pot(firing, placing)
