"""The files of a folder: those that belong there, and nothing else.

A file that would be passed over is named, because whoever put it there may
believe that it is taken in: a table under another name, a workbook saved
beside its CSV file, a photo that no row knows.
"""

import os
from collections.abc import Iterator
from pathlib import Path

from wareboard.exchange.record_folder import descriptor, readme
from wareboard.exchange.record_folder.limits import Limits
from wareboard.exchange.record_folder.originals import (
    PATH,
    ROOMS,
    Original,
    digest_of,
    original_at,
)
from wareboard.exchange.record_folder.problems import Findings
from wareboard.exchange.record_folder.spec import ORIGINALS_TABLE
from wareboard.exchange.record_folder.table_reading import TableRead
from wareboard.exchange.record_folder.target import is_left_behind

TAKE_AWAY = "take it out of the folder"


def check_entries(folder: Path, table_files: set[str], limits: Limits, findings: Findings) -> None:
    """Find what does not belong beside the tables.

    Parameters
    ----------
    folder : Path
        The record folder.
    table_files : set of str
        Names of the tables' files.
    limits : Limits
        How many files there may be.
    findings : Findings
        Takes what is wrong.
    """
    for entry in _entries(folder, "", limits, findings):
        if entry.is_symlink():
            findings.add(entry.name, "is a link to another place", accepted=TAKE_AWAY)
        elif entry.name in ROOMS:
            if not entry.is_dir():
                findings.add(entry.name, "is no folder", accepted=TAKE_AWAY)
        elif entry.name.endswith(".csv") and entry.name not in table_files:
            findings.add(
                entry.name, "is a table that datapackage.json does not name", accepted=TAKE_AWAY
            )
        elif entry.name not in {descriptor.FILE, readme.FILE, *table_files}:
            findings.add(entry.name, "is no part of a record folder", accepted=TAKE_AWAY)


def check_originals(
    folder: Path, table: TableRead, limits: Limits, findings: Findings
) -> tuple[Original, ...]:
    """Hold the photos and sounds against their table and their names.

    Parameters
    ----------
    folder : Path
        The record folder.
    table : TableRead
        The table of originals.
    limits : Limits
        How many there may be, and how big.
    findings : Findings
        Takes what is wrong.

    Returns
    -------
    tuple of Original
        Those that are what they should be, sorted by path.
    """
    found = {
        f"{room}/{entry.name}": entry
        for room in ROOMS
        if (folder / room).is_dir() and not (folder / room).is_symlink()
        for entry in _entries(folder, room, limits, findings)
    }
    whole = []
    for row, number in zip(table.rows, table.numbers, strict=True):
        path = str(row.get("path"))
        entry = found.pop(path, None)
        if not {"path", "size_bytes"} <= row.keys():
            continue  # told already
        original = original_at(folder, path)
        if original is None:
            findings.add(
                ORIGINALS_TABLE.file,
                "is no path of an original",
                row=number,
                column="path",
                seen=path,
                accepted="write photos/ or sounds/, the SHA-256 of the file, a point and its "
                "ending",
            )
        elif entry is None:
            findings.add(
                ORIGINALS_TABLE.file,
                "is missing from the folder",
                row=number,
                column="path",
                seen=path,
                accepted="put the file back, or take out the row and what refers to it",
            )
        elif fault := _fault(original, entry, row["size_bytes"], limits):
            findings.add(path, fault, accepted="put the original file there")
        else:
            whole.append(original)
    for path in sorted(found):
        if not PATH.fullmatch(path):
            fault = "is no original: its name is not the SHA-256 of a file"
        elif table.whole:
            fault = f"is in no row of {ORIGINALS_TABLE.file}"
        else:
            continue  # the row that could not be read may be its row
        findings.add(path, fault, accepted=TAKE_AWAY)
    return tuple(sorted(whole, key=lambda original: original.path))


def _fault(original: Original, entry: "os.DirEntry[str]", size: object, limits: Limits) -> str:
    """Tell what is wrong with an original file, or nothing."""
    if entry.is_symlink() or not entry.is_file():
        return "is a link or no file at all"
    seen = entry.stat(follow_symlinks=False).st_size
    if seen > limits.original_bytes:
        return f"has {seen} bytes, and at most {limits.original_bytes} are taken"
    if seen != size:
        return f"has {seen} bytes where {ORIGINALS_TABLE.file} says {size}: it is damaged"
    if digest_of(original.source, longest=limits.original_bytes) != original.sha256:
        return "is damaged: its content does not match its name"
    return ""


def _entries(
    folder: Path, room: str, limits: Limits, findings: Findings
) -> Iterator["os.DirEntry[str]"]:
    """Go through a folder, passing over hidden files and what other programs leave behind."""
    with os.scandir(folder / room) as entries:
        listed = []
        for count, entry in enumerate(entries, start=1):
            if count > limits.entries:
                findings.add(
                    room or folder.name,
                    f"holds more than {limits.entries} files",
                    accepted="take out what does not belong there",
                )
                break
            if not entry.name.startswith(".") and not is_left_behind(entry.name):
                listed.append(entry)
    yield from sorted(listed, key=lambda entry: entry.name)
