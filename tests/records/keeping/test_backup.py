"""Backups: consistent, complete, tried out, and without what opens the studio."""

import json
import zipfile

import pytest

from wareboard.records.keeping import backup, database
from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.last_backup import last_backup
from wareboard.records.keeping.refusals import BackupRefused, FolderRefused, RecordLost

from .conftest import contents, names_in


def test_backup_holds_every_row_and_every_original(folder, stick):
    before = contents(folder)

    kept = keep(folder, stick / "monday.zip")

    with zipfile.ZipFile(stick / "monday.zip") as archive:
        archive.extractall(stick / "out")
    listed = {name: len(rows) for name, rows in before.items() if isinstance(rows, list)}
    stripped = listed | dict.fromkeys(backup.NOT_KEPT, 0)
    assert dict(kept.manifest.rows) == stripped
    originals = {name: content for name, content in before.items() if isinstance(content, bytes)}
    assert {f.name: f.read_bytes() for f in (stick / "out/originals").iterdir()} == originals


def test_what_opens_the_studio_is_not_in_a_backup(folder, stick):
    secret = (folder.path / "secret-key").read_bytes()
    with database.opened(folder.record) as connection:
        session = connection.execute("SELECT session_key FROM django_session").fetchone()[0]
        key_hash = connection.execute("SELECT key_hash FROM wareboard_sign_in_key").fetchone()[0]

    keep(folder, stick / "monday.zip")

    written = (stick / "monday.zip").read_bytes()
    assert [word in written for word in (secret, session.encode(), key_hash.encode())] == [
        False,
        False,
        False,
    ]


def test_backup_is_stored_so_that_any_zip_program_reads_it(folder, stick):
    keep(folder, stick / "monday.zip")

    with zipfile.ZipFile(stick / "monday.zip") as archive:
        assert archive.testzip() is None
        assert {member.compress_type for member in archive.infolist()} == {zipfile.ZIP_STORED}


def test_backup_while_others_write_is_one_state_of_the_record(folder, stick):
    with database.opened(folder.record) as connection:
        connection.execute("PRAGMA journal_mode=WAL").fetchall()
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("UPDATE wareboard_studio SET name = 'half done'")

        keep(folder, stick / "monday.zip")

        connection.execute("ROLLBACK")
    with zipfile.ZipFile(stick / "monday.zip") as archive:
        archive.extract("record.sqlite3", stick)
    with database.opened(stick / "record.sqlite3") as connection:
        assert connection.execute("SELECT name FROM wareboard_studio").fetchall() == [
            ("The pottery",)
        ]


def test_folder_as_path_gets_a_file_named_by_the_day(folder, stick):
    kept = keep(folder, stick)

    assert names_in(stick) == [kept.backup.path.name]


def test_a_backup_is_never_written_over(folder, stick):
    older = stick / "monday.zip"
    older.write_bytes(b"last week's")

    with pytest.raises(BackupRefused, match="is there already") as refusal:
        keep(folder, older)

    assert refusal.value.accepted == "a new name, or a folder to make the backup in"
    assert older.read_bytes() == b"last week's"


def test_last_backup_is_remembered(folder, stick):
    kept = keep(folder, stick / "monday.zip")

    found = last_backup(folder)

    assert found is not None
    assert (found.path, found.sha256) == (kept.backup.path, backup.hash_of(kept.backup.path))


def test_missing_original_is_named_and_does_not_prevent_the_backup(folder, stick):
    gone = names_in(folder.originals)[0]
    (folder.originals / gone).unlink()

    kept = keep(folder, stick / "monday.zip")

    assert kept.manifest.missing == (gone,)
    assert [caution for caution in kept.cautions if gone in caution] != []


def test_damaged_original_is_kept_as_it_is_and_named(folder, stick):
    name = names_in(folder.originals)[0]
    (folder.originals / name).write_bytes(b"\xff\xd8\xff half a photo")

    kept = keep(folder, stick / "monday.zip")

    assert kept.manifest.damaged == (name,)
    with zipfile.ZipFile(stick / "monday.zip") as archive:
        assert archive.read(f"originals/{name}") == b"\xff\xd8\xff half a photo"


def test_damaged_record_is_not_kept_as_a_backup(folder, stick):
    with database.opened(folder.record) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("UPDATE wareboard_original SET studio_id = 'nobody'")

    with pytest.raises(BackupRefused, match="The record is damaged"):
        keep(folder, stick / "monday.zip")

    assert names_in(stick) == []


def test_no_record_is_no_backup(tmp_path, folder, stick):
    folder.record.unlink()

    with pytest.raises(RecordLost):
        keep(folder, stick / "monday.zip")

    assert names_in(stick) == []


def test_an_empty_folder_has_nothing_to_keep(tmp_path, stick):
    empty = backup.DataFolder(tmp_path / "nothing here")

    with pytest.raises(FolderRefused, match="no record"):
        keep(empty, stick / "monday.zip")


def test_a_missing_stick_is_said(folder, tmp_path):
    with pytest.raises(BackupRefused, match="no folder") as refusal:
        keep(folder, tmp_path / "no stick" / "monday.zip")

    assert refusal.value.accepted == "a folder that is there, such as a stick that is put in"


def test_list_of_contents_says_what_made_it(folder, stick):
    keep(folder, stick / "monday.zip")

    with zipfile.ZipFile(stick / "monday.zip") as archive:
        listed = json.loads(archive.read("manifest.json"))
    marker = json.loads(folder.marker.read_text())
    assert (listed["what"], listed["folder"]) == ("wareboard backup", marker["folder"])
