"""Tables of the record, written as CSV.

The rules of RFC 4180 with a line feed at the end of each row: commas between
the cells, quotes only around a cell that needs them, quotes inside doubled.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from operator import itemgetter

from wareboard.exchange.record_folder.cells import BadCell, cell_reader, cell_writer
from wareboard.exchange.record_folder.disk import NewFile
from wareboard.exchange.record_folder.limits import Limits
from wareboard.exchange.record_folder.problems import FolderNotWritten
from wareboard.exchange.record_folder.spec import ORIGINALS, Row, TableSpec, Value
from wareboard.exchange.refusals import shown

NEEDS_QUOTES = re.compile('[",\r\n]')
Key = tuple[Value, ...]


class TableWriter:
    """Writes tables and remembers what they say of each other.

    Parameters
    ----------
    tables : mapping
        The tables that will be written, by name.
    limits : Limits
        Nothing is written that reading with these limits would refuse.
    """

    def __init__(self, tables: Mapping[str, TableSpec], limits: Limits) -> None:
        self._tables = tables
        self._limits = limits
        self._keys: dict[str, set[str]] = {}
        self._pointing: dict[tuple[str, str], set[str]] = {}

    def write(self, spec: TableSpec, rows: Iterable[Row], file: NewFile) -> None:
        """Write one table.

        Parameters
        ----------
        spec : TableSpec
            The table.
        rows : iterable of mapping
            Its rows, in any order.
        file : NewFile
            Where to.

        Raises
        ------
        FolderNotWritten
            If a row cannot be written as declared.
        """
        lines = sorted(self._lines(spec, rows), key=itemgetter(0))
        if len(lines) > self._limits.rows:
            raise _refused(
                spec.name, len(lines), f"has {len(lines)} rows", f"at most {self._limits.rows}"
            )
        file.write(_line(spec.column_names))
        before: Key | None = None
        for key, line in lines:
            if key == before:
                raise _refused(_place(spec, key), key, "stands in two rows", "one row for each key")
            before = key
            file.write(line)
        if file.size_bytes > self._limits.table_bytes:
            raise _refused(
                spec.name,
                file.size_bytes,
                f"takes {file.size_bytes} bytes",
                f"at most {self._limits.table_bytes}",
            )

    def check_references(self) -> None:
        """Make sure that every reference of the tables written leads to a row.

        Raises
        ------
        FolderNotWritten
            If one does not, or a photo or sound is referred to by no row.
        """
        pointed_at: set[str] = set()
        for (name, column), cells in self._pointing.items():
            target = self._tables[name].column(column).refers_to or ""
            if missing := sorted(cells - self._keys.get(target, set())):
                raise _refused(
                    f"{name}, column {column}",
                    missing[0],
                    f'"{shown(missing[0])}" is in no row of {target}',
                    f"a key of {target}",
                )
            if target == ORIGINALS:
                pointed_at |= cells
        if self._photos_are_pointed_at() and (lost := sorted(self._keys[ORIGINALS] - pointed_at)):
            raise _refused(
                ORIGINALS, lost[0], f"{lost[0]} belongs to no row", "originals that rows refer to"
            )

    def _photos_are_pointed_at(self) -> bool:
        return any(
            self._tables[name].column(column).refers_to == ORIGINALS
            for name, column in self._pointing
        )

    def _lines(self, spec: TableSpec, rows: Iterable[Row]) -> Iterator[tuple[Key, bytes]]:
        """Give each row as its key and its line, and keep what it points at."""
        writers = _writers(spec, self._limits)
        names = spec.column_names
        columns = frozenset(names)
        key_places = [names.index(part) for part in spec.key]
        key_readers = [
            cell_reader(spec.column(part), needed=True, longest=self._limits.cell_characters)
            for part in spec.key
        ]
        keys = self._keys.setdefault(spec.name, set())
        pointing = [
            (place, self._pointing.setdefault((spec.name, column.name), set()))
            for place, column in enumerate(spec.columns)
            if column.refers_to
        ]
        for row in rows:
            if row.keys() != columns:
                odd = sorted(row.keys() ^ columns)
                raise ValueError(f"a row of {spec.name} has not its columns: {', '.join(odd)}")
            try:
                cells = [write(row[name]) for name, write in writers]
            except BadCell:
                raise _bad_cell(spec, row, writers) from None
            key = tuple(
                read(cells[place]) for read, place in zip(key_readers, key_places, strict=True)
            )
            if len(key_places) == 1:
                keys.add(cells[key_places[0]])
            for place, pointed_at in pointing:
                if cells[place]:
                    pointed_at.add(cells[place])
            yield key, _line(cells)


Writers = list[tuple[str, Callable[[Value], str]]]


def _writers(spec: TableSpec, limits: Limits) -> Writers:
    return [
        (
            column.name,
            cell_writer(column, needed=spec.needs(column), longest=limits.cell_characters),
        )
        for column in spec.columns
    ]


def _line(cells: Iterable[str]) -> bytes:
    quoted = (
        '"' + cell.replace('"', '""') + '"' if NEEDS_QUOTES.search(cell) else cell for cell in cells
    )
    return (",".join(quoted) + "\n").encode()


def _bad_cell(spec: TableSpec, row: Row, writers: Writers) -> FolderNotWritten:
    """Find the cell of a row that cannot be written, and say so."""
    key = tuple(row[part] for part in spec.key)
    for name, write in writers:
        try:
            write(row[name])
        except BadCell as bad:
            seen = "" if row[name] is None else f'"{shown(str(row[name]))}" '
            return _refused(
                f"{_place(spec, key)}, column {name}", row[name], seen + bad.fault, bad.accepted
            )
    raise AssertionError(row)


def _place(spec: TableSpec, key: Key) -> str:
    parts = " and ".join(
        f"{name} {shown(str(value))}" for name, value in zip(spec.key, key, strict=True)
    )
    return f"{spec.name}, {parts}"


def _refused(place: str, seen: object, fault: str, accepted: str) -> FolderNotWritten:
    return FolderNotWritten(
        f"The record cannot be handed out: {place}: {fault}; {accepted}.",
        field=place,
        seen=seen,
        accepted=accepted,
    )
