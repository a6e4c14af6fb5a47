"""The storage settings that promises rest on are in force on a real connection."""

import pytest
from django.db import OperationalError, connection, connections, transaction

from wareboard.records.keeping import database
from wareboard.web.sqlite import base

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("pragma", "value"),
    [
        ("journal_mode", "wal"),
        ("synchronous", 2),
        ("foreign_keys", 1),
        ("trusted_schema", 0),
        ("cell_size_check", 1),
        ("mmap_size", 0),
        ("busy_timeout", 20_000),
        ("legacy_alter_table", 0),
    ],
)
def test_setting_is_in_force(pragma, value):
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA {pragma}")
        found = cursor.fetchone()

    assert found == (value,)


def test_sqlite_is_the_bundled_one_without_the_fault_of_its_log():
    with connection.cursor() as cursor:
        cursor.execute("SELECT sqlite_version()")
        (version,) = cursor.fetchone()

    assert tuple(map(int, version.split("."))) == database.sqlite_version()
    assert database.sqlite_version() >= (3, 51, 3)


def test_older_sqlite_gets_the_journal_it_may_be_trusted_with(tmp_path, monkeypatch):
    monkeypatch.setattr(database, "sqlite_version", lambda: (3, 51, 2))
    base.journal_mode.cache_clear()

    mode = base.journal_mode(tmp_path / "record.sqlite3")

    base.journal_mode.cache_clear()
    assert mode == "DELETE"


def test_rollback_journal_is_waited_for_to_be_gone(tmp_path, monkeypatch):
    monkeypatch.setattr(base, "journal_mode", lambda _: "DELETE")
    path = tmp_path / "record.sqlite3"
    with database.opened(path, mode="rwc") as made:
        made.execute("CREATE TABLE pots (name)")
    found = wrapper_for(path)

    with found.cursor() as cursor:
        cursor.execute("PRAGMA journal_mode")
        mode = cursor.fetchone()
        cursor.execute("PRAGMA synchronous")
        synchronous = cursor.fetchone()
    found.close()

    assert (mode, synchronous) == (("delete",), (3,))


def test_record_on_a_network_share_gets_no_write_ahead_log(tmp_path, monkeypatch):
    monkeypatch.setattr(base.places, "on_network_share", lambda _: True)
    base.journal_mode.cache_clear()

    mode = base.journal_mode(tmp_path / "record.sqlite3")

    base.journal_mode.cache_clear()
    assert mode == "DELETE"


def wrapper_for(path):
    found = connections["default"].copy("elsewhere")
    found.settings_dict = {**found.settings_dict, "NAME": str(path)}
    return found


def test_missing_record_is_never_made_by_connecting(tmp_path):
    missing = wrapper_for(tmp_path / "record.sqlite3")

    with pytest.raises(OperationalError, match="unable to open"):
        missing.ensure_connection()

    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("replaced", [False, True], ids=["deleted", "replaced"])
def test_record_that_is_taken_away_gets_no_more_entries(tmp_path, replaced):
    path = tmp_path / "record.sqlite3"
    with database.opened(path, mode="rwc") as made:
        made.execute("CREATE TABLE pots (name)")
    found = wrapper_for(path)
    found.alias = "default"
    with found.cursor() as cursor:
        cursor.execute("INSERT INTO pots VALUES ('jug')")
    path.rename(tmp_path / "taken away.sqlite3")
    if replaced:
        path.write_bytes((tmp_path / "taken away.sqlite3").read_bytes())

    with pytest.raises(OperationalError, match="taken away or replaced"):
        found._start_transaction_under_autocommit()  # noqa: SLF001 - what every atomic block calls

    found.close()


def test_writes_begin_by_taking_the_lock():
    """Two that read first and write then would lock each other out."""
    assert connection.settings_dict["OPTIONS"]["transaction_mode"] == "IMMEDIATE"


def test_a_text_is_refused_where_a_number_belongs(studio):
    with (
        pytest.raises(Exception, match="constraint failed"),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute("UPDATE wareboard_studio SET scale_step_g = '12,5'")
