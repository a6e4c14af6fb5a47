"""Rows of the demo's tables, filled up with the models' own defaults."""

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from wareboard.records.keeping.tables import KEPT, fields_of

ZONE = ZoneInfo("Europe/London")
YEAR = 2026
POTTER = "the-potter"
WRITTEN_DOWN_AFTER = timedelta(minutes=2)


def when(text: str) -> datetime:
    """Read a month, a day and an hour of the demo's year: ``09-13 05:30``."""
    return datetime.fromisoformat(f"{YEAR}-{text}").replace(tzinfo=ZONE)


class Ledger:
    """The rows of every table of a record folder, as they grow."""

    def __init__(self) -> None:
        self.rows: dict[str, list[dict[str, Any]]] = {kept.name: [] for kept in KEPT}
        self._fields = {kept.name: fields_of(kept.model) for kept in KEPT}
        self._ids: dict[str, set[str]] = {kept.name: set() for kept in KEPT}

    def add(self, table: str, row_id: str, **facts: Any) -> str:
        """Add a row; columns that are not given take the model's default.

        Raises
        ------
        ValueError
            If the table has no such column, or the id is taken.
        """
        fields = self._fields[table]
        unknown = facts.keys() - {field.name for field in fields}
        if unknown:
            raise ValueError(f"{table} has no column {', '.join(sorted(unknown))}")
        if row_id in self._ids[table]:
            raise ValueError(f"{table} has {row_id} already")
        self._ids[table].add(row_id)
        row = {field.name: facts.get(field.name, field.get_default()) for field in fields}
        row["id"] = row_id
        self.rows[table].append({name: getattr(cell, "value", cell) for name, cell in row.items()})
        return row_id

    def entry(
        self, table: str, entry_id: str, at: datetime, *, kept: datetime | None = None, **facts: Any
    ) -> str:
        """Add an entry: what happened when, written down by the potter soon after."""
        return self.add(
            table, entry_id, at=at, kept_at=kept or at + WRITTEN_DOWN_AFTER, by=POTTER, **facts
        )

    def parts(
        self, table: str, owner: str, entry_id: str, lines: Iterable[Mapping[str, Any]]
    ) -> None:
        """Add the lines of an entry, numbered from 1."""
        for number, line in enumerate(lines, start=1):
            row_id = f"{entry_id}-{number:03d}"
            self.add(table, row_id, position=number, **{owner: entry_id}, **line)

    def find(self, table: str, entry_id: str) -> dict[str, Any]:
        """Give a row by its id."""
        return next(row for row in self.rows[table] if row["id"] == entry_id)
