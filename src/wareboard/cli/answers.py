"""Show an answer: as one JSON object, or in a few lines for people."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, is_dataclass
from math import floor, isfinite, log10
from typing import Any

from wareboard.core.answer import Answer, Interval

EN_DASH = "–"
USUAL_DIGITS = 4


@dataclass(frozen=True)
class Told:
    """What a calculation has to say.

    Attributes
    ----------
    answer : Answer
        From the core.
    lines : sequence of str
        The answer in words, with its doubt.
    given : mapping of str to object
        What it rests on beyond the options, for example the lines of a file;
        wins over an option of the same name.
    cautions : sequence of str
        From reading the files; shown before those of the answer.
    """

    answer: Answer[Any]
    lines: Sequence[str]
    given: Mapping[str, object] | None = None
    cautions: Sequence[str] = ()


def as_object(name: str, told: Told, given: Mapping[str, object]) -> str:
    """Write an answer as one JSON object in one line.

    Parameters
    ----------
    name : str
        Name of the calculation.
    told : Told
        What it found.
    given : mapping of str to object
        The options as they were read.

    Returns
    -------
    str
        JSON without line end; numbers in full, none that is not finite.
    """
    import json  # noqa: PLC0415 - only where it was asked for

    whole = {
        "reckoned": name,
        "given": plain({**given, **(told.given or {})}),
        "result": plain(told.answer.result),
        "doubt": {key: plain(interval) for key, interval in told.answer.doubt.items()},
        "working": list(told.answer.working),
        "cautions": _once([*told.cautions, *told.answer.cautions]),
        "sources": list(told.answer.sources),
    }
    return json.dumps(whole, allow_nan=False)


def as_lines(told: Told) -> list[str]:
    """Write an answer for people: the answer, a line of working, the cautions."""
    working = [f"  {line}" for line in told.answer.working[:1]]
    cautions = [f"  Mind: {caution}" for caution in _once([*told.cautions, *told.answer.cautions])]
    return [*told.lines, *working, *cautions]


def plain(value: object) -> object:
    """Turn a result into what JSON can hold; what is not finite becomes null."""
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    if isinstance(value, float):
        return float(value) if isfinite(value) else None
    return value


def about(value: float | None, doubt: Interval | None, unit: str = "") -> str:
    """Say a number no finer than its doubt.

    Parameters
    ----------
    value : float or None
        The number; None where it cannot be told.
    doubt : Interval, optional
        Its 90 % interval; four digits are shown where there is none.
    unit : str
        Written behind the number.

    Returns
    -------
    str
        For example ``about 22 g (21–23)``.

    Examples
    --------
    >>> about(22.3, Interval(21.2, 23.3, "scale"), "g")
    'about 22 g (21–23)'
    """
    behind = f" {unit}" if unit else ""
    if value is None:
        return "not to be told"
    if doubt is None or doubt.high <= doubt.low:
        return f"{rounded(value)}{behind}"
    places = -floor(log10((doubt.high - doubt.low) / 2.0))
    middle, low, high = (_to_places(x, places) for x in (value, doubt.low, doubt.high))
    to = " to " if doubt.low < 0.0 else EN_DASH
    return f"about {middle}{behind} ({low}{to}{high})"


def rounded(value: float, digits: int = USUAL_DIGITS) -> str:
    """Write a number with so many digits at most, never with an exponent."""
    if value == 0.0:
        return "0"
    text = _to_places(value, digits - 1 - floor(log10(abs(value))))
    return text.rstrip("0").rstrip(".") if "." in text else text


def _to_places(value: float, places: int) -> str:
    return f"{round(value, places) + 0.0:.{max(places, 0)}f}"


def _once(sentences: Sequence[str]) -> list[str]:
    return list(dict.fromkeys(sentences))
