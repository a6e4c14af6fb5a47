"""How a value is written into a cell of a CSV file and read out of it again.

Every value has one way to be written, so that the same record gives the same
bytes. Reading takes a little more than writing gives where a spreadsheet is
known to rewrite a cell without changing its meaning (``TRUE`` for ``true``),
and nothing that would have to be guessed.

A text that a spreadsheet would run as a formula is written with an apostrophe
in front, and so is one that has such apostrophes already; reading takes
exactly one off again.
"""

import math
import re
import unicodedata
from collections.abc import Callable
from datetime import date, datetime
from functools import lru_cache

from wareboard.exchange.record_folder.spec import Column, Value
from wareboard.exchange.typed_text import TURNING

# What makes a spreadsheet calculate: signs, tab and line ends first, and the
# full-width signs that some keyboards give.
RUN_FIRST = (
    "=+\\-@\t\r\n"
    "\N{FULLWIDTH EQUALS SIGN}\N{FULLWIDTH PLUS SIGN}"
    "\N{FULLWIDTH HYPHEN-MINUS}\N{FULLWIDTH COMMERCIAL AT}"
)
WOULD_RUN = re.compile(f"'*[{RUN_FIRST}]")
MADE_HARMLESS = re.compile(f"'+[{RUN_FIRST}]")
NOT_TEXT = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff" + "".join(sorted(TURNING)) + "]"
)
NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
WHOLE = re.compile(r"[+-]?[0-9]+")
DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
TIME = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.[0-9]{1,6})?"
    r"(?:Z|[+-][0-9]{2}:[0-9]{2})"
)
LONGEST_NUMBER = 100
LARGEST_WHOLE = 2**63 - 1
TRUTHS = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}

GIVE_TEXT = "use letters, digits, signs and blanks only"
GIVE_NUMBER = "write it with plain digits and one point, such as 12.5"
GIVE_WHOLE = "write it with plain digits, such as 12"
GIVE_TRUTH = "write true or false"
GIVE_DATE = "write it as year-month-day, such as 2026-11-25"
GIVE_TIME = "write it with its offset, such as 2026-11-25T14:03:00+01:00"


class BadCell(ValueError):
    """A cell that cannot stand where it stands.

    Parameters
    ----------
    fault : str
        What is wrong, to follow the value in a sentence.
    accepted : str
        What would do, as a request.
    """

    def __init__(self, fault: str, accepted: str) -> None:
        super().__init__(fault)
        self.fault = fault
        self.accepted = accepted


def is_line(text: str) -> bool:
    """Tell whether a text may stand as a title.

    Examples
    --------
    >>> is_line("Clay Lane"), is_line("Clay" + chr(10) + "Lane"), is_line(" ")
    (True, False, False)
    """
    return bool(text.strip()) and not NOT_TEXT.search(text) and not set(text) & set("\t\r\n")


def cell_reader(column: Column, *, needed: bool, longest: int) -> Callable[[str], Value]:
    """Make the function that reads the cells of a column.

    Parameters
    ----------
    column : Column
        The column.
    needed : bool
        True if no cell of it may be blank.
    longest : int
        Most characters of a cell.

    Returns
    -------
    callable
        Takes the cell, gives its value, raises ``BadCell``.
    """
    read = READERS[column.kind]

    def read_cell(cell: str) -> Value:
        if not cell:
            if needed:
                raise BadCell("is blank", f"fill it in: {_wanted(column)}")
            return None
        _check_length(cell, longest)
        value = read(cell)
        if isinstance(value, str):
            _check_length(value, longest)
        _check_range(column, value)
        return value

    if column.choices or column.refers_to:
        # Few different texts in many rows: each is read and kept once.
        return lru_cache(maxsize=4096)(read_cell)
    return read_cell


def cell_writer(column: Column, *, needed: bool, longest: int) -> Callable[[Value], str]:
    """Make the function that writes the cells of a column.

    Parameters
    ----------
    column, needed, longest
        As for :func:`cell_reader`.

    Returns
    -------
    callable
        Takes a value, gives its cell, raises ``BadCell``.
    """
    write = WRITERS[column.kind]

    def write_cell(value: Value) -> str:
        if value is None or value == "":
            if needed:
                raise BadCell("is blank", f"fill it in: {_wanted(column)}")
            return ""
        cell = write(value)
        _check_length(cell, longest)
        _check_range(column, read(cell) if column.choices else value)
        return cell

    read = READERS[column.kind]
    return write_cell


def _check_length(text: str, longest: int) -> None:
    if len(text) > longest:
        raise BadCell(f"has {len(text)} characters", f"at most {longest} are kept")


def _check_range(column: Column, value: Value) -> None:
    if column.choices and value not in column.choices:
        raise BadCell("is not one of the choices", _wanted(column))
    if isinstance(value, (int, float)) and (
        (column.minimum is not None and value < column.minimum)
        or (column.maximum is not None and value > column.maximum)
    ):
        raise BadCell("is out of range", _wanted(column))


def _wanted(column: Column) -> str:
    """Say what a column takes, as a request."""
    unit = f" {column.unit}" if column.unit else ""
    if column.choices:
        return "write one of " + ", ".join(column.choices)
    if column.minimum is not None and column.maximum is not None:
        return f"write a number from {column.minimum} to {column.maximum}{unit}"
    if column.minimum is not None:
        return f"write a number of at least {column.minimum}{unit}"
    if column.maximum is not None:
        return f"write a number of at most {column.maximum}{unit}"
    return REQUESTS[column.kind]


def _read_text(cell: str) -> Value:
    text = cell[1:] if MADE_HARMLESS.match(cell) else cell
    return _tidy_text(text)


def _tidy_text(text: str) -> str:
    if found := NOT_TEXT.search(text):
        raise BadCell(
            f"holds the character U+{ord(found[0]):04X}, which no text may hold", GIVE_TEXT
        )
    return unicodedata.normalize("NFC", text)


def _write_text(value: Value) -> str:
    if not isinstance(value, str):
        raise BadCell("is no text", GIVE_TEXT)
    text = _tidy_text(value)
    return "'" + text if WOULD_RUN.match(text) else text


def _read_number(cell: str) -> Value:
    if len(cell) > LONGEST_NUMBER or not NUMBER.fullmatch(cell):
        raise BadCell("is no number", GIVE_NUMBER)
    number = float(cell)
    if math.isinf(number):
        raise BadCell("is too large a number", GIVE_NUMBER)
    if number == 0.0:
        if any(digit in "123456789" for digit in re.split("[eE]", cell)[0]):
            raise BadCell("is too small a number", GIVE_NUMBER)
        return 0.0
    return number


def _write_number(value: Value) -> str:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise BadCell("is no number", GIVE_NUMBER)
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number) or number != value:
        raise BadCell("is no number that can be kept", GIVE_NUMBER)
    # Adding zero takes the sign off a negative zero; float's own repr is the
    # shortest text that reads back as the same number.
    return float.__repr__(number + 0.0)


def _read_whole(cell: str) -> Value:
    if len(cell) > LONGEST_NUMBER or not WHOLE.fullmatch(cell):
        raise BadCell("is no whole number", GIVE_WHOLE)
    number = int(cell)
    if abs(number) > LARGEST_WHOLE:
        raise BadCell("is too large a whole number", GIVE_WHOLE)
    return number


def _write_whole(value: Value) -> str:
    if isinstance(value, bool) or not isinstance(value, int) or abs(value) > LARGEST_WHOLE:
        raise BadCell("is no whole number that can be kept", GIVE_WHOLE)
    return int.__repr__(value)


def _read_truth(cell: str) -> Value:
    try:
        return TRUTHS[cell]
    except KeyError:
        raise BadCell("is neither true nor false", GIVE_TRUTH) from None


def _write_truth(value: Value) -> str:
    if not isinstance(value, bool):
        raise BadCell("is neither true nor false", GIVE_TRUTH)
    return "true" if value else "false"


def _read_date(cell: str) -> Value:
    if not DATE.fullmatch(cell):
        raise BadCell("is no date", GIVE_DATE)
    try:
        return date.fromisoformat(cell)
    except ValueError:
        raise BadCell("is a day that no calendar has", GIVE_DATE) from None


def _write_date(value: Value) -> str:
    if isinstance(value, datetime) or not isinstance(value, date):
        raise BadCell("is no date", GIVE_DATE)
    return value.isoformat()


def _read_time(cell: str) -> Value:
    if not TIME.fullmatch(cell):
        raise BadCell("is no date and time", GIVE_TIME)
    try:
        return datetime.fromisoformat(cell)
    except ValueError:
        raise BadCell("is a time that no clock shows", GIVE_TIME) from None


def _write_time(value: Value) -> str:
    if not isinstance(value, datetime):
        raise BadCell("is no date and time", GIVE_TIME)
    cell = value.isoformat()
    if not TIME.fullmatch(cell):
        raise BadCell("has no offset in whole minutes", GIVE_TIME)
    return cell


READERS: dict[str, Callable[[str], Value]] = {
    "string": _read_text,
    "integer": _read_whole,
    "number": _read_number,
    "boolean": _read_truth,
    "date": _read_date,
    "datetime": _read_time,
}
WRITERS: dict[str, Callable[[Value], str]] = {
    "string": _write_text,
    "integer": _write_whole,
    "number": _write_number,
    "boolean": _write_truth,
    "date": _write_date,
    "datetime": _write_time,
}
REQUESTS = {
    "string": "write a text",
    "integer": GIVE_WHOLE,
    "number": GIVE_NUMBER,
    "boolean": GIVE_TRUTH,
    "date": GIVE_DATE,
    "datetime": GIVE_TIME,
}
