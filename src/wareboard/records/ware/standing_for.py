"""What stands now for a measurement that was put right.

A phone that lost the answer sends its form again, to the address of a row that
is no longer current; an old page is opened again. Both mean what stands now.
"""

from typing import Any, TypeVar

from django.db.models import QuerySet
from django.http import Http404

from wareboard.records.people.entry import Measurement

Row = TypeVar("Row", bound=Measurement)


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
    while True:
        found: Row | None = current.filter(pk=row_id).first()
        if found is not None:
            return found
        later = model._base_manager.filter(corrects=row_id, corrects__undone_at__isnull=True)
        following = later.filter(undone_at__isnull=True).order_by("-kept_at", "-pk").first()
        if following is None:
            raise Http404
        row_id = following.pk
