"""A firing so far, over the grey ghost of the good one.

Read it from the ghost: where the line lies below it the kiln is behind, where it
is steeper the kiln is catching up. Both start at lighting. What is still to come
is a band, not a line, because it is in doubt.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wareboard.core.errors import LogError

from .theme import TOKENS, Light, Spec, dressed

if TYPE_CHECKING:
    import altair as alt

Reading = tuple[float, float]
Band = tuple[float, float, float]
Mark = tuple[float, str]

LETTER = 0.03
"""How wide a letter of a word is, as a part of the time drawn; on a telephone, where it is most."""

CLEAR, LINE = 0.05, 0.12
"""How far a word keeps from a line, and how high it is, as parts of the range of temperatures."""


def firing_curve(
    log: Sequence[Reading],
    *,
    good: Sequence[Reading] = (),
    good_name: str = "",
    now: str = "",
    ahead: Sequence[Band] = (),
    marks: Sequence[Mark] = (),
    light: Light = "light",
    hours_title: str = "hours since lighting",
    temp_title: str = "temperature [°C]",
    width_px: int | None = None,
    height_px: int = 260,
) -> Spec:
    """Draw a firing log over the good one.

    Parameters
    ----------
    log : sequence of (hours, °C)
        This firing since lighting, in the order of time.
    good : sequence of (hours, °C)
        The firing to compare with, since its own lighting.
    good_name : str
        What stands at the end of the ghost, for example its date.
    now : str
        What stands at the last reading; empty gives the temperature.
    ahead : sequence of (hours, low °C, high °C)
        Where the firing is expected to go, nine times in ten.
    marks : sequence of (hours, word)
        What was done: "reduction", "damper in".
    light : {'light', 'dark'}
        By day, or in the kiln shed at night.
    hours_title, temp_title : str
        Titles of the axes, with their units.
    width_px : int or None
        Width of the chart [px]; None takes what the page gives, which a still cannot.
    height_px : int
        Height of the chart [px].

    Returns
    -------
    dict
        A Vega-Lite specification.

    Raises
    ------
    LogError
        If the log is empty, or a reading is not a number or goes back in time.
    """
    _check(log, "log", least=1)
    _check(good, "good", least=0)
    _check([(hours, low) for hours, low, _ in ahead], "ahead", least=0)
    import altair as alt  # 280 ms, only for who draws a chart

    t = TOKENS[light]
    hours, temp_c = log[-1]
    here = {"h": hours, "c": temp_c, "say": now or f"{temp_c:.0f} °C"}
    seen = [*log, *good, *((h, low) for h, low, _ in ahead), *((h, high) for h, _, high in ahead)]
    last = max(1.0, *(h for h, _ in seen))
    span = max(c for _, c in seen) - min(c for _, c in seen)
    x, y = _axes(last, hours_title, temp_title)
    layers = []
    if ahead:
        rows = [{"h": h, "c": low, "high": high} for h, low, high in ahead]
        layers.append(
            _data(rows).mark_area(color=t.accent, opacity=0.22).encode(x, y, alt.Y2("high:Q"))
        )
    if good:
        ghost = {"h": good[-1][0], "c": good[-1][1], "say": good_name}
        layers.append(_data(_rows(good)).mark_line(color=t.quiet, opacity=0.6).encode(x, y))
        layers += _said([ghost], x, y, colour=t.quiet, halo=t.ground, align="right", dx=0, dy=-12)
    if marks:
        layers += _marked(marks, log, last, x, y, colour=t.quiet, halo=t.ground)
    layers.append(_data(_rows(log)).mark_line(color=t.accent, strokeWidth=4).encode(x, y))
    layers.append(
        _data([here]).mark_point(color=t.accent, filled=True, size=140, opacity=1).encode(x, y)
    )
    edge = _Room(last, min(c for _, c in seen), span)
    layers += _told_here(here, (log, good), edge, x, y, ink=t.ink, halo=t.ground)
    chart = alt.layer(*layers).properties(width=width_px or "container", height=height_px)
    spec = dressed(chart, light)
    spec["padding"] = {"top": 8, "right": 8, "bottom": 4, "left": 4}
    spec["autosize"] = {"type": "fit-x", "contains": "padding"}
    return spec


def _check(log: Sequence[Reading], field: str, *, least: int) -> None:
    if len(log) < least:
        raise LogError(
            "A firing curve needs at least one reading.",
            field=field,
            seen=len(log),
            accepted="one reading or more",
        )
    before = -math.inf
    for hours, temp_c in log:
        if not (math.isfinite(hours) and math.isfinite(temp_c)):
            raise LogError(
                "A firing curve has a reading that is no number.",
                field=field,
                seen=(hours, temp_c),
                accepted="hours since lighting and °C",
            )
        if hours < before:
            raise LogError(
                f"A firing curve goes back in time, from {before:g} to {hours:g} hours.",
                field=field,
                seen=hours,
                accepted="readings in the order of time",
            )
        before = hours


def _rows(log: Sequence[Reading]) -> list[dict[str, Any]]:
    return [{"h": hours, "c": temp_c} for hours, temp_c in log]


def _axes(last: float, hours_title: str, temp_title: str) -> "tuple[alt.X, alt.Y]":
    """Give the two axes; the title of the upright one lies on top, where it can be read."""
    import altair as alt  # 280 ms, only for who draws a chart

    along = alt.Axis(tickMinStep=1, tickCount=6)
    upright = alt.Axis(
        format="d", tickCount=5, titleAngle=0, titleAlign="left", titleX=-44, titleY=-22
    )
    return (
        alt.X("h:Q", title=hours_title, axis=along, scale=alt.Scale(nice=False, domainMax=last)),
        alt.Y("c:Q", title=temp_title, axis=upright, scale=alt.Scale(zero=False, nice=True)),
    )


def _data(rows: list[dict[str, Any]]) -> "alt.Chart":
    import altair as alt  # 280 ms, only for who draws a chart

    return alt.Chart({"values": rows})


def _said(
    rows: list[dict[str, Any]],
    x: "alt.X",
    y: "alt.Y",
    *,
    colour: str,
    halo: str,
    align: str,
    dx: int,
    dy: int,
) -> "list[alt.Chart]":
    """Write a word beside a point, on a halo so that no line runs through it."""
    place: dict[str, Any] = {"align": align, "baseline": "middle", "dx": dx, "dy": dy}
    under = {**place, "stroke": halo, "strokeWidth": 5, "strokeJoin": "round", "color": halo}
    return [
        _data(rows).mark_text(**style).encode(x, y, text="say:N")
        for style in (under, {**place, "color": colour})
    ]


@dataclass(frozen=True)
class _Room:
    """What is drawn: up to which hour, from which temperature on, and how many degrees high."""

    last: float
    lowest: float
    span: float


def _told_here(
    here: dict[str, Any],
    lines: Sequence[Sequence[Reading]],
    room: _Room,
    x: "alt.X",
    y: "alt.Y",
    *,
    ink: str,
    halo: str,
) -> "list[alt.Chart]":
    """Write the last reading beside its point, or under or over it where the lines leave room."""
    import altair as alt  # 280 ms, only for who draws a chart

    hours, temp_c = here["h"], here["c"]
    wide = LETTER * len(here["say"]) * room.last
    if hours + wide + LETTER * room.last <= room.last:
        under = temp_c - room.lowest > 2 * LINE * room.span
        dy = 16 if under else -16
        return _said([here], x, y, colour=ink, halo=halo, align="left", dx=10, dy=dy)
    right = min(room.last, hours + wide / 2)
    left = right - wide
    passed = [temp_c, *(_at(one, left) for one in lines if one and one[0][0] <= left <= one[-1][0])]
    end_c, dy = min(passed) - CLEAR * room.span, 10
    if end_c - LINE * room.span < room.lowest:
        end_c, dy = max(passed) + CLEAR * room.span, -10
    rule = _data([{**here, "end": end_c}]).mark_rule(color=ink, strokeWidth=1)
    word = {"h": right, "c": end_c, "say": here["say"]}
    return [
        rule.encode(x, y, alt.Y2("end:Q")),
        *_said([word], x, y, colour=ink, halo=halo, align="right", dx=0, dy=dy),
    ]


def _marked(
    marks: Sequence[Mark],
    log: Sequence[Reading],
    last: float,
    x: "alt.X",
    y: "alt.Y",
    *,
    colour: str,
    halo: str,
) -> "list[alt.Chart]":
    """Hang a word and a thin line from the log at each thing that was done.

    The word stands after it, clear of the climb, where there is room for it.
    """
    import altair as alt  # 280 ms, only for who draws a chart

    low = min(temp_c for _, temp_c in log)
    rows: list[dict[str, Any]] = [
        {"h": h, "c": low, "high": _at(log, h), "say": word} for h, word in marks
    ]
    line = _data(rows).mark_rule(color=colour, strokeDash=[2, 4]).encode(x, y, alt.Y2("high:Q"))
    layers = [line]
    for row in rows:
        fits = row["h"] + LETTER * (len(row["say"]) + 1) * last <= last
        align, dx = ("left", 6) if fits else ("right", -6)
        layers += _said([row], x, y, colour=colour, halo=halo, align=align, dx=dx, dy=-14)
    return layers


def _at(log: Sequence[Reading], hours: float) -> float:
    """Give the temperature of the log at a time, straight between readings."""
    before = max((r for r in log if r[0] <= hours), default=log[0], key=lambda r: r[0])
    after = min((r for r in log if r[0] >= hours), default=log[-1], key=lambda r: r[0])
    if after[0] == before[0]:
        return before[1]
    return before[1] + (after[1] - before[1]) * (hours - before[0]) / (after[0] - before[0])
