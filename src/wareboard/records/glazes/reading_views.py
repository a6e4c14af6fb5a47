"""Small pages that put a reading right, or the bottle it was taken with."""

from functools import partial

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_http_methods

from wareboard.exchange.typed_number import written
from wareboard.records.people.asked import answered, asking
from wareboard.records.people.requests import StudioRequest

from . import corrections, queries
from .forms import BottleForm, RightReadingForm


@require_http_methods(["GET", "POST"])
def correct_reading(request: StudioRequest, reading_id: str) -> HttpResponse:
    """Put a reading right; the wrong one stays in the record."""
    asked = get_object_or_404(queries.readings_for(request.member), pk=reading_id)
    stands = queries.put_right(asked)
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
