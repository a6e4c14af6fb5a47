"""The opening: a photo of each shelf before anything is touched, then a thumb for every pot."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from wareboard.records.kiln import cautions
from wareboard.records.kiln import queries as kiln
from wareboard.records.kiln.actions import photograph_shelf
from wareboard.records.kiln.forms import ShelfPhotoForm
from wareboard.records.kiln.loading import glazes_on
from wareboard.records.kiln.models import Firing, Placing, ShelfPhoto
from wareboard.records.kiln.undoing import newest, undo_link
from wareboard.records.kiln.words import Level
from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.fields import EntryForm
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.shelf import queries as shelf
from wareboard.records.shelf.actions import all_good
from wareboard.records.shelf.models import HopeAnswer, Verdict
from wareboard.records.shelf.queries import Asked
from wareboard.records.shelf.words import Surface, Thumb
from wareboard.records.ware.books import coats_of
from wareboard.records.ware.drawn import draw_pots, name_of
from wareboard.records.ware.models import Coat

Again = tuple[datetime, str, int]
"""The next firing that a pot went into: when it was lit, its id and its number."""

COOL_C = 100.0
ROW_PX_CM = 3.0
SWAPPED = ("#messages", "#left-to-judge", "#the-rest", "#foot")
"""What of the page changes with whatever is taken back."""


def _told(verdict: Verdict) -> str:
    """Say a verdict in a line: outside: bad, pinholes."""
    faults = [str(fault.get_word_display()) for fault in verdict.faults.all()]
    parts = [str(verdict.get_thumb_display()), *faults, *([verdict.words] if verdict.words else [])]
    return f"{verdict.get_surface_display()}: {', '.join(parts)}"


def _lit(verdicts: Sequence[Verdict]) -> str:
    """Give the thumb that stands for a pot: of the whole, else of its worst side."""
    whole = [verdict.thumb for verdict in verdicts if verdict.surface == Surface.WHOLE]
    worst_last = sorted((verdict.thumb for verdict in verdicts), key=Thumb.values.index)
    return (whole or worst_last or [""])[-1]


def _row(
    placing: Placing,
    coats: Sequence[Coat],
    verdicts: Sequence[Verdict],
    hopes: Sequence[Asked],
    drawing: str,
    again: Again | None,
) -> dict[str, Any]:
    """Give one pot as its shelf shows it."""
    whole = [verdict for verdict in verdicts if verdict.surface == Surface.WHOLE]
    return {
        "placing": placing,
        "pot": placing.pot,
        "name": name_of(placing.pot),
        "glazes": glazes_on(coats),
        "drawing": mark_safe(drawing),  # noqa: S308 - our own drawing, every text in it escaped
        "judged": bool(verdicts) or again is not None,
        "again": again,
        "thumb": _lit(verdicts),
        "told": [_told(one) for one in verdicts if one.surface != Surface.WHOLE or len(whole) > 1],
        "faults": [str(fault.get_word_display()) for fault in whole[-1].faults.all()]
        if whole
        else [],
        "words": whole[-1].words if whole else "",
        "hopes": hopes,
        "last": max(verdicts, key=lambda one: one.kept_at, default=None),
        "form": EntryForm(),
    }


def of_it(firing: Firing, verdicts: Iterable[Verdict], again: Again | None) -> list[Verdict]:
    """Leave out what was said before a firing was lit, and after the next: it speaks of others."""
    until = again[0] if again else None
    return [
        verdict
        for verdict in verdicts
        if verdict.at >= firing.at and (until is None or verdict.at < until)
    ]


def rows_of(
    member: Member, firing: Firing, placings: Sequence[Placing]
) -> dict[str, dict[str, Any]]:
    """Give some pots of a load as the opening of its firing shows them, by pot."""
    ids = [placing.pot_id for placing in placings]
    coats = coats_of(member, ids)
    verdicts = shelf.verdicts_on(member, ids)
    hopes = shelf.hopes_on(member, ids)
    again = shelf.fired_again(member, firing, ids)
    drawings = draw_pots([placing.pot for placing in placings], coats, {}, px_cm=ROW_PX_CM)
    return {
        placing.pot_id: _row(
            placing,
            coats.get(placing.pot_id, ()),
            of_it(firing, verdicts.get(placing.pot_id, ()), again.get(placing.pot_id)),
            hopes.get(placing.pot_id, ()),
            drawings[placing.pot_id],
            again.get(placing.pot_id),
        )
        for placing in placings
    }


def _shelves(
    placings: Sequence[Placing],
    rows: Mapping[str, dict[str, Any]],
    photos: Sequence[ShelfPhoto],
) -> list[dict[str, Any]]:
    """Sort pots and photos by shelf, the top one first."""
    shelves = []
    for level in [*Level, None]:
        pots = [
            rows[placing.pot_id]
            for placing in placings
            if (placing.place.level if placing.place else None) == level
        ]
        taken = [photo for photo in photos if photo.level == level]
        if pots or taken:
            shelves.append(
                {
                    "level": level.value if level else "",
                    "name": level.label if level else _("place not said"),
                    "pots": pots,
                    "photos": taken,
                    "form": ShelfPhotoForm(),
                    "left": sum(not row["judged"] for row in pots),
                }
            )
    return shelves


def title_of(firing: Firing, left: int, pots: int) -> str:
    """Say how far the opening is."""
    if not pots:
        return _("Nothing stood in firing %d.") % firing.number
    if not left:
        return _("All %d pots are judged.") % pots
    if left == pots:
        return _("How did firing %d come out?") % firing.number
    return _("%(left)d of %(pots)d left to judge.") % {"left": left, "pots": pots}


def undo_of(
    firing: Firing, entries: Sequence[Entry | None], left: str = ""
) -> dict[str, Any] | None:
    """Offer to take the last entry back, and to come back here then; say what is left to judge."""
    last = newest(entries)
    if last is None:
        return None
    tap = [one for one in entries if one is not None and one.together == last.together]
    swaps = [f"#pot-{pot}" for pot in map(_pot_of, tap if last.together else [last]) if pot]
    if isinstance(last, Verdict):
        say = f"{name_of(last.pot)}: {last.get_thumb_display()}. {left}".strip()
        if last.together:
            n = len(tap)
            say = ngettext("Good: the last pot.", "Good: the last %(n)d pots.", n) % {"n": n}
    elif isinstance(last, ShelfPhoto):
        say = _("Kept: photo, %s.") % last.get_level_display()
        swaps = [f"#photos-{last.level}"]
    else:
        say = _("Kept.")
    link = undo_link(last, say, after=reverse("pages:opening", args=[firing.pk]))
    return {**link, "swaps": ",".join([*swaps, *SWAPPED])}


def _pot_of(entry: Entry) -> str:
    """Give the pot that an entry speaks of; empty where it speaks of none."""
    if isinstance(entry, HopeAnswer):
        return str(entry.hope.pot_id)
    return str(entry.pot_id) if isinstance(entry, Verdict) else ""


def opening_facts(member: Member, firing: Firing) -> dict[str, Any]:
    """Gather what the page of an opening shows."""
    placings = kiln.standing_in(firing.load)
    rows = rows_of(member, firing, placings)
    photos = kiln.shelf_photos(firing)
    opened = firing.opened_at
    last_c = None if opened else kiln.last_temp_c(firing)
    shown = Shown(member.studio)
    hot = last_c is not None and last_c > COOL_C
    left = sum(not row["judged"] for row in rows.values())
    return {
        "firing": firing,
        "title": title_of(firing, left, len(rows)),
        "left": left,
        "shelves": _shelves(placings, rows, photos),
        "opened": opened,
        "unshut": firing.shut_at is None,
        "caution": None if opened else cautions.OPENING,
        "last": _("The last line of its log says %s.") % shown.temperature(last_c or 0.0)
        if hot
        else "",
        "tap_form": EntryForm(),
        "undo": undo_of(firing, [*(row["last"] for row in rows.values()), *photos]),
    }


def firing_of(request: StudioRequest, firing_id: str) -> Firing:
    """Find a firing with when it was shut off and opened."""
    return get_object_or_404(kiln.timed_firings(request.member), pk=firing_id)


@require_safe
def opening(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Show every shelf of an opened kiln."""
    firing = firing_of(request, firing_id)
    return render(request, "kiln/opening.html", opening_facts(request.member, firing))


@require_POST
def shelf_photo(request: StudioRequest, firing_id: str, level: str) -> HttpResponse:
    """Keep a photo of a shelf as it was found."""
    firing = firing_of(request, firing_id)
    if level not in Level.values:
        raise Http404
    form = ShelfPhotoForm(request.POST, request.FILES)
    if form.is_valid():
        facts = form.facts()
        photo = facts.pop("photo")
        try:
            photograph_shelf(request.member, firing, Level(level), [photo], **facts)
        except EntryRefused as refused:
            form.add_error("photo", str(refused))
        else:
            return redirect(reverse("pages:opening", args=[firing.pk]) + f"#shelf-{level}")
    facts = opening_facts(request.member, firing)
    for one in facts["shelves"]:
        if one["level"] == level:
            one["form"] = form
    return render(request, "kiln/opening.html", facts, status=422)


@require_POST
def all_the_rest_good(request: StudioRequest, firing_id: str) -> HttpResponse:
    """Keep of every pot nobody judged yet that it came out good, by one tap."""
    firing = firing_of(request, firing_id)
    form = EntryForm(request.POST)
    if not form.is_valid():
        raise Http404
    placings = kiln.standing_in(firing.load)
    rows = rows_of(request.member, firing, placings)
    rest = [placing.pot for placing in placings if not rows[placing.pot_id]["judged"]]
    try:
        all_good(request.member, rest, entry_id=form.cleaned_data["entry_id"])
    except EntryRefused as refused:
        messages.warning(request, str(refused))
    return redirect("pages:opening", firing.pk)
