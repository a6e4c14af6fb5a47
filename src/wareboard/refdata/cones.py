"""Published end points of pyrometric cones.

The charts disagree with each other, and old charts are still copied about.
Every point therefore says which cone, which form, which rate and which source
it belongs to; a temperature without them means nothing.

Sources
-------
The table ``cone_end_points__orton_seger`` and its provenance file; each row
names its source.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from wareboard.refdata.loading import Standing, UnknownNameError, load, number

TABLE = "cone_end_points__orton_seger"


class ConePoint(NamedTuple):
    """One printed temperature.

    Attributes
    ----------
    cone : str
        As written on the cone: "022", "5.5", "10", "SK6a".
    order : int
        Place in the row of cones, softest first.
    form : str
        self-supporting, large, small, or the name of another chart.
    composition : str
        regular or iron-free.
    rate_c_h : float or None
        Heating rate over the last 100 °C [°C h⁻¹]; None where the chart
        gives none.
    temp_c : float
        End point [°C].
    standing : Standing
        How far it can be trusted.
    source : str
        Where it was read.
    note : str
        What to mind.
    suspect : bool
        Whether the chart contradicts itself here.
    """

    cone: str
    order: int
    form: str
    composition: str
    rate_c_h: float | None
    temp_c: float
    standing: Standing
    source: str
    note: str
    suspect: bool


@cache
def all_cone_points() -> tuple[ConePoint, ...]:
    """Give every printed temperature.

    Returns
    -------
    tuple of ConePoint
        In the order of the table.
    """
    return tuple(_point(row) for row in load(TABLE).rows)


@cache
def forms() -> tuple[tuple[str, str], ...]:
    """Give the sets of cones that the table holds.

    Returns
    -------
    tuple of (str, str)
        Form and composition of each, in the order of the table.
    """
    return tuple(dict.fromkeys((point.form, point.composition) for point in all_cone_points()))


@cache
def series(form: str, composition: str = "regular") -> Mapping[str, tuple[ConePoint, ...]]:
    """Give one set of cones.

    Parameters
    ----------
    form : str
        ``"self-supporting"``, ``"large"``, ``"small"`` or another of the table.
    composition : str, optional
        ``"regular"`` or ``"iron-free"``.

    Returns
    -------
    mapping of str to tuple of ConePoint
        By cone, softest first; each cone's points by rising rate. Points that
        the chart itself contradicts are left out.

    Raises
    ------
    UnknownNameError
        If the table has no such set.
    """
    points = [
        point
        for point in all_cone_points()
        if (point.form, point.composition) == (form, composition) and not point.suspect
    ]
    if not points:
        near = tuple(", ".join(pair) for pair in forms())
        raise UnknownNameError("set of cones", f"{form}, {composition}", near)
    points.sort(key=lambda point: (point.order, point.rate_c_h or 0.0))
    cones: dict[str, list[ConePoint]] = {}
    for point in points:
        cones.setdefault(point.cone, []).append(point)
    return MappingProxyType({cone: tuple(found) for cone, found in cones.items()})


def _point(row: Mapping[str, str]) -> ConePoint:
    """Build a point from its row."""
    return ConePoint(
        cone=row["cone"],
        order=int(row["cone_order"]),
        form=row["form"],
        composition=row["composition"],
        rate_c_h=number(row["rate_c_per_h"]),
        temp_c=float(row["temp_c"]),
        standing=Standing.of(row["status"]),
        source=row["source"],
        note=row["note"],
        suspect=row["note"].startswith("suspect"),
    )
