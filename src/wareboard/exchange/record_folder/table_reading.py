"""Tables of the record, read from CSV.

Read row by row and cell by cell, each as its column is declared. A byte order
mark and the line ends of other systems are taken, because spreadsheets write
them; whatever would have to be guessed is not.
"""

import csv
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO

from wareboard.exchange.record_folder import disk
from wareboard.exchange.record_folder.cells import BadCell, cell_reader
from wareboard.exchange.record_folder.limits import Limits
from wareboard.exchange.record_folder.problems import Findings
from wareboard.exchange.record_folder.spec import TableSpec, Value

BOM = b"\xef\xbb\xbf"
SAVE_AS = "save it as CSV, UTF-8, with commas"
DISGUISES = (
    (b"\xff\xfe", "is saved as UTF-16"),
    (b"\xfe\xff", "is saved as UTF-16"),
    (b"PK\x03\x04", "is a workbook or an archive, no CSV file"),
    (b"\xd0\xcf\x11\xe0", "is an old workbook, no CSV file"),
    (b"%PDF", "is a PDF, no CSV file"),
)
LONGEST_HEAD = max(len(head) for head, _ in DISGUISES)
# A cell takes at most eight bytes a character: four in UTF-8, quotes doubled.
BYTES_A_CHARACTER = 8

Readers = list[tuple[str, Callable[[str], Value]]]


@dataclass(slots=True)
class TableRead:
    """The rows of a table as far as they could be read.

    Attributes
    ----------
    rows : list of dict
        In the order of the file.
    numbers : list of int
        For each its row in a spreadsheet.
    whole : bool
        False if a row is not among them, or a key could not be read.
    """

    rows: list[dict[str, Value]] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)
    whole: bool = True


class _Broken(Exception):
    """The file cannot be read any further."""

    def __init__(self, fault: str, accepted: str) -> None:
        super().__init__(fault)
        self.fault = fault
        self.accepted = accepted


class _Lines:
    """The physical lines of a file, decoded; counts what one row has taken."""

    def __init__(self, file: BinaryIO, most_bytes_a_row: int) -> None:
        self._file = file
        self._most = most_bytes_a_row
        self._taken = 0
        self._begun = 1
        self.number = 0

    def row_ended(self) -> int:
        """Start to count anew; give the line on which the row began."""
        begun = self._begun
        self._begun = self.number + 1
        self._taken = 0
        return begun

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        raw = self._file.readline(self._most + 1)
        self.number += 1
        self._taken += len(raw)
        if not raw:
            raise StopIteration
        if self._taken > self._most:
            raise _Broken("begins a row that does not end", "close every quotation mark")
        if self.number == 1:
            raw = raw.removeprefix(BOM)
        try:
            return raw.decode()
        except UnicodeDecodeError:
            raise _Broken("is not written in UTF-8", SAVE_AS) from None


def read_table(
    folder: Path,
    spec: TableSpec,
    columns: tuple[str, ...],
    limits: Limits,
    findings: Findings,
) -> TableRead:
    """Read one table.

    Parameters
    ----------
    folder : Path
        The record folder.
    spec : TableSpec
        The table.
    columns : tuple of str
        The columns that the folder says it has; others are blank.
    limits : Limits
        How big it may be.
    findings : Findings
        Takes what is wrong.

    Returns
    -------
    TableRead
        The rows that could be read.
    """
    table = TableRead()
    try:
        with disk.opened(folder / spec.file) as file:
            _first_look(file, limits)
            _read_rows(file, spec, columns, limits, findings, table)
    except _Broken as broken:
        findings.add(spec.file, broken.fault, accepted=broken.accepted)
        table.whole = False
    except FileNotFoundError:
        findings.add(spec.file, "is missing", accepted="put it back")
        table.whole = False
    except disk.NotOrdinary:
        findings.add(spec.file, "is a link or no file at all", accepted="put the file itself there")
        table.whole = False
    return table


def _first_look(file: BinaryIO, limits: Limits) -> None:
    """Refuse from size and first bytes what is no table."""
    head = file.read(LONGEST_HEAD)
    size = file.seek(0, 2)
    file.seek(0)
    if not head:
        raise _Broken("is empty, and even its first row is missing", SAVE_AS)
    if size > limits.table_bytes:
        raise _Broken(
            f"has {size} bytes, and at most {limits.table_bytes} are read", "hand out less at once"
        )
    for start, fault in DISGUISES:
        if head.startswith(start):
            raise _Broken(fault, SAVE_AS)


def _read_rows(
    file: BinaryIO,
    spec: TableSpec,
    columns: tuple[str, ...],
    limits: Limits,
    findings: Findings,
    table: TableRead,
) -> None:
    lines = _Lines(file, BYTES_A_CHARACTER * limits.cell_characters * len(spec.columns))
    cells_of_rows = csv.reader(lines, strict=True)
    number = 0
    try:
        readers = _readers(next(cells_of_rows), spec, columns, limits, findings)
        lines.row_ended()
        if readers is None:
            table.whole = False
            return
        number = 1
        absent = dict.fromkeys(name for name in spec.column_names if name not in columns)
        for number, cells in enumerate(cells_of_rows, start=2):
            row = _row(cells, readers, findings, spec, number, lines.row_ended())
            if row is None:
                table.whole = False
                continue
            table.rows.append(row | absent if absent else row)
            table.numbers.append(number)
            table.whole = table.whole and all(name in row for name in spec.key)
            if len(table.rows) > limits.rows:
                findings.add(
                    spec.file,
                    f"is one more than the {limits.rows} rows that are read",
                    row=number,
                    accepted="hand out less at once",
                )
                table.whole = False
                return
    except _Broken as broken:
        findings.add(
            spec.file,
            broken.fault,
            accepted=broken.accepted,
            row=number + 1,
            text_line=lines.number,
        )
        table.whole = False
    except csv.Error as error:
        findings.add(
            spec.file,
            f"has quotation marks or line ends that do not fit ({error})",
            accepted="close every quotation mark, and double those inside a cell",
            row=number + 1,
            text_line=lines.number,
        )
        table.whole = False


def _readers(
    header: list[str],
    spec: TableSpec,
    columns: tuple[str, ...],
    limits: Limits,
    findings: Findings,
) -> Readers | None:
    """Hold the first row against the described columns; give a reader for each cell."""
    named = ", ".join(columns)
    if sorted(header) == sorted(columns):
        return [
            (
                name,
                cell_reader(
                    spec.column(name),
                    needed=spec.needs(spec.column(name)),
                    longest=limits.cell_characters,
                ),
            )
            for name in header
        ]
    first = header[0] if header else ""
    for sign, word in ((";", "semicolons"), ("\t", "tabs"), ("|", "bars")):
        if len(header) == 1 and sign in first:
            findings.add(
                spec.file, f"has {word} between its columns", row=1, seen=first, accepted=SAVE_AS
            )
            return None
    for name in dict.fromkeys(header):
        if name not in columns:
            findings.add(
                spec.file,
                "is no column of this table",
                row=1,
                column=name,
                seen=name or "a blank heading",
                accepted=f"its columns are {named}",
            )
        elif header.count(name) > 1:
            findings.add(
                spec.file, "heads two columns", row=1, column=name, seen=name, accepted="keep one"
            )
    for name in columns:
        if name not in header:
            findings.add(
                spec.file, "is missing", row=1, column=name, accepted=f"its columns are {named}"
            )
    return None


def _row(
    cells: list[str],
    readers: Readers,
    findings: Findings,
    spec: TableSpec,
    number: int,
    text_line: int,
) -> dict[str, Value] | None:
    """Read the cells of a row; a cell that cannot be read is left out of it."""
    if len(cells) != len(readers):
        fault = f"has {len(cells)} cells" if any(cells) else "is empty"
        accepted = (
            f"the first row has {len(readers)}" if any(cells) else "take the row out of the table"
        )
        findings.add(spec.file, fault, row=number, text_line=text_line, accepted=accepted)
        return None
    if not any(cells):
        findings.add(
            spec.file,
            "is empty",
            row=number,
            text_line=text_line,
            accepted="take the row out of the table",
        )
        return None
    row: dict[str, Value] = {}
    for (name, read), cell in zip(readers, cells, strict=True):
        try:
            row[name] = read(cell)
        except BadCell as bad:
            findings.add(
                spec.file,
                bad.fault,
                row=number,
                text_line=text_line,
                column=name,
                seen=cell,
                accepted=bad.accepted,
            )
    return row
