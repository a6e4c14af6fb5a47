"""How the studio stands, for the status page."""

from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.db import connection
from django.utils import timezone

from wareboard import __version__
from wareboard.records.keeping import database
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import LastBackup, last_backup
from wareboard.records.keeping.places import doubts_about


@dataclass(frozen=True)
class Standing:
    """What a member may want to know of the studio's own state.

    Attributes
    ----------
    version : str
        Of the program.
    sqlite : str
        Version of the bundled SQLite.
    journal : str
        How SQLite keeps a power cut from tearing the record: ``wal`` or ``delete``.
    reliable_wal : bool
        Whether this SQLite's write-ahead log may be trusted.
    folder : Path
        The data folder.
    backup : LastBackup or None
        The last backup.
    backup_old : bool
        Whether it is time for another.
    phones : bool
        Whether other machines are let in.
    doubts : tuple of str
        What is doubtful about where the folder lies.
    """

    version: str
    sqlite: str
    journal: str
    reliable_wal: bool
    folder: Path
    backup: LastBackup | None
    backup_old: bool
    phones: bool
    doubts: tuple[str, ...]


def standing_of(data: Path) -> Standing:
    """Look the studio's state up."""
    folder = DataFolder(data)
    backup = last_backup(folder)
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA journal_mode")
        journal = str(cursor.fetchone()[0])
    return Standing(
        version=__version__,
        sqlite=".".join(map(str, database.sqlite_version())),
        journal=journal,
        reliable_wal=database.sqlite_version() >= database.FIRST_SOUND_WAL,
        folder=folder.path,
        backup=backup,
        backup_old=backup is None or backup.is_old(timezone.now()),
        phones=settings.OPEN_TO_PHONES,
        doubts=doubts_about(folder),
    )
