"""Small pages that put right what was weighed, and what was done to a bucket."""

from functools import partial

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_http_methods

from wareboard.exchange.typed_number import written
from wareboard.records.people.asked import answered, asking
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.people.standing_for import stands_now
from wareboard.records.stores.models import Lot
from wareboard.records.stores.queries import lots_by_material, powders_in_use

from . import corrections, queries
from .change_said import event_said, line_said
from .models import BucketEvent, BucketEventKind
from .right_forms import BottleForm, RightChangeForm, RightLineForm, RightReadingForm


@require_http_methods(["GET", "POST"])
def correct_reading(request: StudioRequest, reading_id: str) -> HttpResponse:
    """Put a reading right; the wrong one stays in the record."""
    asked = get_object_or_404(queries.readings_for(request.member), pk=reading_id)
    stands = stands_now(asked)
    form = RightReadingForm(request.POST or None, reading=stands)
    correct = partial(corrections.correct_reading, request.member, asked)
    if answered(form, correct, beside="full_g"):
        return redirect("pages:bucket", asked.bucket_id)
    was = f"{written(stands.full_g)} g"
    return asking(
        request,
        "glazes/correct_reading.html",
        form,
        reading=stands,
        bucket=asked.bucket,
        was=was,
    )


@require_http_methods(["GET", "POST"])
def correct_change(request: StudioRequest, bucket_event_id: str) -> HttpResponse:
    """Put right what was done to a bucket; the wrong row stays in the record."""
    member = request.member
    asked = get_object_or_404(queries.changes_for(member), pk=bucket_event_id)
    stands = stands_now(asked)
    form = RightChangeForm(request.POST or None, change=stands, lots=_bags_for(member, stands))
    if answered(form, partial(corrections.correct_change, member, asked), beside=None):
        return redirect("pages:bucket", asked.bucket_id)
    was = event_said(stands, Shown(member.studio))
    return asking(
        request,
        "glazes/correct_change.html",
        form,
        change=stands,
        bucket=asked.bucket,
        was=was[:1].upper() + was[1:],
    )


def _bags_for(member: Member, change: BucketEvent) -> list[Lot]:
    """Give the bags a powder may have come from: those of its material first."""
    if change.kind != BucketEventKind.POWDER_IN:
        return []
    own = change.lot.material_id if change.lot is not None else ""
    lots = [*lots_by_material(member, [own]).get(own, ()), *powders_in_use(member)]
    return list({lot.pk: lot for lot in lots}.values())


@require_http_methods(["GET", "POST"])
def correct_line(request: StudioRequest, batch_line_id: str) -> HttpResponse:
    """Put right what went into a batch of one powder; the wrong row stays in the record."""
    member = request.member
    asked = get_object_or_404(queries.batch_lines_for(member), pk=batch_line_id)
    stands = stands_now(asked)
    lots = lots_by_material(member, [asked.material_id]).get(asked.material_id, [])
    form = RightLineForm(request.POST or None, line=stands, lots=lots)
    if answered(form, partial(corrections.correct_line, member, asked), beside="weighed_g"):
        return redirect("glazes:batch", asked.batch_id)
    return asking(
        request,
        "glazes/correct_line.html",
        form,
        line=stands,
        batch=asked.batch,
        was=line_said(stands),
    )


@require_http_methods(["GET", "POST"])
def bottle_right(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Put the bottle of a bucket right, and the readings that were taken with it."""
    member = request.member
    bucket = get_object_or_404(queries.buckets_for(member), pk=bucket_id)
    bottle = queries.bottle_of(bucket)
    taken = queries.weighed_with(member, bottle) if bottle else {}
    own = taken.pop(bucket.pk, 0)
    if not own:
        return redirect("pages:bucket", bucket.pk)
    form = BottleForm(request.POST or None, bottle=bottle, others=len(taken))
    if answered(form, partial(corrections.put_bottle_right, member, bucket), beside="empty_g"):
        return redirect("pages:bucket", bucket.pk)
    return asking(request, "glazes/bottle.html", form, bucket=bucket, own=own)
