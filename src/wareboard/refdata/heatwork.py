"""How self-supporting cones trade time for temperature.

Two readings of the same published end points: the published table turned
round, and an activation energy of each cone's own, a second opinion.

Sources
-------
The table ``cone_heatwork__wareboard2026`` and its provenance file. Everything
in it is computed from ``cone_end_points__orton_seger``.
"""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from wareboard.refdata.loading import Standing, UnknownNameError, load, number

TABLE = "cone_heatwork__wareboard2026"


class ConeHeatwork(NamedTuple):
    """What one cone needs, three ways.

    Attributes
    ----------
    cone : str
        As written on the cone.
    t15_c : float or None
        End point at 15 °C/h [°C]; None where the chart has none.
    t60_c, t150_c : float
        End points at 60 and 150 °C/h [°C].
    s_low_c, s_high_c : float
        Degrees that a factor e in rate is worth, below and above the end
        point at 60 °C/h [°C].
    own_q_kj_mol, own_q_ln_w : float
        Activation energy [kJ mol⁻¹] and natural logarithm of the work done at
        the end point [ln h], fitted to this cone alone.
    smoothed_q_kj_mol, smoothed_q_ln_w : float
        The same, drawn to the trend of all cones.
    standing : Standing
        Always computed.
    """

    cone: str
    t15_c: float | None
    t60_c: float
    t150_c: float
    s_low_c: float
    s_high_c: float
    own_q_kj_mol: float
    own_q_ln_w: float
    smoothed_q_kj_mol: float
    smoothed_q_ln_w: float
    standing: Standing


@cache
def all_heatwork() -> Mapping[str, ConeHeatwork]:
    """Give every cone of the table.

    Returns
    -------
    mapping of str to ConeHeatwork
        By cone, softest first.
    """
    return MappingProxyType({row["cone"]: _heatwork(row) for row in load(TABLE).rows})


def heatwork(cone: str) -> ConeHeatwork:
    """Look up one cone.

    Parameters
    ----------
    cone : str
        As written on the cone: ``"06"``, ``"10"``.

    Returns
    -------
    ConeHeatwork
        What the table says of it.

    Raises
    ------
    UnknownNameError
        If the table does not hold it.
    """
    try:
        return all_heatwork()[cone]
    except KeyError:
        raise UnknownNameError("cone", cone) from None


def _heatwork(row: Mapping[str, str]) -> ConeHeatwork:
    """Build a cone from its row."""
    return ConeHeatwork(
        cone=row["cone"],
        t15_c=number(row["t15_c"]),
        t60_c=float(row["t60_c"]),
        t150_c=float(row["t150_c"]),
        s_low_c=float(row["s_low_c"]),
        s_high_c=float(row["s_high_c"]),
        own_q_kj_mol=float(row["own_q_kj_per_mol"]),
        own_q_ln_w=float(row["own_q_ln_w_hours"]),
        smoothed_q_kj_mol=float(row["smoothed_q_kj_per_mol"]),
        smoothed_q_ln_w=float(row["smoothed_q_ln_w_hours"]),
        standing=Standing.COMPUTED,
    )
