"""The one reader of numbers, for forms, files and the command line.

It reads in two ways. ``PLAIN`` is for files and options: a sign, ASCII digits,
one point, an optional exponent, and nothing else. ``AS_TYPED`` is for forms,
where people write ``2,5 kg``, ``1 1/2`` or full-width digits: everything
that has one meaning is read, and whatever has two is asked about.

What looks alike is treated alike, by one rule: Unicode compatibility (NFKC)
for blanks, full-width signs and units, then ASCII digits only. Raised and
circled digits are refused, since the rule would read ``10²`` as 102.

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
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from wareboard.core.units import RESOLUTION, Quantity
from wareboard.exchange.refusals import Choice, NumberAsked, NumberRefused, shown
from wareboard.exchange.units import BY_KEY, Unit, convert, units_written, words_for

__all__ = [
    "Choice",
    "NumberAsked",
    "NumberRefused",
    "Reading",
    "TypedNumber",
    "plain_column",
    "read_number",
    "read_typed",
    "written",
]

LONGEST = 64
OUT_OF_RANGE = "is out of range"
LIKE_OURS = str.maketrans(
    {"\N{FRACTION SLASH}": "/", "\N{MINUS SIGN}": "-", "\N{RIGHT SINGLE QUOTATION MARK}": "'"}
)
RAISED_IN_UNITS = "\N{SUPERSCRIPT TWO}\N{SUPERSCRIPT THREE}"

PLAIN_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
PLAIN_CHARACTERS = frozenset("0123456789.+-eE")
# Patterns for forms stay text, so that a short command need not compile them.
FRACTION = (
    r"(?P<sign>[+-]?) ?(?:(?P<whole>[0-9]{1,6}) )?(?P<top>[0-9]{1,3}) ?/ ?(?P<bottom>[0-9]{1,3})"
    r"(?![0-9/])(?P<unit>.*)"
)
DECIMAL = (
    r"(?P<sign>[+-]?) ?(?P<digits>[.,]?[0-9](?:[0-9.,' ]*[0-9])?[.,]?)"
    r"(?P<exponent>(?:[eE][+-]?[0-9]{1,4})?)(?P<unit>.*)"
)
GROUPED = (
    r"(?P<whole>[1-9][0-9]{0,2}(?P<by>[ '.,])[0-9]{3}(?:(?P=by)[0-9]{3})*)"
    r"(?:(?P<mark>[.,])(?P<part>[0-9]*))?"
)
SIMPLE = r"[0-9]*[.,]?[0-9]*"
RANGE = r" ?(?:[-\u2010-\u2015~]|to|\.\.) ?[0-9]"
UNIT_LIKE = r" ?[^\W\d_]|[ %\N{DEGREE SIGN}]"


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
    candidates = _candidates(text, quantity, field)
    usual_unit = BY_KEY[bare_unit or quantity.unit]
    values = [
        (
            candidate,
            convert(candidate.number, of=candidate.unit or usual_unit, target=quantity.unit),
        )
        for candidate in candidates
    ]
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
        Choice(value, _written_choice(candidate))
        for candidate, value in values
        if quantity.allows(value)
    ]
    if not choices:
        raise _refused(text, quantity, field, OUT_OF_RANGE)
    raise _asked(text, quantity, field, choices)


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


def written(number: float) -> str:
    """Write a number shortest so that it reads back the same.

    Examples
    --------
    >>> written(2500.0)
    '2500'
    """
    return repr(number).removesuffix(".0")


def _candidates(text: str, quantity: Quantity, field: str) -> list[_Candidate]:
    """Find everything that a typed text may mean."""
    if len(text) > LONGEST:
        raise _refused(text, quantity, field, f"is longer than {LONGEST} characters")
    tidy = _tidied(text, quantity, field)
    if why := _unreadable(tidy):
        raise _refused(text, quantity, field, why)
    if found := re.fullmatch(FRACTION, tidy):
        digits, numbers = _fraction(found)
    elif found := re.fullmatch(DECIMAL, tidy):
        forms = _plain_forms(found["digits"])
        digits = [found["sign"] + form + found["exponent"] for form in forms]
        numbers = [float(form) for form in digits]
    else:
        raise _refused(text, quantity, field, "is not a number")
    if not numbers:
        raise _refused(text, quantity, field, "is not a number")
    units = _units(text, found["unit"], quantity, field)
    return [
        _Candidate(form, number, unit)
        for form, number in zip(digits, numbers, strict=True)
        for unit in units
    ]


def _tidied(text: str, quantity: Quantity, field: str) -> str:
    """Bring characters that look alike to one form."""
    parts: list[str] = []
    for before, character in zip(" " + text, text, strict=False):
        kind = unicodedata.decomposition(character).partition(" ")[0]
        if kind == "<fraction>":
            parts.append(" " + character)
        elif character.isnumeric() and not character.isdecimal():
            if not (character in RAISED_IN_UNITS and before.isalpha()):
                raise _refused(text, quantity, field, f'has "{character}" in it')
            parts.append(character)
        else:
            parts.append(character)
    tidy = unicodedata.normalize("NFKC", "".join(parts)).translate(LIKE_OURS)
    return " ".join(tidy.split(" ")).strip()


def _fraction(found: re.Match[str]) -> tuple[list[str], list[float]]:
    whole, top, bottom = int(found["whole"] or 0), int(found["top"]), int(found["bottom"])
    if bottom == 0 or (found["whole"] and top >= bottom):
        return [], []
    number = (whole * bottom + top) / bottom
    signed = -number if found["sign"] == "-" else number
    return [written(signed)], [signed]


def _plain_forms(digits: str) -> tuple[str, ...]:
    """Write the digits with a point and without groups, in each way they can be read."""
    if grouped := re.fullmatch(GROUPED, digits):
        by, mark = grouped["by"], grouped["mark"]
        if by == mark:
            return ()
        together = grouped["whole"].replace(by, "")
        single = mark is None and digits.count(by) == 1
        if single and by == ".":
            return (digits,)
        if single and by == ",":
            return (digits.replace(",", "."), together)
        return (f"{together}.{grouped['part']}" if mark else together,)
    if re.fullmatch(SIMPLE, digits):
        return (digits.replace(",", "."),)
    return ()


def _units(text: str, word: str, quantity: Quantity, field: str) -> tuple[Unit | None, ...]:
    if not word.strip():
        return (None,)
    if units := units_written(word.strip(), quantity.unit):
        return units
    if re.match(RANGE, word):
        raise _refused(text, quantity, field, "is a range, not one number")
    if not re.match(UNIT_LIKE, word):
        raise _refused(text, quantity, field, "is not a number")
    known = words_for(quantity.unit)
    units_known = f"units known here are {known}" if known else "it has no unit"
    raise _refused(
        text, quantity, field, f'has the unit "{shown(word.strip())}", but {units_known}'
    )


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


def _written_choice(candidate: _Candidate) -> str:
    number = written(candidate.number)
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


def _unreadable(tidy: str) -> str:
    if not tidy:
        return "is blank"
    for character in tidy:
        if unicodedata.category(character) in {"Cf", "Cc", "Cs"}:
            return f"has an invisible character (U+{ord(character):04X}) in it"
        if character.isdecimal() and not character.isascii():
            return "has digits other than 0 to 9"
    return ""


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
