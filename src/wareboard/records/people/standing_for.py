"""What stands now for a measurement that was put right.

A phone that lost the answer sends its form again, to the address of a row that
is no longer current; an old page is opened again. Both mean what stands now.
"""

from typing import Any, TypeVar

from django.db.models import QuerySet
from django.http import Http404

from .entry import Measurement

Row = TypeVar("Row", bound=Measurement)


def stands_now(row: Row) -> Row:
    """Give the measurement that stands where one was put right; else itself."""
    later = type(row)._base_manager.filter(corrects=row.pk, undone_at__isnull=True)
    newest: Row | None = later.order_by("-kept_at", "-pk").first()
    return row if newest is None else stands_now(newest)


def standing_for(current: QuerySet[Any], model: type[Row], row_id: str) -> Row:
    """Give a current row, or the one that stands for it since it was put right.

    Parameters
    ----------
    current : QuerySet
        The current rows that the member may see.
    model : type
        Of which kind they are.
    row_id : str
        A row that was entered once.

    Raises
    ------
    Http404
        If no such row stands.
    """
    found: Row | None = current.filter(pk=row_id).first()
    if found is None:
        asked: Row | None = model._base_manager.filter(pk=row_id, undone_at__isnull=True).first()
        found = None if asked is None else current.filter(pk=stands_now(asked).pk).first()
    if found is None:
        raise Http404
    return found
