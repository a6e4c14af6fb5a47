"""When and where the last backup was made, for the front page and for looking over."""

import json
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from wareboard.records.pictures.disk import Disk

from .data_folder import DataFolder, read_note

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
    """

    made_at: datetime
    path: Path
    size_bytes: int
    sha256: str

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
        )
    except (KeyError, TypeError, ValueError):
        return None


def note_backup(folder: DataFolder, backup: LastBackup, *, disk: Disk | None = None) -> None:
    """Write the note."""
    note = {
        "made_at": backup.made_at.isoformat(timespec="seconds"),
        "path": str(backup.path),
        "size_bytes": backup.size_bytes,
        "sha256": backup.sha256,
    }
    content = json.dumps(note, indent=2, ensure_ascii=False).encode() + b"\n"
    (disk or Disk()).write_whole(folder.last_backup, content)
