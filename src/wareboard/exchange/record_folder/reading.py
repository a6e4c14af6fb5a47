"""Taking in: a record folder read whole, or refused with all that is wrong.

Nothing of a folder is believed before it is checked: not its description, not
its paths, not the names of its photos. No other place on the disk is read and
nothing is fetched.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from wareboard.exchange.record_folder import disk
from wareboard.exchange.record_folder.described import read_description
from wareboard.exchange.record_folder.entries import check_entries, check_originals
from wareboard.exchange.record_folder.limits import USUAL, Limits
from wareboard.exchange.record_folder.originals import Original
from wareboard.exchange.record_folder.problems import (
    EnoughProblems,
    Findings,
    FolderRefused,
    Problem,
)
from wareboard.exchange.record_folder.references import check_keys, check_references, key_of
from wareboard.exchange.record_folder.spec import ORIGINALS, TableSpec, Value, layout_of
from wareboard.exchange.record_folder.table_reading import TableRead, read_table

Rows = list[dict[str, Value]]


@dataclass(frozen=True, slots=True)
class RecordFolder:
    """A record folder, read and found whole.

    Attributes
    ----------
    rows_by_table : dict
        For each table in the folder its rows, sorted by their key. Every row
        holds every declared column; a blank cell is None.
    numbers_by_table : dict
        For each table the number of every row in a spreadsheet, by its key.
    originals : tuple of Original
        Photos and sounds, sorted by their path; their source lies in the folder.
    studio_title : str
        Name of the studio that handed it out.
    program_version : str
        Version of the program that wrote it.
    """

    rows_by_table: dict[str, Rows]
    numbers_by_table: dict[str, dict[Any, int]] = field(compare=False)
    originals: tuple[Original, ...]
    studio_title: str
    program_version: str


def read_record_folder(
    path: Path, specs: Sequence[TableSpec], limits: Limits = USUAL
) -> RecordFolder:
    """Read a record folder, all of it or nothing.

    Parameters
    ----------
    path : Path
        The folder.
    specs : sequence of TableSpec
        The tables of the record.
    limits : Limits
        How big the folder may be.

    Returns
    -------
    RecordFolder
        Its rows and originals.

    Raises
    ------
    FolderRefused
        If anything in it is not as it should be; all problems are told.
    ValueError
        If the tables are declared wrongly.
    """
    layout = layout_of(specs)
    folder = Path(path).absolute()
    findings = Findings(limits.problems)
    try:
        read = _read(folder, layout, limits, findings)
    except EnoughProblems:
        raise FolderRefused(findings.problems, all_told=False) from None
    except OSError as error:
        raise FolderRefused([_unreadable(folder, error)]) from error
    if read is None:
        raise FolderRefused(findings.problems)
    return read


def _read(
    folder: Path, layout: Mapping[str, TableSpec], limits: Limits, findings: Findings
) -> RecordFolder | None:
    if not folder.is_dir():
        aside = disk.left_aside(folder)
        accepted = (
            f"rename {aside.name} beside it, which an interrupted handing out left"
            if aside.is_dir()
            else "choose a folder that the program handed out"
        )
        findings.add(folder.name, "is no folder", accepted=accepted)
        return None
    described = read_description(folder, layout, limits, findings)
    if described is None:
        return None
    check_entries(folder, {layout[name].file for name in described.columns}, limits, findings)
    tables = {
        name: read_table(folder, layout[name], columns, limits, findings)
        for name, columns in described.columns.items()
    }
    for name, table in tables.items():
        check_keys(layout[name], table, findings)
    check_references(layout, tables, findings)
    originals = check_originals(folder, tables.get(ORIGINALS, TableRead()), limits, findings)
    if findings.problems:
        return None
    return RecordFolder(
        rows_by_table={
            name: sorted(table.rows, key=key_of(layout[name]))
            for name, table in tables.items()
            if name != ORIGINALS
        },
        numbers_by_table={
            name: dict(zip(map(key_of(layout[name]), table.rows), table.numbers, strict=True))
            for name, table in tables.items()
            if name != ORIGINALS
        },
        originals=originals,
        studio_title=described.studio_title,
        program_version=described.program_version,
    )


def _unreadable(folder: Path, error: OSError) -> Problem:
    """Say which file the system would not let us read."""
    name = Path(str(error.filename)).name if error.filename else folder.name
    one = Findings(2)
    one.add(name, f"cannot be read ({error.strerror or error})", accepted="see that it may be read")
    return one.problems[0]
