"""Whether a piece of JSON has the shape that it must have.

A shape is a type, ``NUMBER``, ``ANYTHING``, an ``Exactly``, a list of one shape
for all its items, or ``Members``. What a shape does not name may not be there.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Final

NUMBER: Final = "number"
ANYTHING: Final = "anything"


@dataclass(frozen=True, slots=True)
class Exactly:
    """One value and no other."""

    value: object


@dataclass(frozen=True, slots=True)
class Members:
    """An object with members of these shapes: all of the first, any of the second."""

    needed: Mapping[str, Any]
    allowed: Mapping[str, Any] = field(default_factory=dict)


def misfits(value: object, shape: Any, place: str = "") -> Iterator[str]:
    """Find the places where a piece of JSON has not its shape.

    Parameters
    ----------
    value : object
        The piece, as ``json`` reads it.
    shape : shape
        What it should be.
    place : str
        Where it stands.

    Yields
    ------
    str
        The place, such as ``resources[0].schema``, and what is wrong there.

    Examples
    --------
    >>> list(misfits({"a": [1, "b"]}, Members({"a": [NUMBER]})))
    ['a[1] is "b"']
    """
    match shape:
        case Members():
            if not isinstance(value, dict):
                yield _is(place, value)
                return
            shapes = {**shape.needed, **shape.allowed}
            for name in sorted(shape.needed.keys() - value.keys()):
                yield f"{_inside(place, name)} is missing"
            for name, member in value.items():
                if name in shapes:
                    yield from misfits(member, shapes[name], _inside(place, name))
                else:
                    yield f"{_inside(place, name)} does not belong there"
        case [item_shape]:
            if not isinstance(value, list):
                yield _is(place, value)
                return
            for number, item in enumerate(value):
                yield from misfits(item, item_shape, f"{place}[{number}]")
        case _:
            if not _is_simply(value, shape):
                yield _is(place, value)


def _is_simply(value: object, shape: Any) -> bool:
    if isinstance(shape, Exactly):
        return type(value) is type(shape.value) and value == shape.value
    if shape == NUMBER:
        return isinstance(value, (int, float)) and not isinstance(value, bool)
    return shape == ANYTHING or type(value) is shape


def _inside(place: str, name: str) -> str:
    return f"{place}.{name}" if place else name


def _is(place: str, value: object) -> str:
    return f"{place} is {json.dumps(value, ensure_ascii=False)}"
