"""What changed: good pots beside bad ones, and what only the bad ones share."""

from collections.abc import Mapping, Sequence
from datetime import datetime, time
from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_safe

from wareboard.core.why import Change, count_changes, find_change, side_by_side
from wareboard.records.glazes.models import Glaze
from wareboard.records.glazes.queries import glazes_for
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.shelf import elsewhere
from wareboard.records.shelf.attributes import (
    LOT,
    of_one_recipe,
    pieces_of,
    strands_of,
    versions_of,
)
from wareboard.records.shelf.evidence import MOST, GlazedPot, gather
from wareboard.records.shelf.forms import ChangeForm
from wareboard.records.shelf.words import FaultWord, Surface
from wareboard.records.ware.drawn import draw_pots, names_of

from .change_answer import answer_for, cause, counted, said

ROWS = 20
BEST = 3
"""Differences shown openly where none fits all pieces."""

ON_PLANK = 24


def _plank(pieces: Sequence[GlazedPot], drawings: Mapping[str, str]) -> list[dict[str, Any]]:
    """Give pots as they stand on a plank, with what hangs below each."""
    plank, names = [], names_of([piece.pot for piece in pieces])
    for piece in pieces:
        placing = piece.placing
        says = [str(Surface(piece.surface).label)] if piece.surface else []
        if placing is not None:
            says.append(f"firing {placing.firing_number}")
            if placing.place is not None:
                says.append(str(placing.place.get_level_display()))
        plank.append(
            {
                "pot": piece.pot,
                "name": names[piece.pot.pk],
                "says": ", ".join(says),
                "drawing": mark_safe(drawings[piece.pot.pk]),  # noqa: S308 - our own drawing, every text in it escaped
                "remembered": piece.remembered,
            }
        )
    return plank


def _elsewhere(
    member: Member, change: Change, glaze: Glaze, fault: FaultWord, until: datetime | None
) -> dict[str, Any]:
    """Count the same change in the studio's other glazes."""
    lot = change.attribute, change.value
    found = elsewhere.count_elsewhere(member, lot, glaze, fault, until)
    rows = [
        {
            "glaze": other.name,
            "has_it": bool(one.n_with),
            "faulty_with": one.faulty_with,
            "with": one.n_with,
            "faulty_without": one.faulty_without,
            "without": one.n_without,
        }
        for other in glazes_for(member)
        if (one := found.counts.get(other.pk)) is not None
    ]
    return {"elsewhere": rows, "most_elsewhere": elsewhere.MOST if found.newest_only else 0}


def compare(
    member: Member, glaze: Glaze, fault: FaultWord, until: datetime | None
) -> dict[str, Any]:
    """Compare the good and the bad pots of a glaze.

    Parameters
    ----------
    member : Member
        Who asks.
    glaze : Glaze
        Which glaze.
    fault : FaultWord
        Which fault.
    until : datetime or None
        Leave out verdicts after this instant.
    """
    evidence = gather(member, glaze, fault, until=until)
    glazed, aside = of_one_recipe(evidence.pieces)
    pieces = pieces_of(glazed)
    changes = count_changes(pieces, strands_of(glazed))
    finding = find_change(pieces, changes)
    planks = {
        "bad": [p for p in glazed if p.faulty],
        "good": [p for p in glazed if not p.faulty],
        "aside": aside,
    }
    drawn = [piece for found in planks.values() for piece in found[-ON_PLANK:]]
    coats = {p.pot.pk: p.all_coats for p in drawn}
    thickness = {key: mm for p in drawn for key, mm in p.worked.items()}
    drawings = draw_pots([p.pot for p in drawn], coats, thickness)
    telling = [c for c in changes if c.faulty_with + c.sound_with < c.known][:ROWS]
    first = cause(finding.fitting) if finding.fitting else None
    others: dict[str, Any] = {"elsewhere": [], "most_elsewhere": 0}
    if first is not None and first.attribute.startswith(LOT):
        others = _elsewhere(member, first, glaze, fault, until)
    rows = [{"change": c, "said": said(c), "counted": counted(c, len(pieces))} for c in telling]
    fits = [row for row in rows if row["change"] in finding.fitting]
    rest = [row for row in rows if row not in fits]
    best = 0 if fits else BEST
    return {
        "glaze": glaze,
        "fault": fault,
        "finding": finding,
        "changes": changes,
        "answer": answer_for(
            finding,
            glaze.name,
            side_by_side(pieces, ("firing", "place")),
            differ=bool(telling),
        ),
        **{name: _plank(found[-ON_PLANK:], drawings) for name, found in planks.items()},
        "more": {name: max(len(found) - ON_PLANK, 0) for name, found in planks.items()},
        "newest": MOST if evidence.newest_only else 0,
        "versions": ", ".join(versions_of(aside)),
        "fits": fits or rest[:best],
        "rest": rest[best:],
        "shared": sorted(
            {said(c) for c in changes if c.faulty_with + c.sound_with == c.known == len(pieces)}
        ),
        **others,
        "first": said(first) if first else "",
    }


@require_safe
def what_changed(request: StudioRequest) -> HttpResponse:
    """Ask for glaze and fault; show the comparison."""
    form = ChangeForm(request.GET or None, member=request.member)
    found: dict[str, Any] = {}
    if form.is_valid():
        day = form.cleaned_data["until"]
        until = timezone.make_aware(datetime.combine(day, time.max)) if day else None
        found = compare(
            request.member, form.cleaned_data["glaze"], FaultWord(form.cleaned_data["fault"]), until
        )
    return render(
        request,
        "shelf/_changed.html" if request.htmx else "shelf/changed.html",
        {"form": form, **found},
        status=422 if form.errors else 200,
    )
