"""Putting a backup back: into a new folder beside, checked, then swapped by a rename.

What was there is kept under a name with its date.
"""

import json
import secrets
import shutil
import sys
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

from wareboard import __version__
from wareboard.records.pictures.disk import Disk

from . import data_folder, database, lock
from .backup import hash_of
from .data_folder import DataFolder
from .last_backup import LastBackup, note_backup
from .manifest import Manifest, refused
from .places import on_same_disk
from .refusals import FolderInUse, RecordNewer
from .swapping import COMING, finish_swap, swap
from .unpacking import unpack


@dataclass(frozen=True)
class Brought:
    """A backup that was put back.

    Attributes
    ----------
    manifest : Manifest
        What was in it.
    kept : Path or None
        Where the studio's folder is now as it was; none where there was none.
    """

    manifest: Manifest
    kept: Path | None


def bring_back(
    path: Path,
    folder: DataFolder,
    *,
    bring_up_to_date: Callable[[DataFolder], object],
    disk: Disk | None = None,
) -> Brought:
    """Put a backup back as the studio's data folder.

    Parameters
    ----------
    path : Path
        The backup.
    folder : DataFolder
        The studio; it may be missing, damaged or without anyone who can sign in.
    bring_up_to_date : callable
        Brings the record in a folder to this version; refuses a newer one.
    disk : Disk, optional
        The file operations; a test gives one that fails.

    Raises
    ------
    BackupRefused
        If the backup is not whole or cannot be unpacked.
    RecordNewer
        If a later version made it.
    FolderRefused
        If the folder is open, or holds somebody's other things.
    """
    disk = disk or Disk()
    data_folder.closed_to_others()
    path = path.expanduser().absolute()
    finish_swap(folder)
    refuse_other_things(folder)
    try:
        with ExitStack() as held:
            if folder.path.is_dir():
                held.enter_context(lock.holding(folder))
            remove_unfinished(folder)
            coming = make_place(folder, disk)
            try:
                held.enter_context(lock.holding(coming))
                found = fill(path, coming, disk, bring_up_to_date)
                if sys.platform == "win32":
                    held.close()  # a folder with an open file in it cannot be renamed there
                kept = swap(folder, coming, disk)
            finally:
                shutil.rmtree(coming.path, ignore_errors=True)
    except (OSError, database.DatabaseError) as error:
        raise refused(
            f"The backup could not be put back: {database.why(error)}. Nothing was changed.",
            seen=str(path),
        ) from error
    return Brought(found, kept)


def refuse_other_things(folder: DataFolder) -> None:
    """Refuse to put a studio in place of something that is none."""
    if folder.path.exists() and not folder.path.is_dir():
        raise data_folder.refused(folder, f"{folder.path} is a file, not a folder.")
    if data_folder.is_someone_elses(folder):
        raise data_folder.refused(
            folder, f"{folder.path} holds other things: choose an empty folder for the record."
        )
    if not folder.path.parent.is_dir():
        folder.path.parent.mkdir(mode=0o700, parents=True)


def make_place(folder: DataFolder, disk: Disk) -> DataFolder:
    """Make the folder beside, in which the backup is put together."""
    coming = DataFolder(
        folder.path.with_name(f".{folder.path.name}.{COMING}.{secrets.token_hex(4)}")
    )
    disk.make_folder(coming.path)
    return coming


def fill(
    path: Path,
    coming: DataFolder,
    disk: Disk,
    bring_up_to_date: Callable[[DataFolder], object],
) -> Manifest:
    """Unpack a backup into its new folder, and make a data folder of it."""
    found = unpack(path, coming.path, disk=disk)
    if found.record_format > database.RECORD_FORMAT:
        raise RecordNewer(
            f"This backup was made by version {found.written_by} of Wareboard, and this is version"
            f" {__version__}: install {found.written_by} or a newer one. Nothing was changed.",
            field="path",
            seen=f"version {found.written_by}",
            accepted=f"a backup of version {__version__} or older",
        )
    data_folder.prepare(coming)
    marker = {"folder": found.folder, "made_at": found.made_at, "written_by": found.written_by}
    disk.write_whole(coming.marker, json.dumps(marker, indent=2).encode() + b"\n")
    bring_up_to_date(coming)
    data_folder.mark(coming)
    database.settle(coming.record)
    same_disk = on_same_disk(path, coming.path)
    size_bytes, sha256 = path.stat().st_size, hash_of(path)
    backup = LastBackup(found.moment(), path, size_bytes, sha256, same_disk=same_disk)
    note_backup(coming, backup, disk=disk)
    disk.force_file(coming.record)
    for made in (coming.originals, coming.path):
        disk.force_folder(made)
    return found


def remove_unfinished(folder: DataFolder) -> None:
    """Throw away what an earlier attempt left, unless it is still going on."""
    for left in folder.path.parent.glob(f".{folder.path.name}.{COMING}.*"):
        try:
            with lock.holding(DataFolder(left), patience_s=0.0):
                shutil.rmtree(left, ignore_errors=True)
        except (FolderInUse, OSError):
            continue
