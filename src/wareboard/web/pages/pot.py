"""A pot in the hand: what it weighs, what is on it, and what may be done next."""

from collections.abc import Sequence
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from wareboard.records.kiln.models import Load
from wareboard.records.kiln.queries import loads_for
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown, day
from wareboard.records.shelf.story import verdicts_of
from wareboard.records.ware.books import coats_of, work_out_all
from wareboard.records.ware.bridge import NEVER_WEIGHED, NOT_WEIGHED, WorkedCoat
from wareboard.records.ware.drawn import name_of
from wareboard.records.ware.kept import LABELS, kept_coat, kept_doing
from wareboard.records.ware.last_weight import last_weight
from wareboard.records.ware.models import Coat, Pot
from wareboard.records.ware.planks import called, plank, shapes_of
from wareboard.records.ware.queries import Doing, doings_of, how_many_like, pots_for
from wareboard.records.ware.taking_back import undo_by, undo_of
from wareboard.records.ware.weighing_answer import when_said
from wareboard.records.ware.words import ON_A_PAN, WeighingState

from .dip import next_side

FOUND = _(
    "Found metal may be plated, painted or an alloy nobody knows: never where food or lips touch."
)


def _coat_row(one: WorkedCoat, likes: int, shown: Shown) -> dict[str, Any]:
    """Give a coat as a line: in words, in millimetres with doubt, and how far to trust it."""
    coat = one.coat
    glaze = coat.bucket.glaze if coat.bucket else coat.glaze
    row = {
        "coat": coat,
        "what": glaze.name if glaze else _("a glaze"),
        "where": f"{coat.get_side_display()}, {coat.get_extent_display()}",
        "much": "",
        "span": "",
        "trust": "",
        "n": _("1 of %d") % (likes + 1) if likes else "",
    }
    if one.answer is None:
        missing = {
            NOT_WEIGHED: _("not weighed"),
            NEVER_WEIGHED: _("its bucket was never weighed"),
        }
        return {**row, "much": missing.get(one.missing, one.missing)}
    result, doubt = one.answer.result, one.answer.doubt
    row["trust"] = "usual" if one.usual else "worked-out"
    if one.told_mm is None:
        spread = shown.span(doubt["coat_g"], 1)
        return {**row, "much": _("%s of glaze") % shown.mass(result.coat_g), "span": spread}
    spread = shown.span(doubt["coat_mm"], 0.05)
    return {**row, "much": shown.thickness(one.told_mm), "span": spread}


def _weight(doings: Sequence[Doing], coats: Sequence[Coat], shown: Shown) -> dict[str, Any] | None:
    """Give the last weight of a pot, since when, in which state, and whether a dip came since."""
    weighed = [
        (d.at, d.weight_g, str(WeighingState(d.word).label))
        for d in doings
        if d.kind == "weighing" and d.weight_g is not None and d.word not in ON_A_PAN
    ]
    last = last_weight(weighed, coats)
    if last is None:
        return None
    when = when_said(last.at)
    return {
        "g": shown.mass(last.weight_g),
        "when": when,
        "state": last.state,
        "before": last.before_the_dip(shown, when) if last.dipped_since else "",
    }


def _small_rows(doings: Sequence[Doing], shown: Shown) -> list[dict[str, Any]]:
    """Give what else was done, newest first, in words."""
    rows = []
    for one in doings:
        row: dict[str, Any] = {
            "at": one.at,
            "more": one.more,
            "remembered": one.remembered,
            "spoken": one.file if one.kind == "hope" else "",
            "caution": "",
        }
        if one.kind == "weighing" and one.weight_g is not None:
            word = str(WeighingState(one.word).label)
            rows.append({**row, "what": shown.mass(one.weight_g), "more": word})
        elif one.kind in LABELS:
            word = str(LABELS[one.kind](one.word).label).capitalize()
            found = one.kind == "decoration" and one.flag
            rows.append({**row, "what": word, "caution": FOUND if found else ""})
        elif one.kind == "standing" and one.more:
            rows.append({**row, "what": _("Put on %s") % one.more, "more": ""})
    return rows


def _undo(
    pot: Pot, doings: Sequence[Doing], coats: Sequence[Coat], shown: Shown
) -> dict[str, str] | None:
    """Offer to take back what was entered last."""
    done: list[Doing | Coat] = [*doings, *coats]
    last = max(done, key=lambda one: one.kept_at, default=None)
    if last is not None and last.kept_at >= pot.kept_at:
        back = "/ware/" if last.together and last.together == pot.together else ""
        if isinstance(last, Coat):
            return undo_of(last, kept_coat(last), back=back)
        return undo_by(last.kind, last.id, last.kept_at, kept_doing(last, shown), back=back)
    return undo_of(pot, _("Kept: a new pot."), back="/ware/")


def _fired(pot: Pot, load: Load | None, doings: Sequence[Doing]) -> dict[str, Any] | None:
    """Say when a pot was fired and how it came out; None for a raw one, or one to fire again."""
    if load is not None:
        if load.lit_at is None:
            return None
        say = _("Fired on %s.") % day(load.lit_at)
    elif any(d.kind == "weighing" and d.word == WeighingState.FIRED for d in doings):
        say = _("Fired.")
    else:
        return None
    return {"say": say, "verdicts": verdicts_of(pot)}


@require_safe
def pot_page(request: StudioRequest, pot_id: str) -> HttpResponse:
    """Show a pot as one holds it in the hand."""
    pot = get_object_or_404(pots_for(request.member), pk=pot_id)
    member, shown = request.member, Shown(request.member.studio)
    coats = coats_of(member, [pot.pk])
    on_pot = coats.get(pot.pk, [])
    shapes = shapes_of([pot])
    worked = work_out_all(member, coats, shapes=shapes).get(pot.pk, [])
    sources = {coat.like_id for coat in on_pot if coat.like_id}
    likes = how_many_like(sources) if sources else {}
    doings = doings_of([pot])
    drawn = plank(
        [pot],
        coats,
        shapes=shapes,
        thickness_mm={one.coat.pk: one.thickness_mm for one in worked},
    )[0]
    board = next((one.more for one in doings if one.kind == "standing"), "")
    load = loads_for(member).filter(placings__pot=pot, placings__undone_at__isnull=True).first()
    return render(
        request,
        "ware/pot.html",
        {
            "pot": pot,
            "name": called(request.member, pot) if board else name_of(pot),
            "drawn": drawn,
            "weight": _weight(doings, on_pot, shown),
            "coats": [_coat_row(w, likes.get(w.coat.like_id or "", 0), shown) for w in worked],
            "rows": _small_rows(doings, shown),
            "photos": [one.file for one in doings if one.kind == "potphoto"],
            "board": board,
            "load": load,
            "fired": _fired(pot, load, doings),
            "next_side": next_side({coat.side for coat in on_pot}),
            "undo": _undo(pot, doings, on_pot, shown),
        },
    )
