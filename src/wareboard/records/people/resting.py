"""What rests on an entry, and how it is named in a refusal."""

from datetime import datetime
from typing import Any

from django.db import models
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _


def relations_to(row: models.Model) -> list[Any]:
    """Give every kind of row that may name a row, also where nothing leads back."""
    fields = row._meta.get_fields(include_hidden=True)
    return [field for field in fields if field.auto_created and field.one_to_many]


def rests_on_this(later: models.Model, at: datetime) -> str:
    """Say what rests on an entry: its kind, and when it was."""
    say = _("The %(what)s of %(day)s rests on this: undo that first.")
    day = date_format(timezone.localtime(at), "j M, H:i")
    return say % {"what": later._meta.verbose_name, "day": day}
