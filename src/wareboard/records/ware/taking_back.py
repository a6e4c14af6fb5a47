"""What the foot of a page needs to offer taking an entry back."""

from datetime import datetime

from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils import timezone

from wareboard.core.errors import CoreError
from wareboard.records.people.entry import Entry, EntryRefused
from wareboard.records.people.undoing import UNDO_WINDOW

REFUSALS = (CoreError, EntryRefused, ValidationError)
"""What an action may answer instead of keeping."""


def undo_by(
    kind: str, entry_id: str, kept_at: datetime, say: str, *, back: str = ""
) -> dict[str, str] | None:
    """Give the sentence and the address; None where it was kept too long ago.

    Parameters
    ----------
    kind : str
        Short name of the entry's model.
    entry_id : str
        Which entry.
    kept_at : datetime
        When it was kept.
    say : str
        That it was kept, in a few words.
    back : str
        Where to go then; the same page where empty.
    """
    if timezone.now() - kept_at > UNDO_WINDOW:
        return None
    return {"say": say, "url": reverse("pages:undo", args=[kind, entry_id]), "next": back}


def undo_of(entry: Entry | None, say: str, *, back: str = "") -> dict[str, str] | None:
    """Give what :func:`undo_by` gives for an entry; None where there is none."""
    if entry is None or entry.undone_at is not None:
        return None
    return undo_by(str(entry._meta.model_name), entry.pk, entry.kept_at, say, back=back)


def sentence(refused: Exception) -> str:
    """Give a refusal as one sentence."""
    if isinstance(refused, ValidationError):
        return " ".join(refused.messages)
    return str(refused)
