"""Bringing a record up to this version, or not touching it at all.

The record is never changed where it lies. A copy goes into ``backups``, a
second copy is brought up to date and checked, and takes the record's name in
one step. Whatever happens before that step, the old record is there as it was.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from django.apps import apps
from django.db import DatabaseError, connections
from django.db.migrations.executor import MigrationExecutor

from wareboard import __version__
from wareboard.records.pictures.disk import Disk, draft_name, free_name

from . import database
from .data_folder import DataFolder, read_note
from .refusals import FolderRefused, RecordLost, RecordNewer

Migration = tuple[str, str]


def known_migrations() -> frozenset[Migration]:
    """Name every migration this version brings."""
    return frozenset(
        (config.label, file.stem)
        for config in apps.get_app_configs()
        for file in (Path(config.path) / "migrations").glob("[0-9]*.py")
    )


def pending(record: Path, *, written_by: str = "") -> frozenset[Migration]:
    """Name the migrations a record still needs.

    Raises
    ------
    RecordNewer
        If it has been through migrations that this version does not know.
    """
    with database.opened(record) as connection:
        applied = database.applied_migrations(connection)
        record_format = database.pragma(connection, "user_version")
    known = known_migrations()
    refuse_newer(applied - known, record_format, written_by=written_by)
    return known - applied


def refuse_newer(
    unknown: frozenset[Migration], record_format: int, *, written_by: str, what: str = "record"
) -> None:
    """Refuse what a later version wrote, naming what is needed."""
    if not unknown and record_format <= database.RECORD_FORMAT:
        return
    steps = ", ".join(f"{app} {name}" for app, name in sorted(unknown)[:3])
    why = f"it has {steps}" if steps else f"its format is {record_format}"
    later = f"version {written_by}" if written_by else "a later version"
    raise RecordNewer(
        f"This {what} was written by {later} of Wareboard, and this is version {__version__}:"
        f" install {later} or a newer one. Nothing was changed. For the one who helps you: {why}.",
        field="data",
        seen=why,
        accepted=f"a {what} of version {__version__} or older",
    )


def refuse_unless_current(folder: DataFolder) -> None:
    """Stop a server that would work on a record of another version.

    Raises
    ------
    FolderRefused
        If there is no record, or it needs to be brought up to date first.
    RecordNewer
        If a later version wrote it.
    """
    try:
        waiting = pending(folder.record)
    except database.DatabaseError as error:
        raise RecordLost(
            f"The record {folder.record} cannot be opened: {error}.",
            field="data",
            seen=str(folder.path),
            accepted="a folder whose record is whole",
        ) from error
    if waiting:
        raise FolderRefused(
            f"The record in {folder.path} is older than this version: start with `wareboard open`,"
            " which brings it up to date safely.",
            field="data",
            seen=str(folder.path),
            accepted=f"a record of version {__version__}",
        )


def make_new(folder: DataFolder, *, disk: Disk | None = None) -> None:
    """Make an empty record of this version; it has its name only when it is whole."""
    disk = disk or Disk()
    with fresh_draft(folder) as draft:
        with database.opened(draft, mode="rwc") as connection:
            database.stamp(connection)
        migrate(draft)
        adopt_draft(folder, disk)


def bring_up_to_date(
    folder: DataFolder, *, say: Callable[[str], None] = lambda _: None, disk: Disk | None = None
) -> frozenset[Migration]:
    """Bring the folder's record to this version, keeping a copy of the old one.

    Parameters
    ----------
    folder : DataFolder
        The folder, held by this process.
    say : callable
        Told in a sentence what is being done.
    disk : Disk, optional
        The file operations; a test gives one that fails.

    Returns
    -------
    frozenset
        The migrations that were run; empty where the record was of this version.

    Raises
    ------
    RecordNewer
        If a later version wrote the record.
    RecordLost
        If the record does not pass its own check, before or after.
    FolderRefused
        If the disk or a migration refuses; the record is as it was.
    """
    disk = disk or Disk()
    waiting = pending(folder.record, written_by=str(read_note(folder.marker).get("written_by", "")))
    if not waiting:
        return waiting
    refuse_damaged(folder.record, "The record")
    try:
        kept = keep_copy(folder, disk)
        say(f"Bringing the record up to version {__version__}; as it was, it is kept in {kept}.")
        with fresh_draft(folder) as draft:
            database.settle(folder.record)
            database.copy(folder.record, draft)
            migrate(draft)
            with database.opened(draft) as connection:
                database.stamp(connection)
            refuse_damaged(draft, "The record, brought up to date,")
            adopt_draft(folder, disk)
    except (OSError, DatabaseError, database.DatabaseError) as error:
        raise FolderRefused(
            f"The record could not be brought up to version {__version__}: {database.why(error)}."
            " It is as it was before.",
            field="data",
            seen=database.why(error),
            accepted="a record that this version can bring up to date",
        ) from error
    return waiting


def refuse_damaged(record: Path, what: str) -> None:
    """Refuse a record that does not pass its own check."""
    found = database.all_faults(record)
    if found:
        raise RecordLost(
            f"{what} does not pass its check ({found[0]}). The old record was not changed.",
            field="data",
            seen=found[0],
            accepted="a record that is whole",
        )


def keep_copy(folder: DataFolder, disk: Disk) -> Path:
    """Put a copy of the record aside before it is changed."""
    now = datetime.now(UTC).strftime("%Y-%m-%d %H%M%S")
    kept = free_name(folder.backups / f"before {__version__}, {now}.sqlite3")
    part = draft_name(kept)
    try:
        disk.step("copy", part)
        database.copy(folder.record, part)
        disk.force_file(part)
        disk.rename(part, kept)
        disk.force_folder(folder.backups)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    return kept


@contextmanager
def fresh_draft(folder: DataFolder) -> Iterator[Path]:
    """Give the name for a draft, and leave none behind."""
    remove_draft(folder)
    try:
        yield folder.draft
    finally:
        remove_draft(folder)


def remove_draft(folder: DataFolder) -> None:
    """Throw away a draft that was never finished."""
    for file in (folder.draft, *database.side_files(folder.draft)):
        file.unlink(missing_ok=True)


def adopt_draft(folder: DataFolder, disk: Disk) -> None:
    """Give the draft the record's name, in one step."""
    database.settle(folder.draft)
    disk.force_file(folder.draft)
    for stray in database.side_files(folder.record):
        # A log that belongs to another file destroys the one it is found beside.
        stray.unlink(missing_ok=True)
    disk.replace(folder.draft, folder.record)
    disk.force_folder(folder.path)


def migrate(record: Path) -> None:
    """Run every migration this version brings on a file of its own."""
    alias = "draft"
    connection = connections["default"].copy(alias)
    connection.settings_dict = {**connection.settings_dict, "NAME": str(record)}
    connections[alias] = connection
    try:
        with connection.cursor() as cursor:
            # A draft that is cut off is thrown away; a finished one is forced to the disk whole.
            cursor.execute("PRAGMA synchronous=OFF")
        executor = MigrationExecutor(connection)
        executor.migrate(executor.loader.graph.leaf_nodes())
    finally:
        connection.close()
        del connections[alias]
