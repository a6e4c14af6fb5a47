"""How far a cone reading from a log can be trusted.

The probe rules: a couple that was never compared with a cone pack may be nine
degrees off for good and six more from firing to firing. Then come the lines of
the log (read by hand, rounded, with gaps between them), the cone's own spread,
how holds count, and the form of the law. All are carried as degrees at 60 °C/h.

Sources
-------
The sizes are common practice of the project, not measured in one kiln; what
stands behind them is a simulation of hand logs, kept among the tests, in which
the interval holds the true reading about nine times in ten. That a hold is known
to half a cone at best follows from reports of potters, which go both ways by a
factor of two in time.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import hypot, log

from wareboard.core.answer import Interval
from wareboard.core.arrays import Floats, np
from wareboard.core.doubt import NORMAL_90
from wareboard.core.firing.chain import ConeReading, degrees_past_c, reading_at
from wareboard.core.firing.curves import CurveTable
from wareboard.core.firing.heatwork import log_pieces, piece_progress, progress
from wareboard.core.firing.log import FiringLog
from wareboard.core.firing.second_opinion import OwnLaw, own_law_progress

FIRING_TO_FIRING_C = 6.0
PROBE_C = 9.0
PACK_C = 2.5
LINE_C = 1.5
DRIFT_C = 3.0
CONE_C = 2.0
FORM_C = 1.5
HOLD_LAW = 0.3
HOLD_C_H = 15.0
HOLD_SHARE = 0.1
HALF_CONE = 0.5
WINDOW_H = 1 / 3
ROUGHEST_C_H = 80.0
GAP_H = 1.5
FASTEST_C_H = 300.0
GAP_SHARE = 0.05
HAND_STEPS_C = (10.0, 5.0, 2.0, 1.0)


@dataclass(frozen=True)
class Probe:
    """What cone packs have told about a probe so far.

    Attributes
    ----------
    offset_c : float
        To be added to what the log says [°C].
    sd_c : float
        What is left uncertain in one more firing [°C].
    packs : int
        How many firings had a pack to compare.
    """

    offset_c: float
    sd_c: float
    packs: int


def probe_from_packs(seen_less_read_c: Sequence[float] = ()) -> Probe:
    """Learn the offset of a probe from firings that had a cone pack.

    Parameters
    ----------
    seen_less_read_c : sequence of float
        For each firing: the pack's equivalent temperature less the log's, both
        at 60 °C/h [°C].

    Returns
    -------
    Probe
        A mean drawn towards no offset, the more so the fewer the packs.
    """
    one = FIRING_TO_FIRING_C**2 + PACK_C**2
    packs = len(seen_less_read_c)
    offset_c = sum(seen_less_read_c) / (packs + one / PROBE_C**2)
    left = 1 / (1 / PROBE_C**2 + packs / one)
    return Probe(offset_c, (FIRING_TO_FIRING_C**2 + left) ** 0.5, packs)


UNKNOWN_PROBE = probe_from_packs()


@dataclass(frozen=True)
class ReadingDoubt:
    """The 90 % interval of a reading.

    Attributes
    ----------
    equivalent_c : Interval
        In degrees at 60 °C/h [°C].
    low, high : ConeReading
        The same in cones; beyond the table where the interval reaches over it.
    parts_c : mapping of str to float
        Standard deviation of each part [°C].
    hold_share : float
        Share of the heat-work that fell while the kiln climbed or fell by less
        than 15 °C/h.
    cautions : tuple of str
        What a page must show.
    """

    equivalent_c: Interval
    low: ConeReading
    high: ConeReading
    parts_c: Mapping[str, float]
    hold_share: float
    cautions: tuple[str, ...] = field(default=())


def doubt_of_reading(
    table: CurveTable,
    log_: FiringLog,
    reading: ConeReading,
    *,
    probe: Probe = UNKNOWN_PROBE,
    laws: Mapping[str, OwnLaw] | None = None,
) -> ReadingDoubt | None:
    """Give the interval of a reading.

    Parameters
    ----------
    table : CurveTable
        The cones it was read with.
    log_ : FiringLog
        The part of the firing it is for.
    reading : ConeReading
        What was read.
    probe : Probe
        What cone packs have told about the thermocouple.
    laws : mapping of str to OwnLaw, optional
        A second law for each cone; without it the form of the law is doubted by
        1.5 °C.

    Returns
    -------
    ReadingDoubt or None
        None where there is no reading.
    """
    if reading.equivalent_c is None:
        return None
    one = table.only([reading.nearer])
    pieces = log_pieces(log_)
    gained = piece_progress(one, *pieces)[0]
    shares = gained / gained.sum()
    span_c = float(one.low_span_c[0])
    hold_share = _hold_share(log_, gained)
    law = (laws or {}).get(reading.nearer)
    parts_c = {
        "probe": probe.sd_c,
        "lines": _lines_sd_c(log_, shares),
        "drift": DRIFT_C,
        "cone": CONE_C,
        "holds": HOLD_LAW * span_c * hold_share,
        "form": FORM_C if law is None else _form_c(one, log_, law),
    }
    half_c = NORMAL_90 * hypot(*parts_c.values())
    low_c, high_c = reading.equivalent_c - half_c, reading.equivalent_c + half_c
    cautions: list[str] = []
    held = hold_share >= HOLD_SHARE
    if held:
        low_c = min(low_c, _cones_away_c(table, reading, -HALF_CONE))
        high_c = max(high_c, _cones_away_c(table, reading, HALF_CONE))
        cautions.append(
            f"{hold_share:.0%} of the heat-work fell while holding: the reading is known to half "
            "a cone at best."
        )
    less_c, more_c, said = _gaps(one, log_, gained)
    low_c, high_c = low_c - less_c, high_c + more_c
    interval = Interval(low_c, high_c, _basis(probe, held=held, second=law is not None))
    return ReadingDoubt(
        interval,
        reading_at(table, low_c),
        reading_at(table, high_c),
        parts_c,
        hold_share,
        (*cautions, *said),
    )


def _basis(probe: Probe, *, held: bool, second: bool) -> str:
    """Say in words what the interval rests on."""
    packs = (
        "a thermocouple not yet compared with a cone pack"
        if not probe.packs
        else f"a thermocouple compared with {probe.packs} cone pack"
        + ("s" if probe.packs > 1 else "")
    )
    form = "a second law of heat-work" if second else "the usual gap between laws of heat-work"
    hold = ", holds to half a cone" if held else ""
    return f"{packs}, the lines of the log, the cone's own spread, {form}{hold}"


def _lines_sd_c(log_: FiringLog, shares: Floats) -> float:
    """Error that comes from how the log was kept [°C].

    Each piece counts by its share of the heat-work: reading error, rounding,
    and what the kiln may have done between two lines.
    """
    rounding_c = _step_c(log_.temp_c) / 12**0.5
    gaps = np.minimum(np.diff(log_.hours), GAP_H)
    changes = np.diff(np.diff(log_.temp_c) / np.diff(log_.hours))
    rough = min(float(np.std(changes)), ROUGHEST_C_H) if changes.size else 0.0
    variance = LINE_C**2 + rounding_c**2 + (rough * gaps / 4) ** 2
    return float(np.sqrt(shares**2 @ variance))


def _step_c(temp_c: Floats) -> float:
    """Find the step a hand log was rounded to [°C]; 0 where there is none to see."""
    return next((step for step in HAND_STEPS_C if not np.any(temp_c % step)), 0.0)


def _hold_share(log_: FiringLog, gained: Floats) -> float:
    """Share of the heat-work gained at less than 15 °C/h, over windows of 20 minutes."""
    window = np.floor((log_.hours - log_.hours[0]) / WINDOW_H)
    first = np.flatnonzero(np.diff(window, prepend=-1.0))
    marks = np.unique(np.append(first, (log_.peak, log_.hours.size - 1)))
    so_far = np.concatenate(([0.0], np.cumsum(gained)))[marks]
    rates = np.diff(log_.temp_c[marks]) / np.diff(log_.hours[marks])
    return float(np.diff(so_far) @ (np.abs(rates) < HOLD_C_H) / so_far[-1])


def _form_c(one: CurveTable, log_: FiringLog, law: OwnLaw) -> float:
    """Gap between the two laws for one cone [°C]."""
    both = np.array([progress(one, log_)[0], own_law_progress(law, log_)])
    past_c = [float(degrees_past_c(one, both[i : i + 1])[0]) for i in range(2)]
    return abs(past_c[1] - past_c[0])


def _cones_away_c(table: CurveTable, reading: ConeReading, cones: float) -> float:
    """Equivalent temperature some cones up or down the chain [°C]."""
    chain = list(table.chain)
    ends_c = table.ordinary_c[chain]
    names = [table.cones[i] for i in chain]
    steps = np.arange(-1, len(chain) + 1)
    ends_c = np.concatenate(([2 * ends_c[0] - ends_c[1]], ends_c, [2 * ends_c[-1] - ends_c[-2]]))
    return float(np.interp(names.index(reading.cone) + reading.fraction + cones, steps, ends_c))


def _gaps(one: CurveTable, log_: FiringLog, gained: Floats) -> tuple[float, float, list[str]]:
    """Widen for long stretches without a line: the kiln may have waited at either end.

    Between the ends it is given 300 °C/h, faster than a studio kiln climbs near the
    top.

    Returns
    -------
    less_c, more_c : float
        How much lower and higher the reading may be for it [°C].
    cautions : list of str
        One sentence a gap.
    """
    from_c, to_c, hours = log_pieces(log_)
    total = float(gained.sum())
    long = np.flatnonzero((hours > GAP_H) & (gained > GAP_SHARE * total) & (from_c != to_c))
    least, most = gained.copy(), gained.copy()
    said: list[str] = []
    for i in long:
        quick_h = min(abs(to_c[i] - from_c[i]) / FASTEST_C_H, hours[i])
        begins_c = np.array([from_c[i], from_c[i], to_c[i]])
        ends_c = np.array([to_c[i], from_c[i], to_c[i]])
        lasts = np.array([quick_h, hours[i] - quick_h, hours[i] - quick_h])
        quick, *held = piece_progress(one, begins_c, ends_c, lasts)[0]
        least[i], most[i] = quick + min(held), quick + max(held)
        said.append(
            f"No line for {hours[i]:.1f} h between {from_c[i]:.0f} and {to_c[i]:.0f} °C, where "
            f"{gained[i] / total:.0%} of the heat-work fell: a straight line is taken, and the "
            "doubt reaches from a wait at one end to a wait at the other."
        )
    span_c = float(max(one.low_span_c[0], one.high_span_c[0]))
    return span_c * log(total / least.sum()), span_c * log(most.sum() / total), said
