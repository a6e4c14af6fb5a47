"""Looking over the record, the originals and the last backup; saying what is wrong.

A fault is something that was right once and is not: it ends the command with
an exit code of its own. A caution is advice, such as that a backup is old.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from . import data_folder, database, places
from .backup import hash_of
from .data_folder import DataFolder
from .last_backup import OLD_AFTER_DAYS, LastBackup, last_backup
from .refusals import RecordLost
from .taken_back import resting_on_what_was_taken_back


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong.

    Attributes
    ----------
    what : str
        ``record``, ``undone``, ``missing``, ``truncated``, ``changed``, ``extra`` or ``backup``.
    name : str
        The file, or the id of the entry, that it is about.
    say : str
        One sentence.
    """

    what: str
    name: str
    say: str


@dataclass(frozen=True)
class LookedOver:
    """What was found.

    Attributes
    ----------
    faults : tuple of Fault
        What is wrong; empty where all is well.
    cautions : tuple of str
        Advice.
    originals : int
        How many originals the record names.
    journal : str
        The record's journal, as SQLite names it; empty where it cannot be read.
    backup : LastBackup or None
        The last backup.
    """

    faults: tuple[Fault, ...]
    cautions: tuple[str, ...]
    originals: int
    journal: str
    backup: LastBackup | None


def look_over(folder: DataFolder, *, now: datetime) -> LookedOver:
    """Check a studio from the first page of the record to the last photo.

    Parameters
    ----------
    folder : DataFolder
        The studio; it may be open meanwhile.
    now : datetime
        For the age of the last backup.

    Raises
    ------
    FolderRefused
        If there is no studio in the folder and never was.
    """
    faults = record_faults(folder)
    backup = last_backup(folder)
    cautions = [*places.doubts_about(folder), *backup_cautions(backup, now)]
    faults.extend(backup_faults(backup))
    listed: dict[str, int] = {}
    journal = ""
    if not faults or faults[0].what != "record":
        listed, journal = listed_originals(folder)
        faults.extend(undone_faults(folder))
        faults.extend(original_faults(folder.originals, listed))
    return LookedOver(tuple(faults), tuple(cautions), len(listed), journal, backup)


def record_faults(folder: DataFolder) -> list[Fault]:
    """Check the database: there, whole, and hanging together."""
    name = folder.record.name
    try:
        if not folder.path.is_dir() or data_folder.is_new(folder):
            raise data_folder.refused(folder, f"There is no record in {folder.path}.")
    except RecordLost as error:
        return [Fault("record", name, error.say)]
    return [
        Fault(
            "record",
            name,
            "The record is damaged: put your last backup back with wareboard bring-back."
            f" For the one who helps you: {found}.",
        )
        for found in database.all_faults(folder.record)
    ]


def listed_originals(folder: DataFolder) -> tuple[dict[str, int], str]:
    """Give the size of every original the record names, and the record's journal."""
    with database.opened(folder.record) as connection:
        rows = connection.execute(
            "SELECT sha256 || '.' || suffix, max(size_bytes) FROM wareboard_original GROUP BY 1"
        )
        return dict(rows.fetchall()), str(database.pragma(connection, "journal_mode"))


def undone_faults(folder: DataFolder) -> list[Fault]:
    """Find entries that stand though what they rest on was taken back."""
    with database.opened(folder.record) as connection:
        found = resting_on_what_was_taken_back(connection)
    return [
        Fault(
            "undone",
            one.row_id,
            f"The {one.what} {one.row_id} stands, though the {one.on} {one.on_id} below it was"
            " taken back.",
        )
        for one in found
    ]


def original_faults(originals: Path, listed: dict[str, int]) -> Iterable[Fault]:
    """Check every photo and sound, byte for byte."""
    here = {file.name: file for file in originals.iterdir()} if originals.is_dir() else {}
    for name, size_bytes in sorted(listed.items()):
        if name not in here:
            yield Fault(
                "missing", name, f"The photo or sound {name} is missing; a backup may have it."
            )
        elif here[name].stat().st_size < size_bytes:
            yield Fault(
                "truncated", name, f"The photo or sound {name} is cut off; a backup may have it."
            )
        elif sha256_of(here[name]) != name.partition(".")[0]:
            yield Fault(
                "changed",
                name,
                f"The photo or sound {name} is no longer what it was; a backup may have it.",
            )
    for name in sorted(here.keys() - listed.keys()):
        if not data_folder.LITTER.match(name):
            yield Fault("extra", name, f"No entry of the record names the photo or sound {name}.")


def sha256_of(path: Path) -> str:
    """Hash a file; nothing where it cannot be read."""
    try:
        return hash_of(path)
    except OSError:
        return ""


def backup_faults(backup: LastBackup | None) -> list[Fault]:
    """See that the last backup, where it is at hand, is still what it was."""
    if backup is None or not backup.path.is_file() or sha256_of(backup.path) == backup.sha256:
        return []
    return [
        Fault(
            "backup",
            backup.path.name,
            f"The last backup, {backup.path}, is no longer what it was. Make another now.",
        )
    ]


def backup_cautions(backup: LastBackup | None, now: datetime) -> list[str]:
    """Say what is to be said of the last backup's age and place."""
    if backup is None:
        return ["No backup was ever made: put in a stick and run wareboard keep."]
    cautions = []
    if backup.is_old(now):
        cautions.append(
            f"The last backup is {backup.age_days(now):.0f} days old; {OLD_AFTER_DAYS} are enough."
        )
    if backup.same_disk:
        cautions.append(
            "The last backup lies on the same disk as the record: a stick would be better."
        )
    if not backup.path.exists():
        cautions.append(f"The last backup, {backup.path}, is not at hand and was not looked at.")
    return cautions
