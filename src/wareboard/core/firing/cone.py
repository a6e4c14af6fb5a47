"""Which cone a firing came to: at the peak, and when the kiln was cold.

Cooling counts: a cone in the pack goes on falling while the kiln cools slowly,
so the cone seen through the spyhole at shut-off and the cone found in the cold
pack are two readings, and both are given.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from wareboard.core.answer import Answer, Interval
from wareboard.core.arrays import Floats
from wareboard.core.firing.chain import (
    ConeReading,
    Place,
    by_cone,
    crossed,
    degrees_past_c,
    read_chain,
)
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import FiringLog
from wareboard.core.firing.reading_doubt import (
    UNKNOWN_PROBE,
    Probe,
    ReadingDoubt,
    doubt_of_reading,
)
from wareboard.core.firing.series import ConeSeries

CHART_C_H = (15.0, 150.0)
LAST_C = 100.0


@dataclass(frozen=True)
class ConeStage:
    """What the log says of the cones up to one instant.

    Attributes
    ----------
    reading : str or None
        Such as ``"7+0.12"``; None outside the table.
    equivalent_c : float or None
        End of a steady 60 °C/h climb with the same reading [°C].
    progress : mapping of str to float
        How far along its fall each cone of the table is; 1 is down.
    """

    reading: str | None
    equivalent_c: float | None
    progress: Mapping[str, float]


@dataclass(frozen=True)
class ConeResult(ConeStage):
    """A firing in cones; what stands on top is the cold pack.

    Attributes
    ----------
    at_peak : ConeStage
        To the last instant at the highest temperature, or to shut-off.
    when_cold : ConeStage
        After the whole log.
    """

    at_peak: ConeStage
    when_cold: ConeStage


def reckon_cone(
    series: ConeSeries,
    log: FiringLog,
    *,
    shut_off_hours: float | None = None,
    probe: Probe = UNKNOWN_PROBE,
) -> Answer[ConeResult]:
    """Read a firing log in cones.

    Parameters
    ----------
    series : ConeSeries
        The cones on the shelf.
    log : FiringLog
        The firing.
    shut_off_hours : float, optional
        When the burners went out [h]; the last instant at the highest
        temperature where not given.
    probe : Probe
        What cone packs have told about the thermocouple; its offset is added to
        the log.

    Returns
    -------
    Answer of ConeResult
        Doubt is given for ``equivalent_c``, ``at_peak.equivalent_c`` and
        ``when_cold.equivalent_c``.

    Raises
    ------
    LogError
        If the shut-off lies outside the log.
    """
    cut_hours = log.peak_hours if shut_off_hours is None else shut_off_hours
    parts = {"at_peak": log.until(cut_hours), "when_cold": log}
    stages: dict[str, ConeStage] = {}
    doubt: dict[str, Interval] = {}
    working: list[str] = []
    said: dict[str, list[str]] = {}
    for name, whole in parts.items():
        part = whole.shifted(probe.offset_c)
        reached = progress(series.table, part)
        reading = read_chain(series.table, reached)
        stages[name] = ConeStage(reading.text, reading.equivalent_c, by_cone(series.table, reached))
        working.append(_working(series, reached, reading, name.replace("_", " ")))
        said[name] = _cautions(series, part, reached, reading)
        found = doubt_of_reading(series.table, part, reading, probe=probe, laws=series.laws)
        if found is not None:
            doubt[f"{name}.equivalent_c"] = _in_cones(found)
            said[name] += found.cautions
    if "when_cold.equivalent_c" in doubt:
        doubt["equivalent_c"] = doubt["when_cold.equivalent_c"]
    cold = stages["when_cold"]
    return Answer(
        ConeResult(cold.reading, cold.equivalent_c, cold.progress, **stages),
        doubt,
        tuple(working),
        _together(said["at_peak"], said["when_cold"]),
        series.sources,
    )


def _together(at_peak: list[str], when_cold: list[str]) -> tuple[str, ...]:
    """Say once what holds for both readings, and name the one where it does not."""
    both = [caution for caution in at_peak if caution in when_cold]
    return (
        *both,
        *(f"At the peak: {caution}" for caution in at_peak if caution not in both),
        *(f"When cold: {caution}" for caution in when_cold if caution not in both),
    )


def _in_cones(found: ReadingDoubt) -> Interval:
    """Put the interval in cones in front of what it rests on."""
    inner = found.equivalent_c
    words = f"{found.low.text or found.low.words} to {found.high.text or found.high.words}"
    return Interval(inner.low, inner.high, f"{words}: {inner.basis}")


def _working(series: ConeSeries, reached: Floats, reading: ConeReading, when: str) -> str:
    """Say the arithmetic of one reading in a line."""
    if reading.place is not Place.WITHIN:
        return f"{when}: {reading.words}"
    table = series.table
    past_c = degrees_past_c(table, reached)
    last, after = table.cones.index(reading.cone), table.cones.index(reading.next_cone)
    return (
        f"{when}: cone {reading.cone} has had {reached[last]:.3f} of its heat-work "
        f"({past_c[last]:+.1f} °C), cone {reading.next_cone} {reached[after]:.3f} "
        f"({past_c[after]:+.1f} °C): {reading.text}, like {reading.equivalent_c:.1f} °C at 60 °C/h"
    )


def _cautions(
    series: ConeSeries, log: FiringLog, reached: Floats, reading: ConeReading
) -> list[str]:
    """Name what must be said beside a reading."""
    if reading.place is not Place.WITHIN:
        return [f"The firing is {reading.words}: there is no reading."]
    said: list[str] = []
    cones = crossed(series.table, reached)
    if cones is not None:
        said.append(
            f"Cone {cones[1]} is down while cone {cones[0]} still stands: at this rate their "
            "order is uncertain."
        )
    unsure = [c for c in (reading.cone, reading.next_cone) if series.from_memory(c)]
    if unsure:
        said.append(
            f"A chart value of cone {' and '.join(dict.fromkeys(unsure))} is from memory, not "
            "checked against the maker's sheet."
        )
    rate_c_h = last_climb_c_h(log)
    slowest, fastest = CHART_C_H
    if rate_c_h is not None and not slowest <= rate_c_h <= fastest:
        said.append(
            f"The last {LAST_C:g} °C rose at {rate_c_h:.0f} °C/h; the charts are printed for "
            f"{slowest:g} to {fastest:g} °C/h and are carried on straight."
        )
    return said


def read_log(series: ConeSeries, log: FiringLog) -> ConeReading:
    """Read the whole of a log in cones, without its doubt.

    Parameters
    ----------
    series : ConeSeries
        The cones on the shelf.
    log : FiringLog
        The firing, or the part of it that counts.

    Returns
    -------
    ConeReading
        With its words for a page.
    """
    return read_chain(series.table, progress(series.table, log))


def last_climb_c_h(log: FiringLog) -> float | None:
    """Mean rate of the last 100 °C before the highest temperature [°C/h].

    Parameters
    ----------
    log : FiringLog
        The firing.

    Returns
    -------
    float or None
        From the last time the kiln passed 100 °C below its highest temperature
        to the first time it was there; None where the log does not hold that.
    """
    first = int(log.temp_c.argmax())
    below = log.temp_c[:first] <= log.temp_c[first] - LAST_C
    if not below.any():
        return None
    at = int(below.nonzero()[0][-1])
    cool, warm = log.temp_c[at], log.temp_c[at + 1]
    share = (log.temp_c[first] - LAST_C - cool) / (warm - cool)
    passed = log.hours[at] + share * (log.hours[at + 1] - log.hours[at])
    return float(LAST_C / (log.hours[first] - passed))
