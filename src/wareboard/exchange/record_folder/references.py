"""What rows say of each other: no two of one key, and every reference leads somewhere."""

from collections.abc import Callable, Mapping
from operator import itemgetter
from typing import Any

from wareboard.exchange.record_folder.problems import Findings
from wareboard.exchange.record_folder.spec import ORIGINALS, Column, TableSpec, Value
from wareboard.exchange.record_folder.table_reading import TableRead


def key_of(spec: TableSpec) -> Callable[[Mapping[str, Value]], Any]:
    """Make the function that takes the key out of a row."""
    return itemgetter(*spec.key)


def check_keys(spec: TableSpec, table: TableRead, findings: Findings) -> None:
    """Find rows that have the key of an earlier row.

    Parameters
    ----------
    spec : TableSpec
        The table.
    table : TableRead
        Its rows as read.
    findings : Findings
        Takes what is wrong.
    """
    key = key_of(spec)
    first: dict[Any, int] = {}
    for row, number in zip(table.rows, table.numbers, strict=True):
        if any(part not in row for part in spec.key):
            continue  # told already
        earlier = first.setdefault(key(row), number)
        if earlier != number:
            findings.add(
                spec.file,
                f"stands in row {earlier} already",
                row=number,
                column=" and ".join(spec.key),
                seen=", ".join(str(row[part]) for part in spec.key),
                accepted="every row needs its own",
            )


def check_references(
    layout: Mapping[str, TableSpec], tables: Mapping[str, TableRead], findings: Findings
) -> None:
    """Find references that lead to no row, and photos and sounds that no row refers to.

    Parameters
    ----------
    layout : mapping
        The declared tables, by name.
    tables : mapping
        The tables of the folder, by name.
    findings : Findings
        Takes what is wrong.
    """
    for name, table in tables.items():
        spec = layout[name]
        for column in spec.columns:
            target = tables.get(column.refers_to or "", TableRead())
            # Where a row could not be read, it may be the one referred to.
            if column.refers_to is not None and target.whole:
                _check_column(spec, column, table, layout[column.refers_to], target, findings)
    _check_photos_are_referred_to(layout, tables, findings)


def _check_column(
    spec: TableSpec,
    column: Column,
    table: TableRead,
    target_spec: TableSpec,
    target: TableRead,
    findings: Findings,
) -> None:
    """Find the rows that refer to no row by one column."""
    key = target_spec.key[0]
    known = {row[key] for row in target.rows}
    for row, number in zip(table.rows, table.numbers, strict=True):
        value = row.get(column.name)
        if value is not None and value not in known:
            otherwise = "" if spec.needs(column) else ", or leave it blank"
            findings.add(
                spec.file,
                f"is in no row of {target_spec.file}",
                row=number,
                column=column.name,
                seen=str(value),
                accepted=f"write the {key} of a row there{otherwise}",
            )


def _check_photos_are_referred_to(
    layout: Mapping[str, TableSpec], tables: Mapping[str, TableRead], findings: Findings
) -> None:
    """Find photos and sounds that no row refers to, if any table refers to them at all."""
    referring = [
        (table, column.name)
        for name, table in tables.items()
        for column in layout[name].columns
        if column.refers_to == ORIGINALS
    ]
    originals = tables.get(ORIGINALS, TableRead())
    if not referring or not all(
        table.whole and all(name in row for row in table.rows) for table, name in referring
    ):
        return
    referred_to = {row[name] for table, name in referring for row in table.rows}
    for row, number in zip(originals.rows, originals.numbers, strict=True):
        if "path" in row and row["path"] not in referred_to:
            findings.add(
                layout[ORIGINALS].file,
                "belongs to no row of any table",
                row=number,
                column="path",
                seen=str(row["path"]),
                accepted="refer to it, or take out the row and the file",
            )
