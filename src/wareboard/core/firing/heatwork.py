"""Heat-work: how far along its fall each cone is after a log.

A cone is down when ``P = ∫ k(T) dt`` reaches one. With ``G(T) = exp(L(T))``, the
steady rate that drops the cone at T, and ``k = dG/dT``, a straight piece of the
log from T0 to T1 in Δt adds exactly ``Δt (G(T1) - G(T0)) / (T1 - T0)``, and a
hold adds ``Δt k(T)``. Nothing is stepped through, so extra lines on the same
straight pieces change nothing.

Two routes lead to the same number. ``piece_progress`` takes each piece for
itself. ``progress`` collects the pieces by temperature first: written over the
lines, ``P = Σ G(T_i) w_i + Σ k(T_i) f_i`` with ``w_i = Δt/ΔT before - Δt/ΔT after``
and f the hours held, and w and f are the same for every cone. Within a quarter
of a degree G and k are one exponential, so their powers of the offset from the
top of that cell are summed for all cones together.
"""

from dataclasses import dataclass

from wareboard.core.arrays import Bools, Floats, np
from wareboard.core.errors import LogError
from wareboard.core.firing.curves import GRACE_C, CurveTable
from wareboard.core.firing.log import FiringLog, firing_log

CELLS_PER_DEGREE = 4
NEARLY_FLAT_C = 1e-4
"""Pieces that climb less are taken one by one: the difference G(T1) - G(T0) would
lose digits."""

PIECES_AT_ONCE = 20_000
CELLS_PER_BLOCK = 64
SMALLEST = 1e-15
"""Powers of the offset stop where the next would add less than this share."""


def piece_progress(table: CurveTable, from_c: Floats, to_c: Floats, hours: Floats) -> Floats:
    """Heat-work of straight pieces, each for itself.

    Parameters
    ----------
    table : CurveTable
        The cones.
    from_c, to_c : ndarray, shape (n,)
        Temperature at both ends of each piece [°C].
    hours : ndarray, shape (n,)
        How long each piece lasts [h].

    Returns
    -------
    ndarray, shape (cones, n)
        What each piece adds to the progress of each cone.
    """
    bend = table.bend_c[:, np.newaxis]
    rate = table.bend_rate_c_h[:, np.newaxis]
    cool, warm = np.minimum(from_c, to_c), np.maximum(from_c, to_c)
    width = warm - cool
    up_to_bend = warm - GRACE_C <= bend
    held_on_bend = up_to_bend & (bend <= cool + GRACE_C)
    below = np.where(held_on_bend, width, np.clip(bend - cool, 0.0, width))
    above = width - below
    flat = width == 0
    share_below = np.where(flat, up_to_bend, below / np.where(flat, 1.0, width))
    total = np.zeros(below.shape)
    for span, top, part, share in (
        (table.low_span_c, np.minimum(warm, bend), below, share_below),
        (table.high_span_c, warm, above, 1.0 - share_below),
    ):
        span_c = span[:, np.newaxis]
        used = np.where(share > 0, share, 0.0)
        reach = np.where(share > 0, (top - bend) / span_c, -np.inf)
        total += used * rate / span_c * np.exp(reach) * _mean_fall(part / span_c)
    return total * hours


def _mean_fall(width: Floats) -> Floats:
    """Mean of exp(-x) for x from 0 to the width; 1 where the width is 0."""
    safe = np.where(width == 0, 1.0, width)
    mean: Floats = np.where(width == 0, 1.0, -np.expm1(-safe) / safe)
    return mean


def log_pieces(log: FiringLog) -> tuple[Floats, Floats, Floats]:
    """Take a log apart into its straight pieces: from [°C], to [°C], hours."""
    return log.temp_c[:-1], log.temp_c[1:], np.diff(log.hours)


def progress(table: CurveTable, log: FiringLog) -> Floats:
    """How far along its fall each cone is after the whole log.

    Parameters
    ----------
    table : CurveTable
        The cones.
    log : FiringLog
        The firing, cooling included if it is in the log.

    Returns
    -------
    ndarray, shape (cones,)
        0 before the fire, 1 when the cone is down, more when it is past that.

    Notes
    -----
    ``P = ∫ exp(L(T)) / s dt`` with L the logarithm of the steady rate that drops
    the cone at T and s the degrees for an e-fold of it. A hold exactly at a
    printed point belongs to the stretch below.
    """
    if np.any(table.bend_c * CELLS_PER_DEGREE % 1.0):
        return _piece_by_piece(table, *log_pieces(log))
    temp_c, gaps = log.temp_c, np.diff(log.hours)
    if not gaps.size:
        return np.zeros(len(table.curves))
    climb = np.diff(temp_c)
    slow = np.abs(climb) < NEARLY_FLAT_C
    held = np.flatnonzero(climb == 0)
    creeping = held[:0]
    if held.size < np.count_nonzero(slow):
        creeping = np.flatnonzero(slow & (climb != 0))
    total = _by_cells(
        table,
        _Amounts(temp_c, _bends_of_climb(gaps, climb, slow)),
        _Amounts(temp_c[held], gaps[held], grace_c=GRACE_C),
    )
    if creeping.size:
        pieces = temp_c[creeping], temp_c[creeping + 1], gaps[creeping]
        total += _piece_by_piece(table, *pieces)
    return total


def _bends_of_climb(gaps: Floats, climb: Floats, slow: Bools) -> Floats:
    """Hours per degree before each line less those after it; none on slow pieces."""
    hours_per_c = gaps / np.where(slow, np.inf, climb)
    bends = np.empty(gaps.size + 1)
    bends[0], bends[-1] = -hours_per_c[0], hours_per_c[-1]
    np.subtract(hours_per_c[:-1], hours_per_c[1:], out=bends[1:-1])
    return bends


def _piece_by_piece(table: CurveTable, from_c: Floats, to_c: Floats, hours: Floats) -> Floats:
    """Add up the pieces one by one, some at a time to spare memory."""
    total = np.zeros(len(table.curves))
    for start in range(0, hours.size, PIECES_AT_ONCE):
        part = slice(start, start + PIECES_AT_ONCE)
        total += piece_progress(table, from_c[part], to_c[part], hours[part]).sum(axis=1)
    return total


class _Amounts:
    """Amounts at temperatures, to be added up by quarter degree.

    A cell holds the temperatures above its lower end, up to and with its upper
    end, so that a printed point belongs to the stretch below it.
    """

    def __init__(self, temp_c: Floats, amount: Floats, *, grace_c: float = 0.0) -> None:
        self.amount = amount
        self.quarters = temp_c * CELLS_PER_DEGREE
        self.top = np.ceil((temp_c - grace_c) * CELLS_PER_DEGREE if grace_c else self.quarters)

    @property
    def on_tops(self) -> bool:
        """Whether every temperature is the upper end of its cell."""
        return bool((self.quarters == self.top).all())

    def by_power(self, first: float, cells: int, powers: int, middle: float) -> Floats:
        """Sum ``amount · offset^m / m!`` in each cell, for m from 0 to ``powers - 1``."""
        place = (self.top - first).astype(np.intp)
        sums = np.empty((powers, cells))
        sums[0] = np.bincount(place, self.amount, cells)
        if powers > 1:
            offset_c = (self.quarters - self.top - middle) / CELLS_PER_DEGREE
            term = self.amount
            for power in range(1, powers):
                term = term * offset_c
                term /= power
                sums[power] = np.bincount(place, term, cells)
        return sums


def _by_cells(table: CurveTable, climbs: _Amounts, holds: _Amounts) -> Floats:
    """Add up climbs and holds by quarter degree, all cones from the same sums."""
    powers, middle = 1, 0.0
    if not climbs.on_tops:
        middle = -0.5
        narrowest = min(table.low_span_c.min(), table.high_span_c.min())
        powers = _powers_needed(0.5 / CELLS_PER_DEGREE / narrowest)
    first = climbs.top.min(initial=holds.top.min(initial=np.inf))
    blocks = int((climbs.top.max() - first) // CELLS_PER_BLOCK) + 1
    cells = blocks * CELLS_PER_BLOCK
    sums = np.concatenate([x.by_power(first, cells, powers, middle) for x in (climbs, holds)])
    first_c = (first + middle) / CELLS_PER_DEGREE
    total = np.zeros(len(table.curves))
    for span_c, is_low in ((table.low_span_c, True), (table.high_span_c, False)):
        found = _weigh(
            sums.reshape(2 * powers, blocks, CELLS_PER_BLOCK),
            first_c,
            table.bend_c,
            span_c,
            is_low=is_low,
        )
        scale = span_c ** -np.arange(powers)[:, np.newaxis]
        total += np.sum((found[:powers] + found[powers:] / span_c) * scale, axis=0)
    return total * table.bend_rate_c_h


def _weigh(sums: Floats, first_c: float, bend_c: Floats, span_c: Floats, *, is_low: bool) -> Floats:
    """Sum ``exp((T - bend) / span)`` times each row of sums on one side of the bends.

    Returns
    -------
    ndarray, shape (rows, cones)

    Notes
    -----
    The exponential over a block of cells is that of the block's first cell times
    one short row that all blocks share; only the block a bend lies in is cut.
    """
    blocks = sums.shape[1]
    within_c = np.arange(CELLS_PER_BLOCK) / CELLS_PER_DEGREE
    start_c = first_c + np.arange(blocks) * CELLS_PER_BLOCK / CELLS_PER_DEGREE
    at_bend = np.searchsorted(start_c, bend_c, side="right") - 1
    side = np.arange(blocks)[:, np.newaxis] - at_bend
    beside = side < 0 if is_low else side > 0
    whole = np.exp(np.where(beside, (start_c[:, np.newaxis] - bend_c) / span_c, -np.inf))
    inside = np.exp(within_c[:, np.newaxis] / span_c)
    found: Floats = np.einsum("rbc,bc->rc", (sums @ inside), whole)
    cut = np.flatnonzero(at_bend >= 0)
    here_c = start_c[at_bend[cut]] + within_c[:, np.newaxis] - bend_c[cut]
    shares = np.exp(np.where((here_c <= 0) == is_low, here_c / span_c[cut], -np.inf))
    found[:, cut] += np.einsum("rcj,jc->rc", sums[:, at_bend[cut]], shares)
    return found


def _powers_needed(reach: float) -> int:
    """How many terms of exp(x) it takes for x up to ``reach``."""
    powers, term = 1, reach
    while term > SMALLEST:
        powers += 1
        term *= reach / powers
    return powers


@dataclass(frozen=True, eq=False)
class Running:
    """Heat-work of a firing that is still going on, up to its last line.

    Attributes
    ----------
    table : CurveTable
        The cones.
    hours, temp_c : float
        The last line [h] and [°C].
    progress : ndarray, shape (cones,)
        How far along its fall each cone is by then.
    """

    table: CurveTable
    hours: float
    temp_c: float
    progress: Floats

    def after(self, hours: float, temp_c: float) -> "Running":
        """Add one more line, without going over the log again.

        Raises
        ------
        LogError
            If the line is not later than the last one, or cannot be.
        """
        log = firing_log([self.hours, hours], [self.temp_c, temp_c])
        if log.now_hours != hours:
            raise LogError(
                f"A line at {hours:g} h comes after one at {self.hours:g} h: read the log anew.",
                field="hours",
                seen=hours,
                accepted=f"more than {self.hours:g} h",
            )
        more = piece_progress(self.table, *log_pieces(log))[:, 0]
        return Running(self.table, hours, temp_c, self.progress + more)


def running(table: CurveTable, log: FiringLog) -> Running:
    """Work a log out once, to be carried on line by line."""
    return Running(table, log.now_hours, log.now_c, progress(table, log))
