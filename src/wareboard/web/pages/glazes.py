"""The room of glazes: its buckets, those that drifted first, then as they were used last."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_safe

from wareboard.core.slop import SlopWord
from wareboard.records.glazes import queries
from wareboard.records.glazes.bridge import Liked, against, density_of, liked_density
from wareboard.records.glazes.models import Bucket, BucketEventKind, Reading, ReadingFlow
from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.shelf.queries import readings_of_all_good_pots

STALE = timedelta(days=21)
WORDS = {
    SlopWord.THIN: ("wait", gettext_lazy("thin")),
    SlopWord.RIGHT: ("go", gettext_lazy("right")),
    SlopWord.THICK: ("wait", gettext_lazy("thick")),
}


def ago(when: datetime, now: datetime) -> str:
    """Say how many days ago something was, by the studio's clock."""
    days = (timezone.localtime(now).date() - timezone.localtime(when).date()).days
    if days <= 0:
        return _("weighed today")
    return ngettext("weighed yesterday", "weighed %(n)d days ago", days) % {"n": days}


def bucket_row(
    bucket: Bucket, reading: Reading | None, liked: Liked | None, shown: Shown, now: datetime
) -> dict[str, Any]:
    """Say of a bucket how it stands: thin, right or thick, and since when that is known."""
    row: dict[str, Any] = {"bucket": bucket, "sign": "", "word": "", "drifted": False}
    if bucket.begun_as == BucketEventKind.EMPTIED:
        return {**row, "more": _("empty")}
    if reading is None:
        return {**row, "more": _("not weighed yet")}
    density = density_of(reading, scale_step_g=shown.studio.scale_step_g)
    more = [shown.sg(density.result.sg)]
    if liked is not None:
        more.append(_("good at %s") % shown.sg(liked.sg))
    more.append(ago(reading.at, now))
    row["more"] = " · ".join(more)
    if bucket.stirred_at is not None and bucket.stirred_at > reading.at:
        return {**row, "sign": "unknown", "word": _("weigh again")}
    if liked is None:
        return row
    word = against(density, liked)
    sign, said = WORDS[word][0], str(WORDS[word][1])
    drifted = word is not SlopWord.RIGHT
    if reading.flow == ReadingFlow.GELLED:
        sign, said, drifted = "wait", _("gelled"), True
    if now - reading.at > STALE:
        return {**row, "sign": "unknown", "word": _("was %s") % said}
    return {**row, "sign": sign, "word": said, "drifted": drifted}


def bucket_rows(
    buckets: Sequence[Bucket],
    readings: Sequence[Reading],
    good: Mapping[str, Sequence[Reading]],
    shown: Shown,
    now: datetime,
) -> list[dict[str, Any]]:
    """Give the buckets, those that drifted first, else in their order."""
    newest = {reading.bucket_id: reading for reading in readings}
    step = shown.studio.scale_step_g
    liked = {glaze_id: liked_density(found, scale_step_g=step) for glaze_id, found in good.items()}
    rows = [
        bucket_row(bucket, newest.get(bucket.pk), liked.get(bucket.glaze_id), shown, now)
        for bucket in buckets
    ]
    return sorted(rows, key=lambda row: not row["drifted"])


@require_safe
def home(request: StudioRequest) -> HttpResponse:
    """Show the buckets and the glazes of the studio; empty buckets where they are asked for."""
    member, asked = request.member, request.GET
    page = cut(queries.glazes_for(member), by="sort_name", after=asked.get("after", ""))
    empty = "empty" in asked
    buckets = cut(
        queries.buckets_as_they_stand(member, empty=empty),
        by="used_at",
        after=asked.get("after-bucket", ""),
        newest_first=True,
    )
    return render(
        request,
        "glazes/home.html",
        {
            "empty": empty,
            "more_buckets": buckets.more,
            "buckets": bucket_rows(
                buckets.rows,
                queries.newest_readings(member),
                readings_of_all_good_pots(member),
                Shown(member.studio),
                timezone.now(),
            ),
            "glazes": page.rows,
            "more": page.more,
        },
    )
