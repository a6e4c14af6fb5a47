"""An older record is brought up to date on a copy; a newer one is refused; never half of it."""

import pytest

from wareboard import __version__
from wareboard.records.keeping import database, migrating
from wareboard.records.keeping.data_folder import DataFolder, prepare
from wareboard.records.keeping.refusals import FolderRefused, RecordLost, RecordNewer

from .conftest import contents, names_in
from .failing_disk import DyingMachine, FailingDisk, in_a_child

pytestmark = pytest.mark.django_db


def shelf_tables(folder: DataFolder) -> list[str]:
    with database.opened(folder.record) as connection:
        return [name for name in database.tables(connection) if "verdict" in name]


def test_older_record_is_brought_up_to_date_and_keeps_its_rows(older):
    before = contents(older)

    ran = migrating.bring_up_to_date(older)

    after = contents(older)
    kept = {name: rows for name, rows in after.items() if name in before}
    assert {app for app, _ in ran} == {"wareboard_shelf"}
    assert kept | {"django_migrations": []} == before | {"django_migrations": []}
    assert shelf_tables(older) != []
    assert migrating.pending(older.record) == frozenset()


def test_record_as_it_was_is_kept_before_it_is_changed(older):
    before = contents(older)

    migrating.bring_up_to_date(older)

    (kept,) = older.backups.iterdir()
    assert kept.name.startswith(f"before {__version__}")
    with database.opened(kept) as connection:
        rows = database.row_counts(connection)
    assert rows == {name: len(found) for name, found in before.items() if isinstance(found, list)}


def test_record_of_this_version_is_not_touched(folder):
    before = folder.record.read_bytes()

    ran = migrating.bring_up_to_date(folder)

    assert (ran, folder.record.read_bytes(), names_in(folder.backups)) == (frozenset(), before, [])


def test_bringing_up_to_date_says_so(older):
    said = []

    migrating.bring_up_to_date(older, say=said.append)

    assert len(said) == 1
    assert __version__ in said[0]


def test_pending_migrations_are_never_served(older):
    with pytest.raises(FolderRefused, match="wareboard open"):
        migrating.refuse_unless_current(older)


def test_current_record_may_be_served(folder):
    migrating.refuse_unless_current(folder)


def test_missing_record_is_never_served(folder):
    folder.record.unlink()

    with pytest.raises(RecordLost):
        migrating.refuse_unless_current(folder)

    assert not folder.record.exists()


def test_migration_of_a_later_version_is_refused_by_name(folder):
    with database.opened(folder.record) as connection:
        connection.execute(
            "INSERT INTO django_migrations (app, name, applied)"
            " VALUES ('wareboard_ware', '0099_lids', '2030-01-01')"
        )
    folder.marker.write_text('{"written_by": "9.1"}')
    before = folder.record.read_bytes()

    with pytest.raises(RecordNewer, match=r"9\.1.*wareboard_ware 0099_lids"):
        migrating.bring_up_to_date(folder)

    assert folder.record.read_bytes() == before


def test_format_of_a_later_version_is_refused(folder):
    with database.opened(folder.record) as connection:
        connection.execute("PRAGMA user_version=2")

    with pytest.raises(RecordNewer, match="format is 2"):
        migrating.pending(folder.record)


def test_record_that_does_not_hang_together_is_not_migrated(older):
    with database.opened(older.record) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("UPDATE wareboard_original SET studio_id = 'nobody'")
    before = contents(older)

    with pytest.raises(RecordLost, match="does not pass its check"):
        migrating.bring_up_to_date(older)

    assert contents(older) == before


def test_migration_that_fails_leaves_the_record_as_it_was(older):
    with database.opened(older.record) as connection:
        connection.execute("CREATE TABLE wareboard_verdict (in_the_way)")
    before = contents(older)

    with pytest.raises(FolderRefused, match="It is as it was before"):
        migrating.bring_up_to_date(older)

    assert contents(older) == before
    assert [name for name in names_in(older.path) if "draft" in name] == []


def test_disk_that_fails_leaves_the_old_record_or_the_new(older):
    before, step = contents(older), 0
    for step in range(1, 50):
        try:
            migrating.bring_up_to_date(older, disk=FailingDisk(step))
        except FolderRefused:
            current = migrating.pending(older.record) == frozenset()
            assert current or contents(older) == before
            assert [name for name in names_in(older.path) if "draft" in name] == []
            if current:
                break
        else:
            break

    assert step > 4
    assert migrating.pending(older.record) == frozenset()


def test_machine_that_dies_leaves_the_old_record_or_the_new(older):
    before, outcomes = contents(older), []
    for step in range(1, 50):
        finished = in_a_child(
            lambda step=step: migrating.bring_up_to_date(older, disk=DyingMachine(step))
        )
        with database.opened(older.record) as connection:
            assert database.pragma(connection, "integrity_check") == "ok"
        current = migrating.pending(older.record) == frozenset()
        assert current or contents(older) == before
        outcomes.append(current)
        if finished or current:
            break

    assert outcomes.index(True) > 3


def test_new_record_is_stamped_and_whole(tmp_path):
    folder = DataFolder(tmp_path / "new")
    prepare(folder)

    migrating.make_new(folder)

    with database.opened(folder.record) as connection:
        stamped = (
            database.pragma(connection, "application_id"),
            database.pragma(connection, "user_version"),
        )
    assert stamped == (database.APPLICATION_ID, database.RECORD_FORMAT)
    assert database.all_faults(folder.record) == []
    assert migrating.pending(folder.record) == frozenset()


def test_every_migration_is_all_or_nothing():
    """A migration that is not atomic would leave half of itself; there is none."""
    from django.db import connection  # noqa: PLC0415 - needs the test database
    from django.db.migrations.loader import MigrationLoader  # noqa: PLC0415 - as above

    loader = MigrationLoader(connection)

    assert [key for key, found in loader.disk_migrations.items() if not found.atomic] == []


def test_known_migrations_are_those_that_django_finds():
    from django.db import connection  # noqa: PLC0415 - needs the test database
    from django.db.migrations.loader import MigrationLoader  # noqa: PLC0415 - as above

    loader = MigrationLoader(connection)

    assert migrating.known_migrations() == frozenset(loader.disk_migrations)
