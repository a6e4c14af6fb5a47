"""What a table of the record looks like: its columns, their kinds and references.

The rooms of the record declare their tables with these; the record folder knows
nothing else about them.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import KW_ONLY, dataclass
from datetime import date, datetime
from typing import Literal

KINDS = ("string", "integer", "number", "boolean", "date", "datetime")
Kind = Literal["string", "integer", "number", "boolean", "date", "datetime"]
Value = str | int | float | bool | date | datetime | None
Row = Mapping[str, Value]

ORIGINALS = "originals"
"""Name of the table that lists the photos and sounds; columns may refer to it."""

NAME = re.compile(r"[a-z][a-z0-9_]{0,62}")
# One operating system keeps these names for devices, whatever their ending.
DEVICE = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")
KEY_KINDS = ("string", "integer", "date", "datetime")


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table.

    Parameters
    ----------
    name : str
        Lower-case letters, digits and underscores; carries the unit if it has one.
    kind : str
        ``string``, ``integer``, ``number``, ``boolean``, ``date`` or ``datetime``.
    unit : str
        Unit of the number, for people: ``g``, ``mm``, ``°C``.
    title, description : str
        What stands in it, in plain words.
    required : bool
        True if no row may leave it blank.
    choices : tuple of str
        The texts that may stand in it; any, if empty.
    refers_to : str, optional
        Name of the table whose key must hold the value, also the table itself,
        or ``ORIGINALS`` where the value is the path of a photo or sound.
    minimum, maximum : float, optional
        Least and greatest number that may stand in it.

    Raises
    ------
    ValueError
        If the declaration contradicts itself.
    """

    name: str
    kind: Kind
    unit: str = ""
    _: KW_ONLY
    title: str = ""
    description: str = ""
    required: bool = False
    choices: tuple[str, ...] = ()
    refers_to: str | None = None
    minimum: float | None = None
    maximum: float | None = None

    def __post_init__(self) -> None:
        """Refuse a declaration that contradicts itself."""
        if not NAME.fullmatch(self.name):
            raise ValueError(f"{self.name!r} is no name for a column")
        if self.kind not in KINDS:
            raise ValueError(f"{self.name}: {self.kind!r} is no kind of column")
        if self.choices and self.kind != "string":
            raise ValueError(f"{self.name}: only text has choices")
        if (self.minimum, self.maximum) != (None, None) and self.kind not in {"integer", "number"}:
            raise ValueError(f"{self.name}: only numbers have a least and a greatest value")
        if self.refers_to == ORIGINALS and self.kind != "string":
            raise ValueError(f"{self.name}: a photo is referred to by its path, which is text")


@dataclass(frozen=True, slots=True)
class TableSpec:
    """One table of the record.

    Parameters
    ----------
    name : str
        Also the name of its file, without ``.csv``.
    title, description : str
        What one row of it is, in plain words.
    columns : tuple of Column
        In the order in which they are written.
    key : tuple of str
        Columns that tell the rows apart; rows are sorted by them.
    optional : bool
        True if a folder without it is whole all the same.

    Raises
    ------
    ValueError
        If the declaration contradicts itself.
    """

    name: str
    title: str
    description: str
    columns: tuple[Column, ...]
    key: tuple[str, ...] = ("id",)
    optional: bool = False

    def __post_init__(self) -> None:
        """Refuse a declaration that contradicts itself."""
        if not NAME.fullmatch(self.name) or DEVICE.fullmatch(self.name):
            raise ValueError(f"{self.name!r} is no name for a table")
        names = self.column_names
        if len(set(names)) != len(names):
            raise ValueError(f"{self.name}: a column is declared twice")
        if not self.key:
            raise ValueError(f"{self.name}: a table needs a key")
        for part in self.key:
            if part not in names or self.column(part).kind not in KEY_KINDS:
                raise ValueError(f"{self.name}: {part!r} cannot be part of the key")

    @property
    def file(self) -> str:
        """Name of its file in the folder."""
        return f"{self.name}.csv"

    @property
    def column_names(self) -> tuple[str, ...]:
        """Names of its columns, in order."""
        return tuple(column.name for column in self.columns)

    def column(self, name: str) -> Column:
        """Find a column by its name."""
        return next(column for column in self.columns if column.name == name)

    def needs(self, column: Column) -> bool:
        """Tell whether a column may not be blank: if it is required or in the key."""
        return column.required or column.name in self.key


ORIGINALS_TABLE = TableSpec(
    name=ORIGINALS,
    title="Photos and sounds",
    description="The original files in this folder, one a row.",
    columns=(
        Column(
            "path",
            "string",
            title="File",
            description="Where the file lies. Its name is the SHA-256 of what is in it.",
        ),
        Column("size_bytes", "integer", unit="bytes", title="Size", required=True, minimum=0),
    ),
    key=("path",),
)


def layout_of(specs: Sequence[TableSpec]) -> dict[str, TableSpec]:
    """Put the declared tables together and check that their references meet.

    Parameters
    ----------
    specs : sequence of TableSpec
        The tables of the record.

    Returns
    -------
    dict
        Tables by name, the table of originals last.

    Raises
    ------
    ValueError
        If a name is taken twice, or a reference leads nowhere.
    """
    layout = {spec.name: spec for spec in specs}
    if len(layout) != len(specs) or ORIGINALS in layout:
        raise ValueError("two tables of the record have one name")
    layout[ORIGINALS] = ORIGINALS_TABLE
    for spec in specs:
        for column in spec.columns:
            if column.refers_to is None:
                continue
            target = layout.get(column.refers_to)
            if target is None or len(target.key) != 1:
                raise ValueError(f"{spec.name}.{column.name} refers to no table with one key")
            if target.column(target.key[0]).kind != column.kind:
                raise ValueError(f"{spec.name}.{column.name} is not of the kind it refers to")
    return layout
