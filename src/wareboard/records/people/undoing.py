"""Undo, for ten minutes: an entry is taken back with all that one tap entered."""

from datetime import timedelta
from typing import Any

from django.apps import apps
from django.db import models, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from .entry import Entry, EntryRefused, Part
from .resting import relations_to, rests_on_this

UNDO_WINDOW = timedelta(minutes=10)


def may_undo(entry: Entry) -> bool:
    """Say whether an entry is young enough to be taken back."""
    return entry.undone_at is None and timezone.now() - entry.kept_at <= UNDO_WINDOW


def _entered_with(entry: Entry) -> list[Entry]:
    """Give everything the same tap entered, itself first."""
    if not entry.together:
        return [entry]
    same: list[Entry] = []
    for model in _all_entries():
        same += model._base_manager.filter(
            studio=entry.studio_id, together=entry.together, undone_at__isnull=True
        )
    return same


def _all_entries() -> list[type[Entry]]:
    return [model for model in apps.get_models() if issubclass(model, Entry)]


def _named_in_a_line(relation: Any, entry: Entry) -> Entry | None:
    """Give an entry that stands and names this one in one of its lines: a batch with a bag."""
    line = relation.related_model
    if not issubclass(line, Part) or relation.on_delete is models.CASCADE:
        return None  # its own lines stand and fall with it
    owner = next(
        field.name
        for field in line._meta.concrete_fields
        if isinstance(field, models.ForeignKey) and field.remote_field.on_delete is models.CASCADE
    )
    standing = {relation.field.name: entry.pk, f"{owner}__undone_at__isnull": True}
    rows = line._base_manager.filter(**standing).order_by(f"-{owner}__kept_at")
    if entry.together:
        rows = rows.exclude(**{f"{owner}__together": entry.together})
    first = rows.select_related(owner).first()
    return getattr(first, owner) if first else None


def _completed_by(entry: Entry, gone: set[str]) -> list[tuple[models.QuerySet[Any], str]]:
    """Give the older rows that an entry completed, each with the name that goes again.

    Raises
    ------
    EntryRefused
        If something younger rests on it.
    """
    completed = []
    for relation in relations_to(entry):
        later = relation.related_model
        rests = _named_in_a_line(relation, entry)
        if issubclass(later, Entry):
            resting = later._base_manager.filter(
                **{relation.field.name: entry.pk}, undone_at__isnull=True
            ).exclude(pk__in=gone)
            if relation.field.null:
                older = resting.filter(kept_at__lt=entry.kept_at)
                completed.append((older, relation.field.name))
                resting = resting.filter(kept_at__gte=entry.kept_at)
            rests = rests or resting.order_by("-kept_at").first()
        if rests:
            raise EntryRefused(rests_on_this(rests, rests.at))
    return completed


@transaction.atomic
def undo(entry: Entry) -> list[Entry]:
    """Take an entry back, with what the same tap entered, while it is young.

    An older entry that names it was completed by it, as a bag by a sheet that
    came later: there the name goes again. A younger one rests on it.

    Returns
    -------
    list of Entry
        What was taken back; empty where it was before.

    Raises
    ------
    EntryRefused
        If it is too old, or if a later entry rests on it.
    """
    if entry.undone_at is not None:
        return []
    if not may_undo(entry):
        raise EntryRefused(_("That was more than ten minutes ago: correct it instead."))
    leaving = _entered_with(entry)
    gone = {one.pk for one in leaving}
    completed = [found for one in leaving for found in _completed_by(one, gone)]
    for rows, name in completed:
        rows.update(**{name: None})
    now = timezone.now()
    for one in leaving:
        one.undone_at = now
        one.save(update_fields=["undone_at"])
    return leaving
