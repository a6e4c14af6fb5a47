"""How many grams? So many per cent into a bucket that is already wet."""

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_number import written
from wareboard.records.glazes import actions, queries
from wareboard.records.glazes.dose_said import dose_said
from wareboard.records.glazes.forms import DosedForm, DoseForm
from wareboard.records.glazes.in_bucket import InBucket, in_bucket
from wareboard.records.glazes.level import ML_L
from wareboard.records.glazes.models import Bucket
from wareboard.records.glazes.names import name_for_tub
from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown, day
from wareboard.records.stores.queries import powders_in_use

from .bucket_answer import more_said

NEARLY_ALL = 0.9
MORE_THAN_ALL = 1.1
"""Litres by a mark are good to a twentieth: from here on it is another amount."""


@require_http_methods(["GET", "POST"])
def grams(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Say how many grams to add; keep what was added."""
    member = request.member
    bucket = get_object_or_404(queries.buckets_for(member), pk=bucket_id)
    inside = in_bucket(member, bucket)
    asked = request.POST if request.method == "POST" else request.GET
    ask = DoseForm(asked if "percent" in asked else None)
    said = answer(ask, inside, Shown(member.studio)) if ask.is_bound and ask.is_valid() else None
    did = None
    if said is None and request.method == "POST":
        # Sent again: what it kept has stirred the bucket, so it cannot be answered anew.
        before = queries.change_kept(member, request.POST.get("entry_id", ""))
        if before is not None:
            return redirect("pages:bucket", before.bucket_id)
    if said is not None:
        did = DosedForm(
            request.POST or None,
            lots=powders_in_use(member),
            whole=ask.cleaned_data["whole"],
            initial={"amount_g": said["number"], "tub": tub_name(member, bucket, inside, ask)},
        )
        if request.method == "POST" and did.is_valid():
            kept = keep(member, bucket, inside, ask.cleaned_data, did)
            if kept is not None:
                return redirect("pages:bucket", kept.pk)
    return render(
        request,
        "glazes/_grams.html" if request.htmx else "glazes/grams.html",
        {
            "bucket": bucket,
            "ask": ask,
            "did": did,
            "answer": said,
            "all": litres_said(inside, Shown(member.studio)),
            "rests_on": rests_on(inside, Shown(member.studio)),
            "children": queries.children_of(member, bucket.glaze),
        },
        status=422 if ask.errors or (did is not None and did.errors) else 200,
    )


def answer(ask: DoseForm, inside: InBucket, shown: Shown) -> dict[str, Any] | None:
    """Put the grams into a sentence; what cannot be is said beside the field."""
    facts = ask.cleaned_data
    percent, drawn, of = facts["percent"], facts["drawn"], facts["of"] or "base"
    told = {"wet_g": drawn.wet_g, "litres": drawn.litres}
    try:
        worked = inside.dose(percent, **told, of=of)
    except CoreError as refused:
        ask.add_error("amount" if refused.field == "wet-g" else "percent", str(refused))
        return None
    said = dose_said(worked, shown, solid_known=inside.solid_known)
    litres = inside.level.litres if drawn.litres is None else drawn.litres
    words = {
        "litres": shown.volume((litres or 0.0) * ML_L),
        "wet": shown.mass(inside.weight_g(**told) or 0.0),
        "sg": shown.sg(inside.sg or 0.0),
        "dry": said.dry,
        "percent": written(percent),
        "of": _("the dry base") if of == "base" else _("the finished glaze, powder included"),
    }
    working = (
        _("%(litres)s at %(sg)s weigh %(wet)s and hold %(dry)s dry; %(percent)s %% of %(of)s.")
        if drawn.wet_g is None
        else _("%(wet)s at %(sg)s hold %(dry)s dry; %(percent)s %% of %(of)s.")
    )
    why = [
        _("Only the dry glaze in the slop counts, not its water: per cent of the wet weight "
          "would be far too much."),
        _("How much of the slop is dry follows from its density, by the full bottle."),
    ]  # fmt: skip
    if drawn.wet_g is None:
        why.append(_("Litres are read off a mark or a tide line, good to a twentieth."))
    if not inside.solid_known:
        why.append(_("Nobody weighed this batch out here: its powder is taken at 2.6 g/cm³."))
    dry_g = worked.doubt["dry_g"]
    cautions = (said.caution, too_much(inside, ask, shown), more_said(inside, dry_g, shown))
    return {
        "say": _("Add %s.") % said.grams,
        "number": said.number,
        "working": working % words,
        "span": said.span,
        "trust": said.trust,
        "cautions": [line for line in cautions if line],
        "why": why,
    }


def share(inside: InBucket, ask: DoseForm) -> float:
    """Give how much of the bucket was drawn off; nothing where that cannot be told."""
    drawn = ask.cleaned_data["drawn"]
    all_g = inside.weight_g()
    drawn_g = inside.weight_g(wet_g=drawn.wet_g, litres=drawn.litres)
    return drawn_g / all_g if drawn_g and all_g else 0.0


def too_much(inside: InBucket, ask: DoseForm, shown: Shown) -> str:
    """Say where more is asked about than is in the bucket."""
    if share(inside, ask) <= MORE_THAN_ALL:
        return ""
    litres = shown.volume((inside.level.litres or 0.0) * ML_L)
    return _("That is more than the %s in this bucket by its tide line.") % litres


def tub_name(member: Member, bucket: Bucket, inside: InBucket, ask: DoseForm) -> str:
    """Name the tub that was drawn into; empty where it may be the whole bucket."""
    drawn_off = 0.0 < share(inside, ask) < NEARLY_ALL
    return name_for_tub(member, bucket.name) if drawn_off else ""


def litres_said(inside: InBucket, shown: Shown) -> str:
    """Say what “the whole bucket” is; what to write where nobody knows."""
    if not inside.level.litres:
        return _("A unit behind the number counts: 6 l, 8400 g.")
    litres = shown.volume(inside.level.litres * ML_L)
    return _("The whole bucket is %s and needs no number.") % litres


def rests_on(inside: InBucket, shown: Shown) -> str:
    """Say which reading and which litres the grams rest on."""
    reading = inside.level.reading
    if reading is None or inside.sg is None:
        return _("Not weighed since it was filled: weigh the full bottle first.")
    words = {"sg": shown.sg(inside.sg), "day": day(reading.at, "j F")}
    if inside.level.litres is None:
        return _("%(sg)s on %(day)s. Nobody said how much is in it.") % words
    litres = shown.volume(inside.level.litres * ML_L)
    return _("About %(litres)s, %(sg)s on %(day)s.") % {**words, "litres": litres}


def keep(
    member: Member, bucket: Bucket, inside: InBucket, asked: dict[str, Any], did: DosedForm
) -> Bucket | None:
    """Keep what was added to the bucket or to a tub; None where it was refused."""
    facts = did.facts()
    tub = facts.pop("tub", "")
    try:
        if not tub:
            return actions.dose_bucket(member, bucket, **facts)
        if inside.batch is None:
            did.add_error(None, _("Nobody said which batch is in this bucket: fill it first."))
            return None
        return actions.dose_tub(
            member, bucket, batch=inside.batch, drawn=asked["drawn"], tub=tub, **facts
        )
    except EntryRefused as refused:
        did.add_error(None, str(refused))
        return None
