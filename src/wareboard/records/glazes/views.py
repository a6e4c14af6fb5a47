"""Pages of glazes, their recipes and what is done to a bucket."""

from functools import partial
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from wareboard.records.people.asked import answered, asking
from wareboard.records.people.entry import Entry
from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.undoing import may_undo

from . import actions, queries
from .forms import BucketForm, ChangeForm
from .models import Bucket, Glaze
from .names import name_for_bucket
from .recipe_book import RecipeBook
from .recipe_forms import GlazeForm, RecipeForm, as_text
from .recipe_said import cautions_for, chemistry_of, parts_of

BUCKETS_SHOWN = 20


def undo_of(entries: list[Any], say: str, *, back: str = "") -> dict[str, Any] | None:
    """Offer taking back the first of some entries that is young enough."""
    for entry in entries:
        if isinstance(entry, Entry) and may_undo(entry):
            url = reverse("pages:undo", args=[str(entry._meta.model_name), entry.pk])
            return {"say": say, "url": url, "next": back}
    return None


@require_safe
def glaze_page(request: StudioRequest, glaze_id: str) -> HttpResponse:
    """Show a glaze: what it is like, its recipe, its family, its batches and buckets."""
    member = request.member
    glaze = get_object_or_404(queries.glazes_for(member), pk=glaze_id)
    versions = list(queries.recipes_for(member).filter(glaze=glaze))
    newest = versions[0] if versions else None
    book = RecipeBook(versions[:1])
    batches = cut(
        queries.batches_of(member, glaze),
        by="at",
        after=request.GET.get("after", ""),
        newest_first=True,
    )
    alone = [one for one in versions[:1] if one.together != glaze.pk]
    return render(
        request,
        "glazes/glaze.html",
        {
            "glaze": glaze,
            "newest": newest,
            "recipe": parts_of(newest) if newest else None,
            "chemistry": chemistry_of(partial(book.lines, newest)) if newest else None,
            "cautions": cautions_for(book.materials(newest)) if newest else [],
            "versions": [{"recipe": one, "parts": parts_of(one)} for one in versions[1:]],
            "children": queries.children_of(member, glaze),
            "batches": batches.rows,
            "more": batches.more,
            "buckets": queries.buckets_of(member, glaze)[:BUCKETS_SHOWN],
            "undo": undo_of(alone, _("Version kept."))
            or undo_of([glaze], _("Glaze kept."), back="/glazes/"),
        },
    )


@require_http_methods(["GET", "POST"])
def new_glaze(request: StudioRequest) -> HttpResponse:
    """Take a new glaze in, with its recipe."""
    form = GlazeForm(request.POST or None, member=request.member)
    glaze = answered(form, partial(actions.add_glaze, request.member), beside="name")
    if glaze is not None:
        return redirect("glazes:glaze", glaze.pk)
    return asking(request, "glazes/new_glaze.html", form)


@require_http_methods(["GET", "POST"])
def new_version(request: StudioRequest, glaze_id: str) -> HttpResponse:
    """Write the next version of a recipe, beginning with the one before."""
    member = request.member
    glaze = _glaze(request, glaze_id)
    newest = queries.recipes_for(member).filter(glaze=glaze).first()
    begun = {"recipe": as_text(newest), "base": newest.base_id} if newest else {}
    form = RecipeForm(request.POST or None, member=member, glaze=glaze, initial=begun)
    if answered(form, partial(actions.write_recipe, member, glaze), beside="recipe"):
        return redirect("glazes:glaze", glaze.pk)
    return asking(request, "glazes/new_version.html", form, glaze=glaze, newest=newest)


@require_http_methods(["GET", "POST"])
def new_bucket(request: StudioRequest, glaze_id: str) -> HttpResponse:
    """Name a bucket that stands on the floor."""
    member = request.member
    glaze = _glaze(request, glaze_id)
    begun = {"name": name_for_bucket(member, glaze.name)}
    form = BucketForm(request.POST or None, initial=begun)
    bucket = answered(form, partial(actions.add_bucket, member, glaze), beside="name")
    if bucket is not None:
        return redirect("pages:bucket", bucket.pk)
    return asking(request, "glazes/new_bucket.html", form, glaze=glaze)


@require_http_methods(["GET", "POST"])
def name_bucket(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Say what is written on a bucket, where it was written wrongly or is written anew."""
    bucket = _bucket(request, bucket_id)
    form = BucketForm(request.POST or None, initial={"name": bucket.name})
    if form.is_bound and form.is_valid():
        actions.name_bucket(bucket, name=form.cleaned_data["name"])
        return redirect("pages:bucket", bucket.pk)
    return asking(request, "glazes/name_bucket.html", form, bucket=bucket)


@require_http_methods(["GET", "POST"])
def change(request: StudioRequest, bucket_id: str) -> HttpResponse:
    """Keep what was done to a bucket and go back to it."""
    bucket = _bucket(request, bucket_id)
    form = ChangeForm(request.POST or None)
    if answered(form, partial(actions.change_bucket, request.member, bucket), beside=None):
        return redirect("pages:bucket", bucket.pk)
    return asking(request, "glazes/change.html", form, change_form=form, bucket=bucket)


def _glaze(request: StudioRequest, glaze_id: str) -> Glaze:
    return get_object_or_404(queries.glazes_for(request.member), pk=glaze_id)


def _bucket(request: StudioRequest, bucket_id: str) -> Bucket:
    return get_object_or_404(queries.buckets_for(request.member), pk=bucket_id)
