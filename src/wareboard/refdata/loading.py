"""Read a reference table together with its provenance, or refuse it.

A table is ``tables/<quantity>__<author and year, or maker>.csv``. Beside it
stands a TOML file of the same name that says where the numbers come from and
what they must add up to. A table without that file, or one that no longer
agrees with it, is not read at all: a wrong number here would reach every pot.

The records that the accessors build are named tuples, not dataclasses: they
are made by the hundred at the start of a short command.
"""

import csv
import sys
import tomllib
from collections.abc import Callable, Mapping
from enum import StrEnum
from functools import cache
from math import fsum
from types import MappingProxyType
from typing import NamedTuple, cast

_SUM_TOLERANCE = 1e-6
_WORDS_OF_MANY = {"ideal", "typical", "illustrative", "type"}
_SAID = ("description", "source", "standing", "unit", "uncertainty", "licence")


class TableError(RuntimeError):
    """A reference table that is missing, unexplained or altered."""


class UnknownNameError(LookupError):
    """A name that a reference table does not hold.

    Parameters
    ----------
    kind : str
        What was looked up, as a potter says it: material, oxide, cone.
    name : str
        The name that was asked for.
    near : tuple of str
        Names that look like it.
    """

    def __init__(self, kind: str, name: str, near: tuple[str, ...] = ()) -> None:
        hint = f" Near it: {', '.join(near)}." if near else ""
        super().__init__(f"There is no {kind} called {name!r}.{hint}")
        self.kind = kind
        self.name = name
        self.near = near


class Standing(StrEnum):
    """How a value came to be in a table, strongest first.

    GIVEN is not found in the tables: it marks what a supplier's sheet or the
    potter says of a material.
    """

    VERIFIED = "verified"
    COMPUTED = "computed"
    GIVEN = "given"
    FROM_MEMORY = "from memory"
    ILLUSTRATIVE = "illustrative"

    @classmethod
    def of(cls, source: str) -> "Standing":
        """Read the standing off the start of a source cell.

        A cell that starts with none of the words is as weak as the weakest
        word in it.

        Parameters
        ----------
        source : str
            Cell of a source or status column.

        Returns
        -------
        Standing
            The standing that the cell declares.

        Raises
        ------
        TableError
            If the cell declares none.
        """
        for standing in cls:
            if source.startswith(standing.value):
                return standing
        for standing in reversed(cls):
            if standing.value in source:
                return standing
        raise TableError(f"The source {source!r} does not say how far it can be trusted.")


class Table(NamedTuple):
    """A table as it stands in its file, every cell still text.

    Attributes
    ----------
    name : str
        File name without ending.
    rows : tuple of mapping
        One mapping of column to cell for each row, in the order of the file.
    provenance : mapping
        What the provenance file says.
    """

    name: str
    rows: tuple[Mapping[str, str], ...]
    provenance: Mapping[str, object]


def packaged(filename: str) -> bytes:
    """Fetch a file from this package's own ``tables`` folder.

    Parameters
    ----------
    filename : str
        Name with ending.

    Returns
    -------
    bytes
        The content.

    Notes
    -----
    The loader of this module reads it, wherever the package lies; that spares
    the import of ``importlib.resources``, a tenth of a short command's time.
    """
    spec = sys.modules[__name__].__spec__
    read = cast("Callable[[str], bytes]", getattr(spec, "loader").get_data)  # noqa: B009 typed as optional there, always present here
    return read(f"{__file__.removesuffix('loading.py')}tables/{filename}")


def read_table(name: str, fetch: Callable[[str], bytes] = packaged) -> Table:
    """Read a table and hold it against its provenance.

    Parameters
    ----------
    name : str
        File name without ending.
    fetch : callable, optional
        Gives the bytes of a file by its name.

    Returns
    -------
    Table
        The rows as text.

    Raises
    ------
    TableError
        If a file is missing, if the provenance leaves something unsaid, or if
        the number of rows, a column sum or a count of standings differs.
    """
    try:
        text = fetch(f"{name}.csv").decode()
    except OSError as error:
        raise TableError(f"There is no table {name}.") from error
    try:
        provenance = tomllib.loads(fetch(f"{name}.toml").decode())
    except OSError as error:
        raise TableError(f"The table {name} has no provenance file {name}.toml.") from error
    except tomllib.TOMLDecodeError as error:
        raise TableError(f"The provenance of {name} cannot be read: {error}.") from error
    header, cells = _split(name, text)
    _hold_against(name, provenance, dict(zip(header, zip(*cells, strict=True), strict=True)))
    rows = tuple(MappingProxyType(dict(zip(header, row, strict=True))) for row in cells)
    return Table(name, rows, MappingProxyType(provenance))


@cache
def load(name: str) -> Table:
    """Read one of our own tables, once.

    Parameters
    ----------
    name : str
        File name without ending.

    Returns
    -------
    Table
        The rows as text.

    Raises
    ------
    TableError
        If the table is missing, unexplained or altered.
    """
    return read_table(name)


def number(cell: str) -> float | None:
    """Turn a cell into a number, an empty one into None.

    Parameters
    ----------
    cell : str
        Digits, or nothing.

    Returns
    -------
    float or None
        The number, or None where the table leaves it open.
    """
    return float(cell) if cell else None


def near_names(name: str, labels: Mapping[str, str]) -> tuple[str, ...]:
    """Find keys whose label shares a word with the name that was asked for.

    Parameters
    ----------
    name : str
        What was asked for.
    labels : mapping of str to str
        What there is: each key with the words it goes by.

    Returns
    -------
    tuple of str
        At most five keys, those with most words in common first.
    """
    asked = _words(name) - _WORDS_OF_MANY
    shared = {key: len(asked & _words(label)) for key, label in labels.items()}
    best = sorted((key for key in labels if shared[key]), key=lambda key: -shared[key])
    return tuple(best[:5])


def _words(text: str) -> set[str]:
    """Split into lower-case words of letters and digits."""
    return set("".join(c if c.isalnum() else " " for c in text.lower()).split())


def _split(name: str, text: str) -> tuple[list[str], list[list[str]]]:
    """Split a table into header and rows, or raise TableError."""
    lines = list(csv.reader(text.splitlines(), strict=True))
    if len(lines) < 2:  # noqa: PLR2004 a header and one row
        raise TableError(f"The table {name} has no rows.")
    header, *cells = lines
    for line, row in enumerate(cells, start=2):
        if len(row) != len(header):
            raise TableError(
                f"Line {line} of {name} has {len(row)} cells where the header has {len(header)}."
            )
    return header, cells


def _hold_against(
    name: str, provenance: Mapping[str, object], columns: Mapping[str, tuple[str, ...]]
) -> None:
    """Raise TableError where the columns and the provenance differ."""
    for key in _SAID:
        if not isinstance(provenance.get(key), str) or not provenance[key]:
            raise TableError(f"The provenance of {name} does not give its {key}.")
    rows = len(next(iter(columns.values())))
    if provenance.get("rows") != rows:
        raise TableError(
            f"The table {name} has {rows} rows, its provenance says {provenance.get('rows')}."
        )
    sums = cast("Mapping[str, float]", provenance.get("sums", {}))
    standings = cast("Mapping[str, Mapping[str, int]]", provenance.get("standings", {}))
    if not sums and not standings:
        raise TableError(f"The provenance of {name} gives nothing that its columns must add up to.")
    for column, said in sums.items():
        found = _sum(name, columns, column)
        if abs(found - said) > _SUM_TOLERANCE:
            raise TableError(
                f"Column {column} of {name} adds up to {found:.6f}, its provenance says {said}."
            )
    for column, counts in standings.items():
        counted = _count_standings(_column(name, columns, column))
        if counted != counts:
            raise TableError(
                f"The standings in column {column} of {name} are {counted}, "
                f"its provenance says {dict(counts)}."
            )


def _sum(name: str, columns: Mapping[str, tuple[str, ...]], column: str) -> float:
    """Add up a column, empty cells aside, or raise TableError."""
    try:
        return fsum(float(cell) for cell in _column(name, columns, column) if cell)
    except ValueError as error:
        raise TableError(f"Column {column} of {name} holds more than numbers: {error}.") from error


def _count_standings(cells: tuple[str, ...]) -> dict[str, int]:
    """Count how many cells declare each standing; empty cells declare none."""
    counted: dict[str, int] = {}
    for cell in cells:
        if cell:
            standing = Standing.of(cell).value
            counted[standing] = counted.get(standing, 0) + 1
    return counted


def _column(name: str, columns: Mapping[str, tuple[str, ...]], column: str) -> tuple[str, ...]:
    """Give a column's cells, or raise TableError where it is gone."""
    try:
        return columns[column]
    except KeyError as error:
        raise TableError(f"The table {name} has no column {column}.") from error
