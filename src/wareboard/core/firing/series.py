"""The cones a log can be read by, under the names a potter gives them.

Large cones have no printed point below 60 °C/h; they take that stretch from the
self-supporting cone of the same number and kind.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from wareboard.core.errors import LogError
from wareboard.core.firing.curves import ConeCurve, CurveTable, curve_table, lend_slopes
from wareboard.core.firing.second_opinion import OwnLaw
from wareboard.refdata import cones as cone_points
from wareboard.refdata import heatwork
from wareboard.refdata.loading import Standing

SELF_SUPPORTING = "self-supporting"
SERIES = {
    SELF_SUPPORTING: (SELF_SUPPORTING, "regular"),
    "large": ("large", "regular"),
    "iron-free self-supporting": (SELF_SUPPORTING, "iron-free"),
    "iron-free large": ("large", "iron-free"),
}
"""Form and composition in the table of printed points, by the name of the series."""


@dataclass(frozen=True, eq=False)
class ConeSeries:
    """One series of cones, ready to read a log by.

    Attributes
    ----------
    name : str
        As in ``SERIES``.
    table : CurveTable
        Its cones, coolest first.
    laws : mapping of str to OwnLaw
        A second law for each cone that has one.
    sources : tuple of str
        Tables it rests on.
    """

    name: str
    table: CurveTable
    laws: Mapping[str, OwnLaw] = field(default_factory=dict)
    sources: tuple[str, ...] = ()

    def from_memory(self, cone: str) -> bool:
        """Tell whether a printed point of a cone waits to be checked on the chart."""
        return any(curve.from_memory for curve in self.table.curves if curve.cone == cone)


@cache
def cone_series(name: str = SELF_SUPPORTING) -> ConeSeries:
    """Get a series by its name.

    Parameters
    ----------
    name : str
        One of ``SERIES``.

    Raises
    ------
    LogError
        If there is no series of that name.
    """
    if name not in SERIES:
        raise LogError(
            f'There is no series of cones called "{name}".',
            field="cones",
            seen=name,
            accepted=", ".join(SERIES),
        )
    form, composition = SERIES[name]
    curves = lend_slopes(_curves(form, composition), _curves(SELF_SUPPORTING, composition))
    laws: dict[str, OwnLaw] = {}
    sources = [cone_points.TABLE]
    if name == SELF_SUPPORTING:
        sources.append(heatwork.TABLE)
        laws = {
            cone: OwnLaw(row.own_q_kj_mol, row.own_q_ln_w)
            for cone, row in heatwork.all_heatwork().items()
        }
    return ConeSeries(name, curve_table(curves), laws, tuple(sources))


def _curves(form: str, composition: str) -> tuple[ConeCurve, ...]:
    """Turn printed points into curves, coolest cone first."""
    return tuple(
        ConeCurve(
            cone,
            tuple((point.rate_c_h, point.temp_c) for point in points if point.rate_c_h is not None),
            from_memory=any(point.standing is Standing.FROM_MEMORY for point in points),
        )
        for cone, points in cone_points.series(form, composition).items()
    )
