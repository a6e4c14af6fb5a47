"""What the foot of a kiln page offers to take back."""

from collections.abc import Iterable
from typing import Any

from django.urls import reverse

from wareboard.records.people.entry import Entry
from wareboard.records.people.undoing import may_undo


def undo_link(entry: Entry, say: str, *, after: str = "") -> dict[str, Any]:
    """Give what the foot of a page needs to offer taking an entry back.

    Parameters
    ----------
    entry : Entry
        Which one.
    say : str
        What was kept.
    after : str
        The page to go to then; the same one where it is empty.
    """
    kind = str(entry._meta.model_name)
    return {"say": say, "url": reverse("pages:undo", args=[kind, entry.pk]), "next": after}


def newest(entries: Iterable[Entry | None]) -> Entry | None:
    """Give the entry that was kept last, where it may still be taken back."""
    young = [entry for entry in entries if entry is not None and may_undo(entry)]
    return max(young, key=lambda entry: entry.kept_at, default=None)
