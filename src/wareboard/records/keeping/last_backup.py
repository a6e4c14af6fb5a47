"""When and where the last backup was made, for the front page and for looking over."""

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from wareboard.records.pictures.disk import Disk

from .data_folder import DataFolder, read_note
from .places import on_same_disk

OLD_AFTER_DAYS = 7


@dataclass(frozen=True)
class LastBackup:
    """The note of a backup that was made and restored as a trial.

    Attributes
    ----------
    made_at : datetime
        When.
    path : Path
        Where, as it was named then; a stick may be in a drawer since.
    size_bytes : int
        Size of the file.
    sha256 : str
        Hash of the whole file.
    same_disk : bool
        Whether it was made on the disk that holds the record: they would be lost together.
    """

    made_at: datetime
    path: Path
    size_bytes: int
    sha256: str
    same_disk: bool = False

    def age_days(self, now: datetime) -> float:
        """Give its age in days."""
        return (now - self.made_at).total_seconds() / 86_400

    def is_old(self, now: datetime) -> bool:
        """Say whether it is time for another."""
        return self.age_days(now) > OLD_AFTER_DAYS


def last_backup(folder: DataFolder) -> LastBackup | None:
    """Read the note; nothing where no backup was ever made, or the note is no note."""
    note = read_note(folder.last_backup)
    try:
        made_at = datetime.fromisoformat(str(note["made_at"]))
        return LastBackup(
            made_at=made_at if made_at.tzinfo else made_at.replace(tzinfo=UTC),
            path=Path(str(note["path"])),
            size_bytes=int(note["size_bytes"]),
            sha256=str(note["sha256"]),
            same_disk=same_disk_of(folder, note),
        )
    except (KeyError, TypeError, ValueError):
        return None


def same_disk_of(folder: DataFolder, note: dict[str, Any]) -> bool:
    """Tell whether a backup was made on the record's own disk.

    Written down when it was made: a stick in a drawer leaves an empty place behind
    that lies on the machine's own disk. An older note does not say, and its file is asked.
    """
    if "same_disk" in note:
        return bool(note["same_disk"])
    return on_same_disk(Path(str(note["path"])), folder.path)


def note_backup(folder: DataFolder, backup: LastBackup, *, disk: Disk | None = None) -> None:
    """Write the note."""
    note = {
        "made_at": backup.made_at.isoformat(timespec="seconds"),
        "path": str(backup.path),
        "size_bytes": backup.size_bytes,
        "sha256": backup.sha256,
        "same_disk": backup.same_disk,
    }
    content = json.dumps(note, indent=2, ensure_ascii=False).encode() + b"\n"
    (disk or Disk()).write_whole(folder.last_backup, content)
