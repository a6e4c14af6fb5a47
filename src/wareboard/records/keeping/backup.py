"""Making a backup, and trying it out before it gets its name.

The record is copied by SQLite's own backup, in a connection of its own, while
others may write. The originals follow: they never change, so whatever the copy
names is the same file before and after. Then the whole is unpacked and checked
as it would be on the day of need. Only what passed gets the name it was asked
for; a failure leaves nothing under that name and touches no older backup.
"""

import hashlib
import secrets
import shutil
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import BinaryIO, cast

from wareboard import __version__
from wareboard.records.pictures.disk import Disk, draft_name, free_name

from . import data_folder, database, manifest, places
from .data_folder import DataFolder, read_note
from .last_backup import LastBackup, note_backup
from .manifest import KeptFile, Manifest, refused
from .refusals import BackupRefused
from .unpacking import CHUNK_BYTES, unpack

# What ends with the studio's day and must open nothing elsewhere.
NOT_KEPT = ("django_session", "wareboard_sign_in_key", "wareboard_attempt")
PLAIN_FILE = 0o100600


@dataclass(frozen=True)
class Kept:
    """A backup that was made and tried out.

    Attributes
    ----------
    backup : LastBackup
        Where it is, and its hash.
    manifest : Manifest
        What is in it.
    cautions : tuple of str
        What its owner should know.
    """

    backup: LastBackup
    manifest: Manifest
    cautions: tuple[str, ...]


class SteppedFile:
    """A file whose every write goes through the disk, for the zip writer."""

    def __init__(self, file: BinaryIO, path: Path, disk: Disk) -> None:
        self.file, self.path, self.disk = file, path, disk
        self.seek, self.tell, self.flush, self.close = file.seek, file.tell, file.flush, file.close

    def write(self, chunk: bytes) -> int:
        """Write through the disk."""
        self.disk.write(self.file, chunk, self.path)
        return len(chunk)


def keep(folder: DataFolder, path: Path, *, disk: Disk | None = None) -> Kept:
    """Make a backup of a studio.

    Parameters
    ----------
    folder : DataFolder
        The studio; it may be open meanwhile.
    path : Path
        The file to make, or a folder to make it in.
    disk : Disk, optional
        The file operations; a test gives one that fails.

    Raises
    ------
    RecordLost
        If there is no record to keep, or it is damaged.
    BackupRefused
        If the backup cannot be made; nothing stands under its name.
    """
    disk = disk or Disk()
    data_folder.closed_to_others()
    refuse_nothing(folder)
    now = datetime.now(UTC)
    target = target_file(path, now)
    part = draft_name(target)
    try:
        with workshop(folder, disk) as shop:
            pack(folder, part, shop, now, disk)
            disk.make_folder(shop / "trial")
            found = unpack(part, shop / "trial", disk=disk, trial=True)
            size_bytes, sha256 = part.stat().st_size, hash_of(part)
            give_name(part, target, disk)
        same_disk = places.on_same_disk(target, folder.path)
        backup = LastBackup(now, target, size_bytes, sha256, same_disk=same_disk)
    except (OSError, database.DatabaseError) as error:
        raise refused(
            f"The backup could not be written to {target}: {database.why(error)}. No file stands"
            " under that name, and older backups are as they were.",
            seen=str(path),
            accepted="a stick or a folder that can be written to and has room",
        ) from error
    finally:
        part.unlink(missing_ok=True)
    return Kept(backup, found, cautions_of(folder, backup, found, disk))


def refuse_nothing(folder: DataFolder) -> None:
    """Refuse a folder that has no record in it."""
    if not folder.path.is_dir() or data_folder.is_new(folder):
        raise data_folder.refused(folder, f"There is no record in {folder.path}.")


def target_file(path: Path, now: datetime) -> Path:
    """Give the file to make; one that exists is never written over."""
    path = path.expanduser().absolute()
    if path.is_dir():
        path = free_name(path / f"wareboard {now.astimezone():%Y-%m-%d %H%M}.zip")
    if path.exists():
        raise refused(
            f"{path} is there already, and no backup is written over: give another name.",
            seen=str(path),
            accepted="a new name, or a folder to make the backup in",
        )
    if not path.parent.is_dir():
        raise refused(
            f"There is no folder {path.parent} to put the backup in.",
            seen=str(path),
            accepted="a folder that is there, such as a stick that is put in",
        )
    return path


@contextmanager
def workshop(folder: DataFolder, disk: Disk) -> Iterator[Path]:
    """Give a folder to work in, and leave none behind."""
    shop = folder.path / f"{data_folder.WORKSHOP}{secrets.token_hex(4)}.part"
    disk.make_folder(shop)
    try:
        yield shop
    finally:
        shutil.rmtree(shop, ignore_errors=True)


def pack(folder: DataFolder, part: Path, shop: Path, now: datetime, disk: Disk) -> None:
    """Write record, originals and list into one file, and wait until it is on the disk."""
    record = shop / manifest.RECORD_NAME
    disk.step("copy", record)
    database.copy(folder.record, record)
    strip(record)
    rows, record_format, names = contents_of(record)
    files, missing, damaged = [], [], []
    with disk.create(part) as file:
        stepped = cast("BinaryIO", SteppedFile(file, part, disk))
        with zipfile.ZipFile(stepped, "w", zipfile.ZIP_STORED) as archive:
            for name in names:
                original = folder.originals / name
                if not original.is_file():
                    missing.append(name)
                    continue
                files.append(put_in(archive, original, f"originals/{name}", now))
                if files[-1].sha256 != name.partition(".")[0]:
                    damaged.append(name)
            files.append(put_in(archive, record, manifest.RECORD_NAME, now))
            listed = Manifest(
                written_by=__version__,
                made_at=now.isoformat(timespec="seconds"),
                folder=str(read_note(folder.marker).get("folder", "")),
                record_format=record_format,
                rows=rows,
                files=tuple(files),
                missing=tuple(missing),
                damaged=tuple(damaged),
            )
            archive.writestr(member(manifest.NAME, now), listed.as_bytes())
        disk.force(file, part)


def strip(record: Path) -> None:
    """Take out of a copy what opens the studio, so that not a trace is left in the file."""
    with database.opened(record) as connection:
        here = set(database.tables(connection))
        for table in NOT_KEPT:
            if table in here:
                connection.execute(f"DELETE FROM {database.quoted(table)}")  # noqa: S608 - a name of ours, quoted
        connection.execute("VACUUM")


def contents_of(record: Path) -> tuple[dict[str, int], int, list[str]]:
    """Count a record's rows, and name the originals it rests on."""
    damage = database.all_faults(record)
    if damage:
        raise BackupRefused(
            "The record is damaged, so this would be no backup. Copy the whole data folder as it"
            " is, then put your last backup back with wareboard bring-back. For the one who helps"
            f" you: {damage[0]}.",
            field="data",
            seen=damage[0],
            accepted="a record that is whole",
        )
    with database.opened(record) as connection:
        names = [
            f"{sha256}.{suffix}"
            for sha256, suffix in connection.execute(
                "SELECT DISTINCT sha256, suffix FROM wareboard_original ORDER BY sha256, suffix"
            )
        ]
        return database.row_counts(connection), database.pragma(connection, "user_version"), names


def member(name: str, now: datetime) -> zipfile.ZipInfo:
    """Describe a file of the archive: a plain one, for its owner alone."""
    info = zipfile.ZipInfo(name, now.timetuple()[:6])
    info.external_attr = PLAIN_FILE << 16
    return info


def put_in(archive: zipfile.ZipFile, source: Path, name: str, now: datetime) -> KeptFile:
    """Put one file in, hashing what was really read."""
    digest, size_bytes = hashlib.sha256(), 0
    info = member(name, now)
    info.file_size = source.stat().st_size
    with source.open("rb") as file, archive.open(info, "w") as target:
        while chunk := file.read(CHUNK_BYTES):
            digest.update(chunk)
            size_bytes += len(chunk)
            target.write(chunk)
    return KeptFile(name, size_bytes, digest.hexdigest())


def hash_of(path: Path) -> str:
    """Hash a whole file."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def give_name(part: Path, target: Path, disk: Disk) -> None:
    """Give a tried backup its name, or leave nothing under it."""
    disk.rename(part, target)
    try:
        disk.force_folder(target.parent)
    except OSError:
        target.unlink(missing_ok=True)
        raise


def cautions_of(
    folder: DataFolder, backup: LastBackup, found: Manifest, disk: Disk
) -> tuple[str, ...]:
    """Note the backup, and say what its owner should know."""
    cautions = []
    for names, what in ((found.missing, "missing"), (found.damaged, "damaged")):
        if names:
            cautions.append(
                f"{len(names)} photos or sounds were {what} before this backup, {names[0]} among"
                " them; an older backup may have them."
            )
    if backup.same_disk:
        cautions.append(
            "This backup lies on the same disk as the record: a stick would be better, kept in"
            " another house."
        )
    try:
        note_backup(folder, backup, disk=disk)
    except OSError as error:
        cautions.append(
            f"The backup is made, but could not be written down: {database.why(error)}."
        )
    return tuple(cautions)
