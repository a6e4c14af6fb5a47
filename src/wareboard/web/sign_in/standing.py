"""How the studio stands, for the status page."""

import shlex
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.db import connection
from django.utils import timezone
from django.utils.safestring import mark_safe

from wareboard import __version__
from wareboard.records.keeping import database
from wareboard.records.keeping.data_folder import DataFolder, default_folder
from wareboard.records.keeping.last_backup import LastBackup, last_backup
from wareboard.records.keeping.places import doubts_about
from wareboard.web.listening import Place


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
    backup_waits : bool
        Whether it is time for another, or for one on another disk.
    phones : bool
        Whether other machines are let in.
    address : str
        Where phones find the studio just now; empty where they are not let in.
    code : str
        The same as a drawing to point a camera at, as SVG.
    doubts : tuple of str
        What is doubtful about where the folder lies.
    """

    version: str
    sqlite: str
    journal: str
    reliable_wal: bool
    folder: Path
    backup: LastBackup | None
    backup_waits: bool
    phones: bool
    address: str
    code: str
    doubts: tuple[str, ...]

    @property
    def named(self) -> str:
        """How a command names this folder; empty where it is the usual one."""
        usual = self.folder.resolve() == default_folder().path.resolve()
        return "" if usual else f" --data {shlex.quote(str(self.folder))}"


def standing_of(data: Path, port: str) -> Standing:
    """Look the studio's state up.

    Parameters
    ----------
    data : Path
        The data folder.
    port : str
        The port the page was asked for on.
    """
    folder = DataFolder(data)
    address = Place(int(port), phones=settings.OPEN_TO_PHONES).on_network()
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
        backup_waits=backup is None or backup.same_disk or backup.is_old(timezone.now()),
        phones=settings.OPEN_TO_PHONES,
        address=address,
        code=code_of(address) if address else "",
        doubts=doubts_about(folder),
    )


def code_of(address: str) -> str:
    """Draw an address as a code, four pixels to a module."""
    import segno  # noqa: PLC0415 - this page alone draws codes

    drawn: str = segno.make(address, micro=False).svg_inline(scale=4, light="white")
    return mark_safe(drawn)  # noqa: S308 - drawn here, of an address of our own
