"""The bucket in the hand: weigh the full bottle, read what it wants."""

from collections.abc import Sequence
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_number import as_typed
from wareboard.records.glazes import actions, queries
from wareboard.records.glazes.bottle import Bottle
from wareboard.records.glazes.bridge import liked_density
from wareboard.records.glazes.change_said import event_said
from wareboard.records.glazes.forms import ChangeForm, ReadingForm
from wareboard.records.glazes.in_bucket import in_bucket
from wareboard.records.glazes.level import ML_L
from wareboard.records.glazes.models import Bucket, BucketEvent, BucketEventKind, Reading
from wareboard.records.people.entry import EntryRefused, new_id
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.undoing import may_undo
from wareboard.records.shelf.filling import worst_of_filling
from wareboard.records.shelf.queries import readings_of_good_pots
from wareboard.records.ware.books import BucketBooks, dips_of
from wareboard.records.ware.dipped_since import dipped_since, less_is_left, with_dips_since
from wareboard.records.ware.drawn import kind_of
from wareboard.records.ware.models import Coat
from wareboard.records.ware.queries import weighed_dips

from .bucket_answer import (
    again_for,
    answer_for,
    came_out_said,
    empty_for,
    left_said,
    pots_said,
    when_for,
)
from .undo import undo_link

ROWS = 12
BOTTLE = ("empty_g", "volume_ml")


def facts_of(member: Member, bucket: Bucket) -> dict[str, Any]:
    """Gather what the page says of a bucket as it stands."""
    shown = Shown(member.studio)
    inside = in_bucket(member, bucket)
    level = inside.level
    good = readings_of_good_pots(member, bucket.glaze)
    liked = liked_density(good, scale_step_g=member.studio.scale_step_g)
    answer = None
    nothing_left = level.empty or level.litres == 0.0
    if nothing_left:
        answer = empty_for(inside.events, emptied=level.empty)
    elif level.since:
        answer = again_for(level.since, shown)
    elif level.reading is not None:
        answer = answer_for(level.reading, liked, level.litres, shown)
    dips = [dip for dip in weighed_dips(member, bucket.glaze) if not dip.pot.test_piece]
    return {
        "bucket": bucket,
        "title": title_of(bucket, inside.events),
        "litres": shown.volume(level.litres * ML_L) if level.litres is not None else "",
        "empty": level.empty,
        "liked": shown.sg(liked.sg) if liked else "",
        "answer": answer,
        "when": "" if nothing_left or level.since else when_for(level.reading),
        "left": left_said(inside, shown),
        "less": less_is_left(bucket, level),
        "bottle": queries.bottle_among(bucket, inside.readings),
        "weighed": bool(inside.readings),
        "came_out": None if level.empty else came_out_said(worst_of_filling(bucket, inside.events)),
        "pots": pots_said(
            inside,
            dipped_since(bucket, level),
            list(coats_by_pot(dips, shown).values()),
            sorted({kind_of(dip.pot) for dip in dips}),
            shown,
        ),
        "dips": len(dips),
        "rows": rows_of(inside.readings, inside.events, shown),
        "change_form": ChangeForm(),
        "deed_id": new_id(),
        "undo": undo_of(bucket, inside.readings, inside.events, shown),
    }


def title_of(bucket: Bucket, events: Sequence[BucketEvent]) -> str:
    """Name a bucket by its glaze and the batches that are in it."""
    inside: list[int] = []
    for event in reversed(events):
        if event.kind in {BucketEventKind.FILLED, BucketEventKind.EMPTIED}:
            inside = []
        if event.batch is not None and event.batch.number not in inside:
            inside.append(event.batch.number)
    if not inside:
        return bucket.glaze.name
    *first, last = inside
    words = {"glaze": bucket.glaze.name, "first": ", ".join(map(str, first)), "last": last}
    if not first:
        return _("%(glaze)s, batch %(last)s") % words
    return _("%(glaze)s, batches %(first)s and %(last)s") % words


def coats_by_pot(dips: Sequence[Coat], shown: Shown) -> dict[str, float]:
    """Give the dry glaze that each weighed pot took, all its dips together, by pot [g]."""
    books = BucketBooks(dips_of(dips), with_batches=False)
    coats_g: dict[str, float] = {}
    for dip in dips:
        worked = books.work_out(dip, None, scale_step_g=shown.studio.scale_step_g)
        if worked.answer is not None:
            grams = worked.answer.result.coat_g
            coats_g[dip.pot_id] = coats_g.get(dip.pot_id, 0.0) + grams
    return coats_g


def rows_of(
    readings: Sequence[Reading], events: Sequence[BucketEvent], shown: Shown
) -> list[dict[str, Any]]:
    """Give readings and what was done, newest first."""
    rows: list[dict[str, Any]] = [
        {
            "at": reading.at,
            "what": shown.mass(reading.full_g),
            "more": reading_said(reading, shown),
            "right": reverse("glazes:correct-reading", args=[reading.pk]),
        }
        for reading in readings[:ROWS]
    ]
    rows += [
        {
            "at": event.at,
            "what": event_said(event, shown),
            "more": told_of(event),
            "right": reverse("glazes:correct-change", args=[event.pk]),
        }
        for event in events
    ]
    return sorted(rows, key=lambda row: row["at"], reverse=True)[:ROWS]


def reading_said(reading: Reading, shown: Shown) -> str:
    """Say what else a reading says: how full, how it hung, whether it was put right."""
    said = [] if reading.in_bucket_l is None else [shown.volume(reading.in_bucket_l * ML_L)]
    if reading.flow:
        said.append(str(reading.get_flow_display()))
    return ", ".join([*said, told] if (told := told_of(reading)) else said)


def told_of(row: Reading | BucketEvent) -> str:
    """Say whether a row was put right, and how it is remembered; mostly nothing."""
    said = [_("corrected")] if row.corrects_id else []
    return ", ".join([*said, row.remembered] if row.remembered else said)


def undo_of(
    bucket: Bucket, readings: Sequence[Reading], events: Sequence[BucketEvent], shown: Shown
) -> dict[str, Any] | None:
    """Offer taking back the newest entry, while it is young."""
    entered = [*readings, *events]
    newest = max(entered, key=lambda entry: entry.kept_at, default=bucket)
    if not may_undo(newest):
        return None
    if isinstance(newest, Reading) and newest.corrects_id:
        one_of_all = _("Bottle put right.") if newest.together else ""
        return undo_link(newest, one_of_all or _("Put right: %s.") % shown.mass(newest.full_g))
    if isinstance(newest, Reading):
        return undo_link(newest, _("Kept: %s.") % shown.mass(newest.full_g))
    if isinstance(newest, BucketEvent):
        say = _("Put right: %s.") if newest.corrects_id else _("Kept: %s.")
        link = undo_link(newest, say % event_said(newest, shown))
        made_with_it = newest.together and newest.together == bucket.together
        return {**link, "next": "/glazes/"} if made_with_it else link
    return {**undo_link(newest, _("Bucket kept.")), "next": "/glazes/"}


@require_http_methods(["GET", "POST"])
def bucket_page(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Show a bucket and take a reading of it."""
    bucket = get_object_or_404(with_dips_since(queries.buckets_for(request.member)), pk=bucket_id)
    form = None
    if request.method == "POST":
        form = ReadingForm(request.POST, bottle=queries.bottle_of(bucket))
        if form.is_valid():
            try:
                actions.weigh_bucket(request.member, bucket, **form.facts())
            except (CoreError, EntryRefused) as refused:
                form.add_error("full_g", str(refused))
            else:
                if not request.htmx:
                    return redirect("pages:bucket", bucket.pk)
                form = None
    facts = facts_of(request.member, bucket)
    form = form or blank(request.member, facts["bottle"])
    return render(
        request,
        "glazes/_bucket.html" if request.htmx else "glazes/bucket.html",
        {"form": form, **facts},
        status=422 if form.errors else 200,
    )


def blank(member: Member, bottle: Bottle | None) -> ReadingForm:
    """Ask for a reading; without a bottle, for the bottle too, beginning with the usual one."""
    usual = queries.usual_bottle(member) if bottle is None else None
    begun = {} if usual is None else {name: as_typed(getattr(usual, name)) for name in BOTTLE}
    return ReadingForm(bottle=bottle, initial=begun)
