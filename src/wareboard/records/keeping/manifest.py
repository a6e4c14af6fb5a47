"""What a backup says of itself: every file with its hash, every table with its rows.

A backup is one zip file::

    originals/<sha256>.<suffix>    photos and spoken notes, byte for byte
    record.sqlite3                 the record, without sessions and keys
    manifest.json                  this

Everything in it is checked against this list, and nothing that is not on the
list is taken out of it.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from datetime import UTC, datetime
from typing import Any, Self

from wareboard import __version__

from .refusals import BackupRefused, RecordNewer

NAME = "manifest.json"
RECORD_NAME = "record.sqlite3"
WHAT = "wareboard backup"
LAYOUT = 1
LARGEST_BYTES = 64_000_000
SAFE_NAME = re.compile(r"record\.sqlite3|originals/[0-9a-f]{64}\.[a-z0-9]{1,5}", re.ASCII)
SHA256 = re.compile(r"[0-9a-f]{64}", re.ASCII)


@dataclass(frozen=True)
class KeptFile:
    """One file of a backup.

    Attributes
    ----------
    name : str
        Name in the backup, with ``/``.
    size_bytes : int
        Its size.
    sha256 : str
        Hash of its bytes.
    """

    name: str
    size_bytes: int
    sha256: str


@dataclass(frozen=True)
class Manifest:
    """A backup's list of contents.

    Attributes
    ----------
    written_by : str
        Version of the program.
    made_at : str
        When, ISO 8601 with offset.
    folder : str
        Id of the data folder it was made of.
    record_format : int
        The record's ``user_version``.
    rows : mapping of str to int
        Rows of every table.
    files : tuple of KeptFile
        Every file but this list.
    missing : tuple of str
        Originals the record names that were not there.
    damaged : tuple of str
        Originals whose bytes no longer have the hash in their name; kept as they are.
    """

    written_by: str
    made_at: str
    folder: str
    record_format: int
    rows: Mapping[str, int]
    files: tuple[KeptFile, ...]
    missing: tuple[str, ...] = ()
    damaged: tuple[str, ...] = ()

    def moment(self) -> datetime:
        """Give the time it was made."""
        moment = datetime.fromisoformat(self.made_at)
        return moment if moment.tzinfo else moment.replace(tzinfo=UTC)

    def as_bytes(self) -> bytes:
        """Write the list as JSON."""
        whole = {"what": WHAT, "layout": LAYOUT, **asdict(self)}
        return json.dumps(whole, indent=1, sort_keys=True).encode() + b"\n"

    @classmethod
    def read(cls, content: bytes) -> Self:
        """Read a list that may have been written by anyone.

        Raises
        ------
        BackupRefused
            If it is no list of a backup.
        RecordNewer
            If a later version wrote it.
        """
        try:
            whole = json.loads(content)
            if whole["what"] != WHAT:
                raise not_ours(f"it calls itself {str(whole['what'])[:40]!r}")
            refuse_newer_layout(whole)
            manifest = cls(**{field.name: whole[field.name] for field in fields(cls)})
            return manifest.checked()
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
            if isinstance(error, BackupRefused | RecordNewer):
                raise
            raise not_ours("its list of contents cannot be read") from error

    def checked(self) -> Self:
        """Check every value, and give the files their type."""
        kept = tuple(checked_file(file) for file in self.files)
        names = [file.name for file in kept]
        if len(set(names)) != len(names) or RECORD_NAME not in names:
            raise not_ours("its list of contents names a file twice, or no record")
        self.moment()
        rows = {str(table): natural(count) for table, count in self.rows.items()}
        return type(self)(
            written_by=text(self.written_by),
            made_at=text(self.made_at),
            folder=text(self.folder),
            record_format=natural(self.record_format),
            rows=rows,
            files=kept,
            missing=tuple(text(name) for name in self.missing),
            damaged=tuple(text(name) for name in self.damaged),
        )


def checked_file(file: Any) -> KeptFile:
    """Check one line of the list."""
    kept = KeptFile(text(file["name"]), natural(file["size_bytes"]), text(file["sha256"]))
    if not SAFE_NAME.fullmatch(kept.name) or not SHA256.fullmatch(kept.sha256):
        raise not_ours(f"its list of contents names {kept.name[:80]!r}")
    return kept


def text(value: object) -> str:
    """Give a text that is one, and not endless."""
    if not isinstance(value, str) or len(value) > 200:  # noqa: PLR2004 - longer than any name in it
        raise not_ours("its list of contents cannot be read")
    return value


def natural(value: object) -> int:
    """Give a whole number that is one."""
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise not_ours("its list of contents cannot be read")
    return value


def refuse_newer_layout(whole: Mapping[str, Any]) -> None:
    """Refuse a backup laid out by a later version."""
    if natural(whole["layout"]) > LAYOUT:
        raise RecordNewer(
            f"This backup was made by version {text(whole['written_by'])} of Wareboard: install"
            " that version or a newer one. Nothing was changed.",
            field="path",
            seen=f"version {text(whole['written_by'])}",
            accepted=f"a backup of version {__version__} or older",
        )


def not_ours(why: str) -> BackupRefused:
    """Say that a file is no backup of this program, or not a whole one."""
    return refused(f"This is no whole Wareboard backup: {why}. Nothing was changed.", seen=why)


def refused(
    say: str, *, seen: object, accepted: str = "a whole backup of Wareboard"
) -> BackupRefused:
    """Say why a backup cannot be made or put back, and what would do."""
    return BackupRefused(say, field="path", seen=seen, accepted=accepted)
