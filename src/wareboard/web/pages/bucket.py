"""The bucket in the hand: weigh the full bottle, read what it wants."""

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from wareboard.core.errors import CoreError
from wareboard.records.glazes import actions, queries
from wareboard.records.glazes.bridge import liked_density
from wareboard.records.glazes.forms import ReadingForm
from wareboard.records.glazes.models import Bucket
from wareboard.records.people.entry import EntryRefused, may_undo
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.shelf.queries import readings_of_good_pots

from .bucket_answer import answer_for
from .undo import undo_link


def facts_of(member: Member, bucket: Bucket) -> dict[str, Any]:
    """Gather what the page says of a bucket as it stands."""
    shown = Shown(member.studio)
    step = member.studio.scale_step_g
    readings = queries.readings_of(bucket)
    liked = liked_density(readings_of_good_pots(member, bucket.glaze), scale_step_g=step)
    batch = queries.batches_for(member).filter(pk=bucket.last_batch_id).first()
    litres = next((r.in_bucket_l for r in readings if r.in_bucket_l is not None), None)
    latest = readings[0] if readings else None
    return {
        "bucket": bucket,
        "batch": batch,
        "litres": shown.volume(litres * 1000) if litres is not None else "",
        "liked": shown.sg(liked.sg) if liked else "",
        "liked_n": liked.readings if liked else 0,
        "latest": latest,
        "answer": answer_for(latest, liked, litres, shown) if latest else None,
        "rows": [
            {
                "at": r.at,
                "full": shown.mass(r.full_g),
                "flow": r.get_flow_display() if r.flow else "",
            }
            for r in readings
        ],
        "undo": undo_link(latest, _("Kept: %(g)s.") % {"g": shown.mass(latest.full_g)})
        if latest and may_undo(latest)
        else None,
    }


@require_http_methods(["GET", "POST"])
def bucket_page(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Show a bucket and take a reading of it."""
    bucket = get_object_or_404(queries.buckets_for(request.member), pk=bucket_id)
    form = ReadingForm(request.POST or None, bucket=bucket)
    if request.method == "POST" and form.is_valid():
        try:
            actions.weigh_bucket(request.member, bucket, **form.facts())
        except (CoreError, EntryRefused) as refused:
            form.add_error("full_g", str(refused))
        else:
            if not request.htmx:
                return redirect("pages:bucket", bucket.pk)
            form = ReadingForm(bucket=bucket)
    return render(
        request,
        "glazes/_bucket.html" if request.htmx else "glazes/bucket.html",
        {"form": form, **facts_of(request.member, bucket)},
        status=422 if form.errors else 200,
    )
