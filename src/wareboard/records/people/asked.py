"""A page that asks: what was said is kept, or what was refused stands beside its field."""

from collections.abc import Callable
from typing import Any, TypeVar

from django.http import HttpResponse
from django.shortcuts import render

from wareboard.core.errors import CoreError

from .entry import EntryRefused
from .fields import EntryForm
from .requests import StudioRequest

Kept = TypeVar("Kept")


def answered(form: EntryForm, act: Callable[..., Kept], *, beside: str | None) -> Kept | None:
    """Keep what a form says.

    Parameters
    ----------
    form : EntryForm
        As it was sent; one that was not sent keeps nothing.
    act : callable
        The action that keeps it; takes the form's facts by name.
    beside : str or None
        Field beside which a refusal stands; None for above them all.

    Returns
    -------
    object or None
        What the action gives; None where nothing was kept, and the page asks.
    """
    if not form.is_bound or not form.is_valid():
        return None
    try:
        return act(**form.facts())
    except (CoreError, EntryRefused) as refused:
        form.add_error(beside, str(refused))
        return None


def asking(request: StudioRequest, template: str, form: EntryForm, **facts: Any) -> HttpResponse:
    """Show a page that asks; where something was refused it says so in its status too."""
    status = 422 if form.errors else 200
    return render(request, template, {"form": form, **facts}, status=status)
