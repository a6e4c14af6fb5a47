"""Our own CSV files: read strictly, refused with the place of what is wrong.

A file is UTF-8 with or without its mark, separated by commas, with one line of
headings. Nothing is guessed and nothing is left out: a heading that is unknown
or stands twice, a row of another length, a quotation mark that swallows lines,
all are said with their line number.
"""

import csv
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from wareboard.core.errors import CoreError
from wareboard.core.units import Quantity
from wareboard.exchange.refusals import FileRefused, shown
from wareboard.exchange.typed_number import plain_column, read_number

LARGEST_BYTES = 100_000_000
LONGEST_CELL = 100_000
WHOLE_FILE = "a CSV file in UTF-8, with commas between the columns"
FOREIGN = {
    b"PK\x03\x04": "a spreadsheet or a zip file, not CSV; save the sheet as CSV",
    b"%PDF": "a PDF, not CSV",
    b"\xff\xfe": "in UTF-16; save it as UTF-8",
    b"\xfe\xff": "in UTF-16; save it as UTF-8",
}
OTHER_SEPARATORS = {";": "semicolons", "\t": "tabs", "|": "upright strokes"}


@dataclass(frozen=True)
class Headings:
    """Which columns a file has.

    Attributes
    ----------
    needed : tuple of tuple of str
        Of each group exactly one column must be there.
    optional : tuple of str
        May be there.
    other : callable, optional
        Gives our name for any further heading, or raises CoreError; without
        it no further heading is accepted.
    """

    needed: tuple[tuple[str, ...], ...]
    optional: tuple[str, ...] = ()
    other: Callable[[str], str] | None = None

    @property
    def words(self) -> str:
        """The columns for a sentence."""
        words = [" or ".join(group) for group in self.needed]
        return ", ".join([*words, *(f"{name} (if wanted)" for name in self.optional)])


@dataclass(frozen=True)
class CsvTable:
    """A file by columns, every cell still text.

    Attributes
    ----------
    file : str
        As it was given.
    columns : dict of str to list of str
        Cells of each column, without blanks at their ends.
    lines : sequence of int
        Physical line of each row, counted from 1.
    """

    file: str
    columns: dict[str, list[str]]
    lines: Sequence[int]

    def numbers(self, column: str, quantity: Quantity) -> list[float]:
        """Read a column of plain numbers.

        Parameters
        ----------
        column : str
            Its heading.
        quantity : Quantity
            What they are numbers of.

        Raises
        ------
        FileRefused
            If a cell is no such number, with its line.
        """
        cells = self.columns[column]
        at_once = plain_column(cells, quantity)
        if at_once is not None:
            return at_once
        return [self.number(column, row, quantity) for row in range(len(cells))]

    def number(self, column: str, row: int, quantity: Quantity) -> float:
        """Read one cell as a plain number; errors as for :meth:`numbers`."""
        try:
            return read_number(self.columns[column][row], quantity, field=column)
        except CoreError as error:
            raise self.refused(error, row) from error

    def refused(self, error: CoreError, row: int) -> FileRefused:
        """Say of an error in which row of this file it stands."""
        return FileRefused.at(error, file=self.file, line=self.lines[row])


def read_csv_table(path: str, headings: Headings, *, field: str, most_rows: int) -> CsvTable:
    """Read a file of ours.

    Parameters
    ----------
    path : str
        Where it lies.
    headings : Headings
        Which columns it has.
    field : str
        Option or argument that named the file, for errors about all of it.
    most_rows : int
        More rows are refused.

    Returns
    -------
    CsvTable
        At least one row.

    Raises
    ------
    FileRefused
        If anything about the file is not as said above.
    """
    return parse_csv_table(
        _bytes(path, field), headings, file=path, field=field, most_rows=most_rows
    )


def parse_csv_table(
    content: bytes, headings: Headings, *, file: str, field: str, most_rows: int
) -> CsvTable:
    """Take a file apart whose bytes are at hand; otherwise as :func:`read_csv_table`."""
    widths, cells = _rows(_text(content, file, field), file, field)
    lines: Sequence[int] = range(1, len(widths) + 1)
    if not all(cells) or not all(widths):
        ends = list(accumulate(widths))
        rows = [cells[end - width : end] for end, width in zip(ends, widths, strict=True)]
        lines = [line for line, row in enumerate(rows, start=1) if any(row)]
        cells = [cell for row in rows if any(row) for cell in row]
        widths = [len(row) for row in rows if any(row)]
    if not widths:
        raise _whole(file, field, "is empty")
    names = _names(lines[0], cells[: widths[0]], headings, file)
    if len(widths) == 1:
        raise _whole(file, field, "has headings but no row below them")
    if len(widths) > most_rows + 1:
        raise _whole(file, field, f"has {len(widths) - 1} rows, at most {most_rows} are read")
    for row, width in enumerate(widths):
        if width != len(names):
            start = row * len(names)
            raise _length(lines[row], cells[start : start + width], names, file)
    columns = {name: cells[len(names) + place :: len(names)] for place, name in enumerate(names)}
    return CsvTable(file, columns, lines[1:])


def _bytes(path: str, field: str) -> bytes:
    try:
        with open(path, "rb") as file:  # noqa: PTH123 - pathlib costs a short command its time
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise _whole(path, field, "is not there") from None
    except IsADirectoryError:
        raise _whole(path, field, "is a folder, not a file") from None
    except PermissionError:
        raise _whole(path, field, "may not be read by you") from None
    except (OSError, ValueError) as error:
        raise _whole(path, field, f"cannot be opened ({type(error).__name__})") from error
    if len(content) > LARGEST_BYTES:
        raise _whole(path, field, f"is larger than {LARGEST_BYTES // 1_000_000} MB")
    return content


def _text(content: bytes, file: str, field: str) -> str:
    for mark, what in FOREIGN.items():
        if content.startswith(mark):
            raise _whole(file, field, f"is {what}")
    if content.lstrip()[:9].lower().startswith((b"<!doctype", b"<html", b"<?xml")):
        raise _whole(file, field, "is a web page, not CSV")
    if (nul := content.find(b"\0")) >= 0:
        raise _whole(file, field, "holds a NUL character", _line_of(content, nul))
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = _line_of(content, error.start)
        raise _whole(file, field, "is not UTF-8 here; save it as UTF-8", line) from None


def _line_of(content: bytes, place: int) -> int:
    """Count the lines up to a place; line ends are LF, CR LF or CR."""
    before = content[:place]
    return 1 + before.count(b"\n") + before.count(b"\r") - before.count(b"\r\n")


def _rows(text: str, file: str, field: str) -> tuple[list[int], list[str]]:
    """Split into one row a line: how many cells each has, and all the cells.

    No cell reaches over a line end. The cells stand in one list, since a list
    for each of a hundred thousand rows takes twice the time.
    """
    widths: list[int] = []
    cells: list[str] = []
    if len(text) > LONGEST_CELL:
        # Checked here: the limit of the csv module is one for the whole process.
        for number, written in enumerate(io.StringIO(text, newline=""), start=1):
            if len(written) > LONGEST_CELL and max(map(len, written.split(","))) > LONGEST_CELL:
                raise _whole(file, field, "has a cell that is far too long", number)
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        for row in reader:
            widths.append(len(row))
            cells.extend(row)
    except csv.Error as error:
        if "limit" in str(error):
            why = "has a cell that is far too long"
            raise _whole(file, field, why, reader.line_num) from None
    if reader.line_num == len(widths):
        return widths, [cell.strip(" \t") for cell in cells]
    line = _first_open_line(text)
    raise _whole(
        file, field, "has a quotation mark that is not closed, or has text behind it", line
    )


def _first_open_line(text: str) -> int:
    """Find the first line that is no whole row by itself."""
    for number, line in enumerate(io.StringIO(text, newline=""), start=1):
        try:
            next(csv.reader([line], strict=True), None)
        except csv.Error:
            return number
    return 1


def _names(line: int, row: list[str], headings: Headings, file: str) -> list[str]:
    """Give our names for the headings."""
    names: list[str] = []
    for separator, words in OTHER_SEPARATORS.items():
        if len(row) == 1 and separator in row[0]:
            say = f"the columns are separated by {words}; put commas, and points in the numbers."
            raise _heading(headings.needed[0][0], row[0], say, headings, file, line)
    for cell in map(str.strip, row):
        try:
            name = _our_name(cell, headings)
        except CoreError as error:
            raise FileRefused.at(error, file=file, line=line) from error
        if not name:
            say = f'the heading "{shown(cell)}" is unknown; the columns are {headings.words}.'
            raise _heading(cell or "heading", cell, say, headings, file, line)
        if name in names:
            say = f'the heading "{name}" stands twice.'
            raise _heading(name, cell, say, headings, file, line)
        names.append(name)
    for group in headings.needed:
        there = [name for name in group if name in names]
        if not there:
            say = f"the column {' or '.join(group)} is missing."
            raise _heading(group[0], None, say, headings, file, line)
        if len(there) > 1:
            say = f"the columns {' and '.join(there)} say the same twice; keep one."
            raise _heading(there[1], there[1], say, headings, file, line)
    return names


def _our_name(cell: str, headings: Headings) -> str:
    """Give our name of a heading; blank if it has none."""
    folded = cell.casefold()
    for name in (*(name for group in headings.needed for name in group), *headings.optional):
        if name.casefold() == folded:
            return name
    return headings.other(cell) if headings.other and cell else ""


def _heading(
    field: str, seen: str | None, say: str, headings: Headings, file: str, line: int
) -> FileRefused:
    return FileRefused(
        say,
        field=field,
        seen=None if seen is None else shown(seen),
        accepted=headings.words,
        file=file,
        line=line,
    )


def _length(line: int, row: list[str], names: list[str], file: str) -> FileRefused:
    many = len(row) > len(names)
    field = names[-1] if many else names[len(row)]
    why = "; is there a comma in a number or a name?" if many else f"; {field} is missing."
    return FileRefused(
        f"{len(row)} cells where there are {len(names)} headings{why}",
        field=field,
        seen=shown(",".join(row)),
        accepted=f"{len(names)} cells: {', '.join(names)}",
        file=file,
        line=line,
    )


def _whole(file: str, field: str, why: str, line: int | None = None) -> FileRefused:
    return FileRefused(
        f"the file {why}.", field=field, seen=shown(file), accepted=WHOLE_FILE, file=file, line=line
    )
