"""The demo record under ids of its own, to be changed and taken in beside the demo itself."""

import csv
import re
import shutil
from collections.abc import Callable
from pathlib import Path

from wareboard.exchange.record_folder import ORIGINALS

DEMO = Path(__file__).parents[3] / "src" / "wareboard" / "demo"

Rows = list[dict[str, str]]


def read_rows(folder: Path, table: str) -> Rows:
    with (folder / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def write_rows(folder: Path, table: str, rows: Rows) -> None:
    with (folder / f"{table}.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys(), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def change(folder: Path, table: str, change_rows: Callable[[Rows], object]) -> None:
    """Change one table as a spreadsheet would."""
    rows = read_rows(folder, table)
    change_rows(rows)
    write_rows(folder, table, rows)


def columns_of_ids() -> dict[str, list[str]]:
    """Name the columns of each table that hold an id."""
    from wareboard.records.keeping.tables import specs  # noqa: PLC0415 - needs Django set up

    return {
        spec.name: [
            column.name
            for column in spec.columns
            if column.name in {"id", "together"}
            or (column.refers_to and column.refers_to != ORIGINALS)
        ]
        for spec in specs()
    }


def second_demo(folder: Path) -> Path:
    """Copy the demo, with a letter in front of every id."""
    shutil.copytree(DEMO, folder)
    for table, columns in columns_of_ids().items():
        rows = read_rows(folder, table)
        for row in rows:
            row.update({name: f"x{row[name]}" for name in columns if row[name]})
        write_rows(folder, table, rows)
    return folder


PLACE = re.compile(r"(?P<table>[a-z_]+)\.csv, row (?P<row>\d+)")
