"""The folder that holds a studio's record.

::

    Wareboard/
        record.sqlite3           everything that was entered
        originals/               photos and spoken notes, named by what is in them
        views/                   smaller pictures made from them; may be thrown away
        cache/                   still pictures of charts; may be thrown away
        backups/                 the record as it was before each change of version
        secret-key               signs the sessions; never handed out
        wareboard-folder.json    says that a record lives here, and whose it is
        last-backup.json         when and where the last backup was made
        in-use                   who has the folder open

The folder is this machine's user's alone. Where a record was once, nothing new
is ever started in its place: the marker file says that one was here.
"""

import json
import os
import re
import shutil
import time
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from uuid import uuid4

from wareboard import __version__
from wareboard.records.pictures.disk import Disk

from . import database
from .refusals import FolderRefused, RecordLost

RECORD = "record.sqlite3"
DRAFT = "record.sqlite3.draft"
ORIGINALS = "originals"
VIEWS = "views"
CACHE = "cache"
BACKUPS = "backups"
MARKER = "wareboard-folder.json"
LAST_BACKUP = "last-backup.json"
LOCK = "in-use"
WORKSHOP = ".keeping."
DAY_S = 86_400
OWN_NAMES = frozenset(
    {RECORD, DRAFT, ORIGINALS, VIEWS, CACHE, BACKUPS, MARKER, LAST_BACKUP, LOCK, "secret-key"}
)
# What a system or a half-finished step of ours may leave lying about.
LITTER = re.compile(
    r"(\.DS_Store|Thumbs\.db|desktop\.ini|secret-key\.[0-9a-f]+|.*-(wal|shm|journal)|\..*\.part)\Z"
)


@dataclass(frozen=True)
class DataFolder:
    """Where everything of one studio lies."""

    path: Path

    @property
    def record(self) -> Path:
        """The database."""
        return self.path / RECORD

    @property
    def draft(self) -> Path:
        """A record being made or brought up to date; becomes the record by one rename."""
        return self.path / DRAFT

    @property
    def originals(self) -> Path:
        """Photos and sounds."""
        return self.path / ORIGINALS

    @property
    def backups(self) -> Path:
        """Copies made before each change of version."""
        return self.path / BACKUPS

    @property
    def marker(self) -> Path:
        """The file that says a record lives here."""
        return self.path / MARKER

    @property
    def last_backup(self) -> Path:
        """The note of the last backup."""
        return self.path / LAST_BACKUP


def default_folder(*, demo: bool = False) -> DataFolder:
    """Name the folder that is used where none is given."""
    return DataFolder(Path.home() / ("Wareboard demo" if demo else "Wareboard"))


def closed_to_others() -> None:
    """Let files made from now on be read by this user alone."""
    os.umask(0o077)


def prepare(folder: DataFolder) -> None:
    """Make the folder where it is missing, and refuse one that is something else.

    Raises
    ------
    FolderRefused
        If there is a file in its place, if it cannot be written to, or if it
        holds somebody's other things.
    """
    closed_to_others()
    path = folder.path
    try:
        if path.exists() and not path.is_dir():
            raise refused(folder, f"{path} is a file, not a folder.")
        if is_someone_elses(folder):
            raise refused(
                folder, f"{path} holds other things: choose an empty folder for the record."
            )
        for made in (path, folder.originals, path / VIEWS, folder.backups):
            made.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise refused(
            folder, f"The folder {path} cannot be used: {error.strerror or error}."
        ) from error
    if not os.access(path, os.W_OK | os.X_OK):
        raise refused(folder, f"The folder {path} cannot be written to.")


def is_someone_elses(folder: DataFolder) -> bool:
    """Say whether a folder has things in it and none of them is a record's."""
    if not folder.path.is_dir():
        return False
    names = {entry.name for entry in folder.path.iterdir()}
    names = {name for name in names if not LITTER.match(name)}
    return bool(names) and not names & OWN_NAMES


def refused(folder: DataFolder, say: str) -> FolderRefused:
    """Say why a folder cannot be used."""
    return FolderRefused(
        say, field="data", seen=str(folder.path), accepted="a folder of your own, on this machine"
    )


def is_new(folder: DataFolder) -> bool:
    """Say whether no record was ever here.

    Raises
    ------
    RecordLost
        If one was here and is missing, empty or damaged.
    """
    record = folder.record
    if record.is_dir():
        raise lost(folder, "there is a folder in its place")
    stands = record.exists()
    if stands and record.stat().st_size > 0:
        damage = database.quick_faults(record)
        if damage:
            raise lost(folder, f"it is damaged ({damage[0]})")
        with database.opened(record) as connection:
            owner = database.pragma(connection, "application_id")
        if owner != database.APPLICATION_ID:
            raise lost(folder, "it is another program's database")
        return False
    if folder.marker.exists() or (folder.originals.is_dir() and any(folder.originals.iterdir())):
        raise lost(folder, "it is empty" if stands else "it is missing")
    return True


def sweep(folder: DataFolder) -> None:
    """Throw away what was half written when the studio stopped; nobody else writes now.

    A backup may be going on beside: what it works on is left alone for a day.
    """
    for place in (folder.originals, folder.path / VIEWS):
        for part in place.glob(".*.part"):
            part.unlink(missing_ok=True)
    for shop in folder.path.glob(f"{WORKSHOP}*"):
        if time.time() - shop.stat().st_mtime > DAY_S:
            shutil.rmtree(shop, ignore_errors=True)


def lost(folder: DataFolder, what: str) -> RecordLost:
    """Say that a record was here, and how to get it back."""
    return RecordLost(
        f"The record {folder.record} cannot be opened: {what}. Nothing was changed; put your last"
        f' backup back with: wareboard bring-back BACKUP.zip --data "{folder.path}"',
        field="data",
        seen=str(folder.path),
        accepted="a folder whose record is whole",
    )


def mark(folder: DataFolder, *, folder_id: str = "") -> dict[str, Any]:
    """Write the marker: a record lives here, last written by this version."""
    known = read_note(folder.marker)
    marker = {
        "folder": folder_id or known.get("folder") or str(uuid4()),
        "made_at": known.get("made_at") or datetime.now(UTC).isoformat(timespec="seconds"),
        "written_by": __version__,
    }
    if marker != known:
        Disk().write_whole(folder.marker, json.dumps(marker, indent=2).encode() + b"\n")
    return marker


def read_note(path: Path) -> dict[str, Any]:
    """Read one of the folder's small notes; an unreadable one says nothing."""
    try:
        note = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return note if isinstance(note, dict) else {}
