"""Constraints that the database itself holds.

SQLite keeps a text in a number column without a word, and sorts every text
above every number: an upper limit therefore also refuses text.
"""

from django.db import models
from django.db.models import CheckConstraint, Q, UniqueConstraint

_RANGES: dict[str, tuple[float, float]] = {}


def between(table: str, field: str, low: float, high: float) -> CheckConstraint:
    """Hold a number in its range; an unknown number stays unknown.

    Parameters
    ----------
    table : str
        The model's short name, for the constraint's own name.
    field : str
        Field to hold.
    low, high : float
        Both ends, included [unit of the field].
    """
    name = f"{table}_{field}_range"
    _RANGES[name] = (low, high)
    return CheckConstraint(
        condition=Q(**{f"{field}__gte": low, f"{field}__lte": high})
        | Q(**{f"{field}__isnull": True}),
        name=name,
    )


def one_of(table: str, field: str, choices: type[models.TextChoices]) -> CheckConstraint:
    """Hold a word to its list, the empty word only where it is on the list."""
    return CheckConstraint(
        condition=Q(**{f"{field}__in": list(choices.values)}), name=f"{table}_{field}_word"
    )


def unique_while_standing(table: str, *fields: str) -> UniqueConstraint:
    """Let a pair stand only once, not counting what was undone."""
    return UniqueConstraint(
        fields=fields, condition=Q(undone_at__isnull=True), name=f"{table}_{'_'.join(fields)}_once"
    )


def range_of(model: type[models.Model], field: str) -> tuple[float, float] | None:
    """Give the range that ``between`` holds a field to, if it does.

    Parameters
    ----------
    model : type
        The model.
    field : str
        Its field.
    """
    names = (c.name for c in model._meta.constraints if c.name.endswith(f"_{field}_range"))
    return next((_RANGES[name] for name in names), None)
