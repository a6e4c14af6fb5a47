"""Long lists, a page at a time.

A page goes on after the last row of the one before, so it costs the same
however far down it lies, and a row that came in meanwhile shifts nothing.
"""

from dataclasses import dataclass
from typing import Generic, TypeVar

from django.db.models import Model, Q, QuerySet

ROWS_A_PAGE = 50

Row = TypeVar("Row", bound=Model)


@dataclass(frozen=True)
class Cut(Generic[Row]):
    """One page of a list.

    Attributes
    ----------
    rows : list of Row
        What stands on it.
    more : str
        Id of its last row, where more follow; else empty.
    """

    rows: list[Row]
    more: str


def cut(
    rows: QuerySet[Row],
    *,
    by: str,
    after: str = "",
    newest_first: bool = False,
    size: int = ROWS_A_PAGE,
    among: QuerySet[Row] | None = None,
) -> Cut[Row]:
    """Give one page of a list.

    Parameters
    ----------
    rows : QuerySet
        The whole list.
    by : str
        Field or annotation that orders it; rows alike in it go by id.
    after : str
        Id of the last row of the page before; an unknown one is no page before.
    newest_first : bool
        Whether the largest comes first.
    size : int
        Rows on a page.
    among : QuerySet, optional
        Where the last row of the page before is looked up, where the whole list costs
        more to ask: all that the member may see.
    """
    sign, way = ("-", "lt") if newest_first else ("", "gt")
    ordered = rows.order_by(f"{sign}{by}", f"{sign}pk")
    if after:
        last = (
            (rows if among is None else among).filter(pk=after).values_list(by, flat=True).first()
        )
        if last is not None:
            # Not beyond it first, on its own: one range of the index, which an "or" is not.
            ordered = ordered.filter(**{f"{by}__{way}e": last}).filter(
                Q(**{f"{by}__{way}": last}) | Q(**{f"pk__{way}": after})
            )
    found = list(ordered[: size + 1])
    return Cut(found[:size], str(found[size - 1].pk) if len(found) > size else "")
