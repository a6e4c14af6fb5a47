"""Entries that stand though they rest on one that was taken back.

No page lets this happen: it is looked for because a record also comes in from
elsewhere, and because what rests on nothing can neither be shown nor handed out.
The database itself is asked, so that a record can be looked over that this
version of the program would not open.
"""

from dataclasses import dataclass
from typing import Any

from .database import quoted, tables

OURS = "wareboard_"
UNDONE = "undone_at"
# Lines of an entry stand and fall with it; for each table of them the column that names it.
OWNERS = {
    "wareboard_sheet_oxide": "sheet_id",
    "wareboard_recipe_line": "recipe_id",
    "wareboard_form_point": "form_id",
    "wareboard_fault": "verdict_id",
}
MOST_TOLD = 50


@dataclass(frozen=True)
class Resting:
    """One row that stands, and the one below it that does not.

    Attributes
    ----------
    what, row_id : str
        The kind and the id of the row that stands.
    on, on_id : str
        The kind and the id of the one that was taken back.
    """

    what: str
    row_id: str
    on: str
    on_id: str


def resting_on_what_was_taken_back(connection: Any) -> list[Resting]:
    """Find rows that stand and name a row that was taken back, the first fifty."""
    entries = [table for table in tables(connection) if UNDONE in _columns(connection, table)]
    # Few tables hold anything that was taken back: the others need not be asked about.
    gone = [table for table in entries if _holds_undone(connection, table)]
    found: list[Resting] = []
    for table in (*entries, *OWNERS):
        links = [
            (parent, column)
            for _n, _seq, parent, column, *_ in connection.execute(
                f"PRAGMA foreign_key_list({quoted(table)})"
            )
            if parent in gone
        ]
        for parent, column in sorted(links):
            if OWNERS.get(table) != column:
                found += _resting(connection, table, column, parent)
    return found[:MOST_TOLD]


def _holds_undone(connection: Any, table: str) -> bool:
    asked = f"SELECT 1 FROM {quoted(table)} WHERE {UNDONE} IS NOT NULL LIMIT 1"  # noqa: S608 - a name of the schema, quoted
    return connection.execute(asked).fetchone() is not None


def _columns(connection: Any, table: str) -> set[str]:
    return {row[1] for row in connection.execute(f"PRAGMA table_info({quoted(table)})")}


def _resting(connection: Any, table: str, column: str, parent: str) -> list[Resting]:
    """Ask for the rows of one table that name, in one column, what was taken back."""
    owner = OWNERS.get(table)
    stands = f"child.{UNDONE} IS NULL"
    if owner is not None:
        owners = quoted(OURS + owner.removesuffix("_id"))
        stands = (
            f"EXISTS (SELECT 1 FROM {owners} o WHERE o.id = child.{owner} AND o.{UNDONE} IS NULL)"  # noqa: S608 - names of ours, quoted
        )
    rows = connection.execute(
        f"SELECT child.id, child.{quoted(column)} FROM {quoted(table)} child"  # noqa: S608 - names of the schema, quoted
        f" WHERE child.{quoted(column)} IN"
        f" (SELECT below.id FROM {quoted(parent)} below WHERE below.{UNDONE} IS NOT NULL)"
        f" AND {stands} ORDER BY child.id LIMIT {MOST_TOLD}"
    )
    return [Resting(_word(table), pk, _word(parent), below) for pk, below in rows]


def _word(table: str) -> str:
    return table.removeprefix(OURS).replace("_", " ")
