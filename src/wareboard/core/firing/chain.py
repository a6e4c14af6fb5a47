"""The cones in a row: from how far each has fallen to one reading.

``D = s ln P`` says how many degrees a cone is past (+) or short of (-) its end
point, as if the kiln had come up at 60 °C/h. The reading is the last cone down
and the share of the way, in these degrees, to the next one. Half cones stay out
of the chain.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from wareboard.core.arrays import Floats, np
from wareboard.core.firing.curves import CurveTable

DOWN = 0.999
"""A cone counts as down from this progress."""

JUST_DOWN = 1.001
"""The highest cone still reads as itself up to this progress."""

NEARLY = 0.1
HALF_WAY = 0.5
MIDDLE = 0.05
NOT_YET = 0.99


class Place(Enum):
    """Where a reading lies in its table."""

    BELOW = "below"
    WITHIN = "within"
    ABOVE = "above"


@dataclass(frozen=True)
class ConeReading:
    """A firing in cones.

    Attributes
    ----------
    place : Place
        Whether the table reaches over the firing.
    cone : str
        The last cone down; outside the table its lowest or highest cone.
    next_cone : str
        The cone after it; the same one at the end of the table.
    fraction : float
        Share of the way from the one to the other, 0 to 1.
    equivalent_c : float or None
        End temperature of a steady 60 °C/h climb with the same reading [°C].
    """

    place: Place
    cone: str
    next_cone: str
    fraction: float
    equivalent_c: float | None

    @property
    def text(self) -> str | None:
        """The reading as ``"7+0.12"``, never rounded up to the next cone."""
        if self.place is not Place.WITHIN:
            return None
        return f"{self.cone}+{min(round(self.fraction, 2), NOT_YET):.2f}"

    @property
    def words(self) -> str:
        """The reading as a potter says it."""
        if self.place is not Place.WITHIN:
            end = "lowest" if self.place is Place.BELOW else "highest"
            return f"{self.place.value} cone {self.cone}, the {end} of the table"
        if self.fraction < NEARLY:
            return f"cone {self.cone}"
        if self.fraction > 1 - NEARLY:
            return f"nearly cone {self.next_cone}"
        between = f"between cones {self.cone} and {self.next_cone}"
        if abs(self.fraction - HALF_WAY) <= MIDDLE:
            return f"half way {between}"
        return f"{between}, nearer {self.nearer}"

    @property
    def nearer(self) -> str:
        """The cone the reading is nearer to."""
        return self.cone if self.fraction < HALF_WAY else self.next_cone


def degrees_past_c(table: CurveTable, progress: Floats) -> Floats:
    """Degrees past (+) or short of (-) each end point, as if at 60 °C/h [°C].

    Parameters
    ----------
    table : CurveTable
        The cones.
    progress : ndarray, shape (cones,)
        How far along its fall each cone is; 0 gives minus infinity.
    """
    span_c = np.where(progress < 1, table.low_span_c, table.high_span_c)
    with np.errstate(divide="ignore"):
        past: Floats = span_c * np.log(progress)
    return past


def read_chain(table: CurveTable, progress: Floats) -> ConeReading:
    """Read the chain of full cones.

    Parameters
    ----------
    table : CurveTable
        The cones.
    progress : ndarray, shape (cones,)
        How far along its fall each cone is.

    Returns
    -------
    ConeReading
        From the *last* cone that is down, also where an earlier one still stands.
    """
    chain = table.chain
    down = [i for i in chain if progress[i] >= DOWN]
    if not down:
        return _outside(table, Place.BELOW)
    last = down[-1]
    if last == chain[-1]:
        if progress[last] > JUST_DOWN:
            return _outside(table, Place.ABOVE)
        return _between(table, last, last, 0.0)
    after = chain[chain.index(last) + 1]
    past_c = degrees_past_c(table, progress)
    ahead_c = max(float(past_c[last]), 0.0)
    return _between(table, last, after, ahead_c / (ahead_c - float(past_c[after])))


def reading_at(table: CurveTable, equivalent_c: float) -> ConeReading:
    """Turn an end temperature at 60 °C/h into a reading.

    Parameters
    ----------
    table : CurveTable
        The cones; the end points of its full ones must rise.
    equivalent_c : float
        End of a steady climb at 60 °C/h [°C].
    """
    chain = list(table.chain)
    ends_c = table.ordinary_c[chain]
    at = int(np.searchsorted(ends_c, equivalent_c, side="right")) - 1
    if at < 0:
        return _outside(table, Place.BELOW)
    if at == len(chain) - 1:
        if equivalent_c > ends_c[at]:
            return _outside(table, Place.ABOVE)
        return _between(table, chain[at], chain[at], 0.0)
    share = (equivalent_c - ends_c[at]) / (ends_c[at + 1] - ends_c[at])
    return _between(table, chain[at], chain[at + 1], float(share))


def crossed(table: CurveTable, progress: Floats) -> tuple[str, str] | None:
    """Find a full cone that stands although the next higher one is down."""
    chain = table.chain
    for lower, higher in pairwise(chain):
        if progress[lower] < DOWN <= progress[higher]:
            return table.cones[lower], table.cones[higher]
    return None


def by_cone(table: CurveTable, progress: Floats) -> Mapping[str, float]:
    """Progress by the name of the cone, half cones too."""
    return dict(zip(table.cones, progress.tolist(), strict=True))


def _outside(table: CurveTable, place: Place) -> ConeReading:
    """Say which end of the table the firing lies beyond."""
    end = table.chain[0] if place is Place.BELOW else table.chain[-1]
    return ConeReading(place, table.cones[end], table.cones[end], 0.0, None)


def _between(table: CurveTable, last: int, after: int, share: float) -> ConeReading:
    """Say where between two cones the firing lies."""
    from_c, to_c = float(table.ordinary_c[last]), float(table.ordinary_c[after])
    equivalent_c = from_c + share * (to_c - from_c)
    return ConeReading(Place.WITHIN, table.cones[last], table.cones[after], share, equivalent_c)
