"""How a cone trades time for temperature: its published points turned round.

A cone's chart prints the temperature at which it falls for two or three steady
rates. Read the other way it gives, for every temperature, the steady rate that
would have dropped the cone there: ``ln rate`` on straight lines through the
printed points, carried on straight beyond both ends. Nothing is fitted, so a
steady climb meets every printed number.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import log

from wareboard.core.arrays import Floats, np
from wareboard.core.errors import LogError

ORDINARY_RATE_C_H = 60.0
"""The rate that equivalent temperatures are given for."""

GRACE_C = 1e-10
"""A hold this close above a printed point is a hold on it: rounding, not heat."""


@dataclass(frozen=True)
class ConeCurve:
    """The printed points of one cone.

    Attributes
    ----------
    cone : str
        Its name on the chart, such as ``"04"`` or ``"5.5"``.
    points : tuple of (float, float)
        Rate [°C/h] and the temperature where the cone falls at it [°C], from
        the slowest to the fastest: two or three of them.
    slow_span_c : float or None
        For a cone with no point below 60 °C/h: the degrees for which the rate
        grows e-fold below its 60 °C/h point [°C], lent by another form of the
        same cone. None takes the one stretch there is.
    from_memory : bool
        Whether any of the points waits to be checked against the chart.
    """

    cone: str
    points: tuple[tuple[float, float], ...]
    slow_span_c: float | None = None
    from_memory: bool = False

    def __post_init__(self) -> None:
        """Refuse points that no cone can have."""
        rates, temps = zip(*self.points, strict=True) if self.points else ((), ())
        if len(self.points) not in {2, 3} or any(
            not 0 < a < b for row in (rates, temps) for a, b in pairwise(row)
        ):
            raise LogError(
                f"Cone {self.cone} needs two or three points that rise in rate and temperature.",
                field="cones",
                seen=self.points,
                accepted="two or three (rate, temperature) points, both rising",
            )

    @property
    def is_half(self) -> bool:
        """Whether it is a half cone, which stays out of the chain of readings."""
        return self.cone.endswith(".5")

    @property
    def spans_c(self) -> tuple[float, float]:
        """Degrees for an e-fold rate below and above the bend of the curve [°C]."""
        spans = tuple(
            (warm - cool) / log(fast / slow) for (slow, cool), (fast, warm) in pairwise(self.points)
        )
        return self.slow_span_c or spans[0], spans[-1]

    @property
    def bend(self) -> tuple[float, float]:
        """Rate and temperature of the point where the two stretches meet."""
        return self.points[-2]


def lend_slopes(curves: Iterable[ConeCurve], lenders: Iterable[ConeCurve]) -> tuple[ConeCurve, ...]:
    """Give two-point curves the slow stretch of the same cone in another form.

    Parameters
    ----------
    curves : iterable of ConeCurve
        Curves that may lack a slow point.
    lenders : iterable of ConeCurve
        Curves of a form that has it, by the same cone names.

    Returns
    -------
    tuple of ConeCurve
        In the order of ``curves``; a cone with no lender keeps its one stretch.
    """
    spans = {curve.cone: curve.spans_c[0] for curve in lenders}
    return tuple(
        ConeCurve(curve.cone, curve.points, spans[curve.cone], curve.from_memory)
        if len(curve.points) == 2 and curve.cone in spans  # noqa: PLR2004  # two printed points
        else curve
        for curve in curves
    )


@dataclass(frozen=True, eq=False)
class CurveTable:
    """Curves of one series as columns, coolest cone first.

    Attributes
    ----------
    curves : tuple of ConeCurve
        What the columns were made from.
    bend_c, bend_rate_c_h : ndarray, shape (cones,)
        Where the two stretches of each cone meet [°C] and [°C/h].
    low_span_c, high_span_c : ndarray, shape (cones,)
        Degrees for an e-fold rate below and above that point [°C].
    """

    curves: tuple[ConeCurve, ...]
    bend_c: Floats
    bend_rate_c_h: Floats
    low_span_c: Floats
    high_span_c: Floats

    @property
    def cones(self) -> tuple[str, ...]:
        """Names of the cones, coolest first."""
        return tuple(curve.cone for curve in self.curves)

    @property
    def ordinary_c(self) -> Floats:
        """Where each cone falls at 60 °C/h [°C]."""
        above = np.log(ORDINARY_RATE_C_H / self.bend_rate_c_h)
        span = np.where(above <= 0, self.low_span_c, self.high_span_c)
        falls: Floats = self.bend_c + span * above
        return falls

    @property
    def chain(self) -> tuple[int, ...]:
        """Places of the full cones, coolest first."""
        return tuple(i for i, curve in enumerate(self.curves) if not curve.is_half)

    def only(self, cones: Sequence[str]) -> "CurveTable":
        """Keep some cones, in the order of the table.

        Raises
        ------
        LogError
            If a cone is not in the table.
        """
        for cone in cones:
            if cone not in self.cones:
                raise LogError(
                    f"Cone {cone} is not in this table, which runs from cone {self.cones[0]} "
                    f"to cone {self.cones[-1]}.",
                    field="cone",
                    seen=cone,
                    accepted=", ".join(self.cones),
                )
        return curve_table([curve for curve in self.curves if curve.cone in cones])


def curve_table(curves: Iterable[ConeCurve]) -> CurveTable:
    """Turn curves into the columns the arithmetic needs.

    Parameters
    ----------
    curves : iterable of ConeCurve
        At least one, coolest first.

    Raises
    ------
    LogError
        If there is no curve.
    """
    kept = tuple(curves)
    if not kept:
        raise LogError(
            "There is no cone to read the log by.",
            field="cones",
            seen=(),
            accepted="at least one cone",
        )
    bends = np.array([curve.bend for curve in kept])
    spans = np.array([curve.spans_c for curve in kept])
    return CurveTable(kept, bends[:, 1], bends[:, 0], spans[:, 0], spans[:, 1])
