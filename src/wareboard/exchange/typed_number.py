"""The one reader of numbers, for forms, files and the command line.

It reads in two ways. ``PLAIN`` is for files and options: a sign, ASCII digits,
one point, an optional exponent, and nothing else. ``AS_TYPED`` is for forms,
where people write ``2,5 kg``, ``1 1/2`` or full-width digits: everything
that has one meaning is read, and whatever has two is asked about.

How the digits themselves are read stands in
:mod:`wareboard.exchange.number_text`, the units in
:mod:`wareboard.exchange.units`.

Examples
--------
>>> from wareboard.core.units import MASS_G, SLOP_SG
>>> read_number("2,5 kg", MASS_G, field="batch", reading=Reading.AS_TYPED)
2500.0
>>> read_number("145", SLOP_SG, field="sg")
Traceback (most recent call last):
    ...
wareboard.exchange.refusals.NumberAsked: 145: do you mean 1.45?
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from wareboard.core.units import RESOLUTION, Quantity
from wareboard.exchange.number_text import NotANumberError, plain_forms, written
from wareboard.exchange.refusals import Choice, NumberAsked, NumberRefused, shown
from wareboard.exchange.units import BY_KEY, Unit, convert, units_written, words_for

__all__ = [
    "Choice",
    "NumberAsked",
    "NumberRefused",
    "Reading",
    "TypedNumber",
    "as_typed",
    "plain_column",
    "read_number",
    "read_typed",
    "written",
]

LONGEST = 64
OUT_OF_RANGE = "is out of range"
THOUSANDS_USUAL = frozenset({"g", "ml", "mm", "c", "f"})
"""Units in which a studio has thousands, so that ``1.240`` may be 1240.

Kilograms and litres are not among them: scales show them with three places.
"""

PLAIN_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
THREE_PLACES = re.compile(r"-?[1-9][0-9]{0,2}\.[0-9]{3}")
PLAIN_CHARACTERS = frozenset("0123456789.+-eE")


class Reading(Enum):
    """How a number is read."""

    AS_TYPED = "as typed"
    PLAIN = "plain"


@dataclass(frozen=True)
class TypedNumber:
    """A number from a form, and what was made of it.

    Attributes
    ----------
    value : float
        The number [unit of the quantity].
    note : str
        What a page shows beside it, for example ``2,5 kg = 2500 g``; blank
        where the number stands as it was typed.
    """

    value: float
    note: str


@dataclass(frozen=True)
class _Candidate:
    """One thing a text may mean: digits in plain form, perhaps with a unit."""

    digits: str
    number: float
    unit: Unit | None


def read_number(
    text: str, quantity: Quantity, *, field: str, reading: Reading = Reading.PLAIN
) -> float:
    """Read a number and hold it against the range of its quantity.

    Parameters
    ----------
    text : str
        As typed, or as it stands in a cell.
    quantity : Quantity
        What it is a number of.
    field : str
        Column, option or form field.
    reading : Reading
        ``PLAIN`` for files and options, ``AS_TYPED`` for forms.

    Returns
    -------
    float
        Always finite; zero has no sign.

    Raises
    ------
    NumberAsked
        If it has two meanings, or is likely a slip.
    NumberRefused
        If it is no number, or out of range.
    """
    if reading is Reading.AS_TYPED:
        return read_typed(text, quantity, field=field).value
    if len(text) > LONGEST or not PLAIN_NUMBER.fullmatch(text):
        raise _refused(text, quantity, field, _why_not_plain(text))
    number = float(text)
    _refuse_lost(text, text, number, quantity, field)
    if not quantity.allows(number):
        asked = _slip_question(text, number, quantity, field)
        raise asked or _refused(text, quantity, field, OUT_OF_RANGE)
    return number + 0.0


def read_typed(text: str, quantity: Quantity, *, field: str, bare_unit: str = "") -> TypedNumber:
    """Read a number as people type it.

    Parameters
    ----------
    text : str
        As typed.
    quantity : Quantity
        What it is a number of.
    field : str
        Form field.
    bare_unit : str
        Key of the unit that a number without one has, where a studio types in
        its own; blank for the unit of the quantity.

    Returns
    -------
    TypedNumber
        The number in the unit of the quantity, and what to show of it.

    Raises
    ------
    NumberAsked, NumberRefused
        As for :func:`read_number`.
    """
    usual_unit = BY_KEY[bare_unit or quantity.unit]
    candidates, mark = _candidates(text, quantity, field)
    values = [
        (
            candidate,
            convert(candidate.number, of=candidate.unit or usual_unit, target=quantity.unit),
        )
        for candidate in candidates
    ]
    if mark == ".":
        values = _with_point(values, usual_unit, quantity)
    if len(values) == 1:
        candidate, value = values[0]
        _refuse_lost(text, candidate.digits, value, quantity, field)
        foreign = (candidate.unit or usual_unit).key != quantity.unit
        bare = candidate.unit is None and not foreign
        if bare and (asked := _slip_question(text, value, quantity, field)):
            raise asked
        if not quantity.allows(value):
            raise _refused(text, quantity, field, OUT_OF_RANGE)
        added = None if candidate.unit else usual_unit
        return TypedNumber(value + 0.0, _note(text, added, value, quantity) if foreign else "")
    choices = [
        Choice(value, _written_choice(candidate, usual_unit))
        for candidate, value in values
        if quantity.allows(value)
    ]
    if not choices:
        raise _refused(text, quantity, field, OUT_OF_RANGE)
    raise _asked(text, quantity, field, choices)


def as_typed(number: float | None) -> str:
    """Write a number for a form to begin with: it is read back the same and never asked about.

    Parameters
    ----------
    number : float or None
        In the unit that its field reads without one; None leaves the field empty.

    Examples
    --------
    >>> as_typed(8.125)
    '8.1250'
    """
    if number is None:
        return ""
    text = written(number)
    return f"{text}0" if THREE_PLACES.fullmatch(text) else text


def plain_column(cells: Sequence[str], quantity: Quantity) -> list[float] | None:
    """Read a whole column of plain numbers at once.

    Parameters
    ----------
    cells : sequence of str
        The cells of the column.
    quantity : Quantity
        What they are numbers of.

    Returns
    -------
    list of float, optional
        What :func:`read_number` gives for each cell; None if it would refuse
        one of them, so that the caller looks for it cell by cell.
    """
    if not set("".join(cells)) <= PLAIN_CHARACTERS:
        return None
    try:
        numbers = [float(cell) for cell in cells]
    except ValueError:
        return None
    if not numbers:
        return numbers
    fits = quantity.allows(min(numbers)) and quantity.allows(max(numbers))
    if not fits or max(map(len, cells)) > LONGEST:
        return None
    for cell, number in zip(cells, numbers, strict=True):
        if -RESOLUTION < number < RESOLUTION and _is_lost(cell, number):
            return None
    return [number + 0.0 for number in numbers]


def _with_point(
    values: Sequence[tuple[_Candidate, float]], usual_unit: Unit, quantity: Quantity
) -> list[tuple[_Candidate, float]]:
    """Leave thousands behind a point out, unless the unit has them and both numbers can be."""
    usual = all((one.unit or usual_unit).key in THOUSANDS_USUAL for one, _value in values)
    if usual and all(quantity.allows(value) for _one, value in values):
        return list(values)
    return [(one, value) for one, value in values if "." in one.digits]


def _candidates(text: str, quantity: Quantity, field: str) -> tuple[list[_Candidate], str]:
    """Find everything that a typed text may mean, and the mark that makes it doubtful."""
    if len(text) > LONGEST:
        raise _refused(text, quantity, field, f"is longer than {LONGEST} characters")
    try:
        forms, word, mark = plain_forms(text)
    except NotANumberError as error:
        raise _refused(text, quantity, field, str(error)) from error
    units = _units(text, word, quantity, field)
    return [_Candidate(form, float(form), unit) for form in forms for unit in units], mark


def _units(text: str, word: str, quantity: Quantity, field: str) -> tuple[Unit | None, ...]:
    if not word:
        return (None,)
    if units := units_written(word, quantity.unit):
        return units
    known = words_for(quantity.unit)
    units_known = f"units known here are {known}" if known else "it has no unit"
    raise _refused(text, quantity, field, f'has the unit "{shown(word)}", but {units_known}')


def _is_lost(digits: str, number: float) -> bool:
    """Tell whether a number that is not zero is too small to be kept."""
    mantissa = re.split("[eE]", digits, maxsplit=1)[0]
    return abs(number) < RESOLUTION and any(digit in "123456789" for digit in mantissa)


def _refuse_lost(text: str, digits: str, number: float, quantity: Quantity, field: str) -> None:
    if _is_lost(digits, number):
        raise _refused(text, quantity, field, "is smaller than can be told from zero")


def _slip_question(text: str, value: float, quantity: Quantity, field: str) -> NumberAsked | None:
    """Ask whether another number was meant, where a slip explains this one."""
    choices = [
        Choice(
            meant, f"{written(value)} {BY_KEY[slip.unit].written}" if slip.unit else written(meant)
        )
        for slip, meant in quantity.likely_slips(value)
    ]
    if not choices:
        return None
    if quantity.allows(value):
        choices.append(Choice(value, f"{written(value)} {BY_KEY[quantity.unit].written}"))
    return _asked(text, quantity, field, choices)


def _asked(text: str, quantity: Quantity, field: str, choices: Sequence[Choice]) -> NumberAsked:
    meanings = " or ".join(_meaning(choice, quantity) for choice in choices)
    return NumberAsked(
        f"{shown(text).strip()}: do you mean {meanings}?",
        field=field,
        seen=shown(text),
        accepted=quantity.words,
        choices=choices,
    )


def _meaning(choice: Choice, quantity: Quantity) -> str:
    ours = BY_KEY[quantity.unit].written
    if choice.typed in (written(choice.value), f"{written(choice.value)} {ours}"):
        return choice.typed
    return f"{choice.typed} ({f'{_rounded(choice.value)} {ours}'.rstrip()})"


def _written_choice(candidate: _Candidate, usual_unit: Unit) -> str:
    """Write what may be meant so that it means nothing else: 1.2340, not 1.234."""
    has_thousands = (candidate.unit or usual_unit).key in THOUSANDS_USUAL
    number = as_typed(candidate.number) if has_thousands else written(candidate.number)
    return f"{number} {candidate.unit.written}" if candidate.unit else number


def _note(text: str, unit: Unit | None, value: float, quantity: Quantity) -> str:
    typed = shown(text).strip() + (f" {unit.written}" if unit else "")
    return f"{typed} = {_rounded(value)} {BY_KEY[quantity.unit].written}".rstrip()


def _rounded(number: float) -> str:
    return written(float(f"{number:.4g}"))


def _refused(text: str, quantity: Quantity, field: str, why: str) -> NumberRefused:
    return NumberRefused(
        f'{quantity.name}: "{shown(text)}" {why}; accepted is {quantity.words}.',
        field=field,
        seen=shown(text),
        accepted=quantity.words,
    )


def _why_not_plain(text: str) -> str:
    if len(text) > LONGEST:
        return f"is longer than {LONGEST} characters"
    if not text.strip():
        return "is blank"
    if "," in text and text.isascii():
        return "has a comma in it; here the decimal sign is a point"
    if "_" in text:
        return "has an underscore in it"
    if not text.isascii():
        return "has characters other than ASCII in it"
    return "is not a plain number"
