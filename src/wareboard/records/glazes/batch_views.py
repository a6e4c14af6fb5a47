"""Pages of batches: weighed out, drawn from a base, poured into a bucket."""

from collections.abc import Sequence
from functools import partial
from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.core.errors import CoreError
from wareboard.core.recipe import RecipeLine
from wareboard.records.people.asked import answered, asking
from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.models import Member
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown, day
from wareboard.records.stores.bridge import Sheets
from wareboard.records.stores.queries import lots_by_material

from . import actions, queries
from .batch_forms import BatchForm, MixForm
from .bridge import weights_of
from .change_said import bag_said, grams_said, line_said, line_was
from .dose_said import coarse_for, dose_said
from .forms import DrawForm, PourForm
from .in_bucket import InBucket, in_bucket
from .models import Batch, BatchLine, BucketEvent, Glaze, Recipe
from .names import name_for_bucket
from .poured import poured_again
from .recipe_book import Powder, RecipeBook
from .recipe_said import cautions_for, chemistry_of
from .views import undo_of
from .weighing_out import WeighedOut, weigh_out

SAME_G = 1e-6


def _recipe(member: Member, glaze_id: str) -> tuple[Glaze, Recipe | None]:
    """Give a glaze and the newest version of its recipe; one query where there is one."""
    recipe = queries.recipe_of(member, glaze_id)
    if recipe is not None:
        return recipe.glaze, recipe
    return get_object_or_404(queries.glazes_for(member), pk=glaze_id), None


def _powders(recipe: Recipe) -> tuple[list[Powder], str]:
    """Give what a recipe is weighed out from; where it cannot be, say why."""
    try:
        return RecipeBook([recipe]).powders(recipe), ""
    except CoreError as refused:
        return [], str(refused)


@require_http_methods(["GET", "POST"])
def new_batch(request: StudioRequest, glaze_id: str) -> HttpResponse:
    """Weigh a batch out: what the recipe asks, which bags are open, what the scale said."""
    member = request.member
    glaze, recipe = _recipe(member, glaze_id)
    if recipe is None:
        return redirect("glazes:new-version", glaze.pk)
    powders, refused_say = _powders(recipe)
    mix = MixForm(
        {"dry_g": request.POST.get("dry_g", request.GET.get("dry_g", ""))},
        additions=any(powder.on_top for powder in powders),
    )
    dry_g = mix.cleaned_data["dry_g"] if mix.is_valid() else None
    if refused_say:
        mix.add_error(None, refused_say)
    asked = None
    if dry_g and powders:
        asked = weigh_out(powders, dry_g, scale_step_g=member.studio.scale_step_g)
    form = BatchForm(
        request.POST or None,
        powders=powders,
        lots=lots_by_material(member, [powder.material.pk for powder in powders]),
        asked_g=asked.grams if asked else (),
    )
    if request.method == "POST" and mix.is_valid() and form.is_valid():
        try:
            batch = actions.mix_batch(member, recipe, **form.facts())
        except EntryRefused as refused:
            form.add_error(None, str(refused))
        else:
            messages.success(request, form.kept_said())
            return redirect("glazes:batch", batch.pk)
    return render(
        request,
        "glazes/new_batch.html",
        {
            "glaze": glaze,
            "recipe": recipe,
            "mix": mix,
            "dry_g": mix["dry_g"].value() if dry_g else "",
            "sums": sums_said(asked, dry_g) if asked and dry_g else None,
            "coarse": coarse_for(min(asked.grams), member.studio.scale_step_g) if asked else "",
            "form": form,
            "rows": mixing_rows(form),
        },
        status=422 if form.errors or mix.errors else 200,
    )


def sums_said(asked: WeighedOut, dry_g: float) -> dict[str, str]:
    """Say what the grams add up to: the hundred, and all of it where additions come on top."""
    more = asked.whole_g > asked.hundred_g
    step = abs(asked.hundred_g - dry_g) > SAME_G
    return {
        "hundred": Shown.weighed(asked.hundred_g),
        "whole": Shown.weighed(asked.whole_g) if more else "",
        "why": _("Rounded to what a scale shows, so not quite what you asked for.") if step else "",
    }


def mixing_rows(form: BatchForm) -> list[dict[str, Any]]:
    """Say for each powder what to weigh and which bag is open."""
    return [
        {
            **row,
            "name": row["powder"].material.name,
            "grams_asked": Shown.weighed(row["asked_g"]) if row["asked_g"] is not None else "",
            "open": row["lot"].field.choices[0][1] if row["lot"].field.choices[0][0] else "",
            "parts": f"{row['powder'].parts:.4g}",
            "on_top": row["powder"].on_top,
        }
        for row in form.rows()
    ]


@require_http_methods(["GET", "POST"])
def draw(request: StudioRequest, glaze_id: str) -> HttpResponse:
    """Draw a batch wet from a bucket of its base, and say what to stir in."""
    member = request.member
    glaze, recipe = _recipe(member, glaze_id)
    if recipe is None or recipe.base is None:
        return redirect("glazes:new-batch", glaze.pk)
    asked = request.POST if request.method == "POST" else request.GET
    ask = DrawForm(
        asked if "wet_g" in asked else None,
        buckets=queries.buckets_filled(member, recipe.base),
        initial={"bucket": asked.get("bucket", "")},
    )
    drawn, form = _doses(request, recipe, ask) if ask.is_bound and ask.is_valid() else (None, None)
    if request.method == "POST" and drawn is not None and form is not None and form.is_valid():
        batch = _keep_drawn(member, recipe, drawn, ask.cleaned_data, form)
        if batch is not None:
            return redirect("glazes:batch", batch.pk)
    return render(
        request,
        "glazes/draw.html",
        {
            "glaze": glaze,
            "recipe": recipe,
            "ask": ask,
            "form": form,
            "drawn": drawn,
            "rows": form.rows() if form is not None else [],
            "said": _drawn_said(drawn, ask, Shown(member.studio)) if drawn is not None else None,
        },
        status=422 if ask.errors or (form is not None and form.errors) else 200,
    )


def _doses(
    request: StudioRequest, recipe: Recipe, ask: DrawForm
) -> tuple[InBucket | None, BatchForm | None]:
    """Work out the grams of each addition; what cannot be is said beside the bucket."""
    member = request.member
    shown = Shown(member.studio)
    inside = in_bucket(member, ask.cleaned_data["bucket"])
    powders = [
        Powder(line.material, line.parts, addition=True) for line in queries.lines_of(recipe)
    ]
    try:
        said = [
            dose_said(
                inside.dose(powder.parts, wet_g=ask.cleaned_data["wet_g"]),
                shown,
                solid_known=inside.solid_known,
            )
            for powder in powders
        ]
    except CoreError as refused:
        ask.add_error("bucket", str(refused))
        return None, None
    form = BatchForm(
        request.POST or None,
        powders=powders,
        lots=lots_by_material(member, [powder.material.pk for powder in powders]),
        initial={f"grams_{number}": dose.number for number, dose in enumerate(said)},
    )
    form.said = said
    return inside, form


def _keep_drawn(
    member: Member,
    recipe: Recipe,
    inside: InBucket,
    drawn: dict[str, Any],
    form: BatchForm,
) -> Batch | None:
    """Keep a drawn batch; None where it was refused, which the form then says."""
    if inside.batch is None or inside.sg is None:
        return None
    try:
        return actions.draw_batch(
            member,
            recipe,
            bucket=drawn["bucket"],
            drawn_from=inside.batch,
            wet_g=drawn["wet_g"],
            sg=inside.sg,
            **form.facts(),
        )
    except EntryRefused as refused:
        form.add_error(None, str(refused))
        return None


def _drawn_said(inside: InBucket, ask: DrawForm, shown: Shown) -> dict[str, str]:
    """Say what the grams rest on."""
    reading = inside.level.reading
    answer = inside.dose(1.0, wet_g=ask.cleaned_data["wet_g"])
    return {
        "wet": shown.mass(ask.cleaned_data["wet_g"]),
        "sg": shown.sg(inside.sg or 0.0),
        "dry": shown.mass(answer.result.dry_g, answer.doubt["dry_g"]),
        "span": shown.mass_span(answer.doubt["dry_g"]),
        "read": day(reading.at, "j F") if reading is not None else "",
        "batch": str(inside.batch),
        "bucket": ask.cleaned_data["bucket"].name,
    }


@require_safe
def batch_page(request: StudioRequest, batch_id: str) -> HttpResponse:
    """Show a batch: its lines with lots and grams, its base, where it went, its chemistry."""
    member = request.member
    shown = Shown(member.studio)
    batch = get_object_or_404(queries.batches_for(member), pk=batch_id)
    lines = queries.lines_by_batch(batch)
    own, under = lines.get(batch.pk, []), lines.get(batch.drawn_from_id or "", [])
    fillings = queries.fillings_of(member, batch)
    materials = list({line.material_id: line.material for line in [*own, *under]}.values())
    drawn = ""
    if batch.drawn_from is not None and batch.drawn_wet_g is not None:
        drawn = _("%(wet)s of it, wet, at %(sg)s.") % {
            "wet": shown.mass(batch.drawn_wet_g),
            "sg": shown.sg(batch.drawn_sg) if batch.drawn_sg is not None else "?",
        }
    return render(
        request,
        "glazes/batch.html",
        {
            "batch": batch,
            "glaze": batch.recipe.glaze,
            "own": [line_row(line) for line in own],
            "under": [line_row(line) for line in under],
            "total": total_of(own),
            "drawn": drawn,
            "fillings": fillings,
            "pairing": fillings and queries.has_elder(member, batch),
            "chemistry": chemistry_of(partial(powders_of, batch, lines)),
            "cautions": cautions_for(materials),
            "undo": newest_undo(batch, own, fillings[:1]),
        },
    )


def newest_undo(
    batch: Batch, lines: Sequence[BatchLine], poured: Sequence[BucketEvent]
) -> dict[str, Any] | None:
    """Offer taking back what was kept last of a batch: a line put right, a pouring, itself."""
    right = [line for line in lines if line.corrects_id]
    for entry in sorted([*right, *poured], key=lambda entry: entry.kept_at, reverse=True)[:1]:
        say = _("Kept.")
        if isinstance(entry, BatchLine):
            words = {"powder": entry.material.name, "now": line_said(entry)}
            say = _("Put right: %(powder)s, %(now)s.") % words
        if undo := undo_of([entry], say):
            return undo
    back = "" if poured else f"/glazes/glazes/{batch.recipe.glaze_id}/"
    return undo_of([batch], _("Kept."), back=back)


def line_row(line: BatchLine) -> dict[str, Any]:
    """Say of a line which bag it was and what the scale said, and what it said before."""
    return {
        "line": line,
        "material": line.material,
        "lot": line.lot,
        "lot_told": bag_said(line),
        "grams": grams_said(line) if line.weighed_g is not None else "",
        "was": line_was(line),
    }


def total_of(lines: list[BatchLine]) -> str:
    """Add up what was weighed, for the check on the scale; empty unless all of it was."""
    grams = [line.weighed_g for line in lines]
    if len(grams) < 2 or None in grams:  # noqa: PLR2004 - one line is its own sum
        return ""
    return Shown.weighed(sum(weighed for weighed in grams if weighed is not None))


def powders_of(batch: Batch, lines: dict[str, list[BatchLine]]) -> list[RecipeLine]:
    """Give what a batch is made of by its own bags; by its recipe where nobody weighed it."""
    weights = weights_of(batch, lines)
    if not weights:
        return RecipeBook([batch.recipe]).lines(
            batch.recipe,
            {line.material_id: line.lot for line in lines.get(batch.pk, []) if line.lot},
        )
    sheets = Sheets(line.material for line, _grams in weights)
    return [
        RecipeLine(
            line.material_id,
            grams,
            addition=False,
            analysis=sheets.analysis_for(line.material, line.lot),
        )
        for line, grams in weights
    ]


@require_http_methods(["GET", "POST"])
def pour_batch(request: StudioRequest, batch_id: str) -> HttpResponse:
    """Pour a batch into a bucket, an old one or a new one."""
    member = request.member
    batch = get_object_or_404(queries.batches_for(member), pk=batch_id)
    glaze = batch.recipe.glaze
    buckets = queries.buckets_for(member).filter(glaze=glaze)
    form = PourForm(
        request.POST or None,
        batches=queries.batches_of(member, glaze).filter(pk=batch.pk),
        buckets=buckets,
        initial={"batch": batch.pk, "name": name_for_bucket(member, glaze.name)},
    )
    return _pour(request, form, {"glaze": glaze, "batch": batch})


@require_http_methods(["GET", "POST"])
def fill(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Fill a bucket afresh or top it up from a batch."""
    member = request.member
    bucket = get_object_or_404(queries.buckets_for(member), pk=bucket_id)
    form = PourForm(
        request.POST or None,
        batches=queries.batches_of(member, bucket.glaze),
        buckets=queries.buckets_for(member).filter(pk=bucket.pk),
        initial={"bucket": bucket.pk, "kind": "topped up"},
    )
    return _pour(request, form, {"glaze": bucket.glaze, "bucket": bucket})


def _pour(request: StudioRequest, form: PourForm, page: dict[str, Any]) -> HttpResponse:
    """Take the pouring, and go to the bucket; ask once where the batch was poured before."""
    if form.is_bound and form.is_valid():
        told = {name: form.facts()[name] for name in ("batch", "bucket", "amount_ml", "entry_id")}
        form.ask("amount_l", poured_again(request.member, **told))
    bucket = answered(form, partial(actions.pour, request.member), beside=None)
    if bucket is not None:
        return redirect("pages:bucket", bucket.pk)
    return asking(request, "glazes/pour.html", form, **page)
