"""Putting a backup back: whole or not at all, with what was there kept beside."""

import hashlib
import json
import shutil
import tempfile
import zipfile
from pathlib import Path

import pytest

from wareboard.records.keeping import database, lock
from wareboard.records.keeping.backup import NOT_KEPT, hash_of, keep
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import last_backup
from wareboard.records.keeping.refusals import (
    BackupRefused,
    FolderInUse,
    FolderRefused,
    RecordNewer,
)
from wareboard.records.keeping.restore import bring_back

from .conftest import contents, names_in


def as_it_is(_folder: DataFolder) -> None:
    """Stand in for bringing up to date where the backup is of this version."""


def put_back(path: Path, folder: DataFolder, **options):
    return bring_back(path, folder, bring_up_to_date=as_it_is, **options)


def without_what_opens(found: dict[str, object]) -> dict[str, object]:
    return found | {table: [] for table in NOT_KEPT}


@pytest.fixture
def monday(folder, stick):
    return keep(folder, stick / "monday.zip").backup.path


def test_restored_backup_equals_the_original(folder, monday, tmp_path):
    elsewhere = DataFolder(tmp_path / "new laptop" / "Töpferei & more")

    put_back(monday, elsewhere)

    assert contents(elsewhere) == without_what_opens(contents(folder))


def test_what_was_there_is_kept_beside(folder, monday):
    with database.opened(folder.record) as connection:
        connection.execute("UPDATE wareboard_studio SET name = 'Tuesday'")
    tuesday = contents(folder)

    brought = put_back(monday, folder)

    assert contents(DataFolder(brought.kept)) == tuesday
    assert contents(folder)["wareboard_studio"] != tuesday["wareboard_studio"]


def test_missing_record_is_brought_back(folder, monday):
    before = contents(folder)
    folder.record.unlink()

    put_back(monday, folder)

    assert contents(folder) == without_what_opens(before)


def test_damaged_record_is_brought_back(folder, monday):
    before = contents(folder)
    folder.record.write_bytes(b"no database" * 1000)

    put_back(monday, folder)

    assert contents(folder) == without_what_opens(before)


def test_backup_without_anyone_who_can_sign_in_is_brought_back(folder, stick, tmp_path):
    with database.opened(folder.record) as connection:
        connection.execute("UPDATE wareboard_member SET person_id = NULL")
        connection.execute("DELETE FROM django_session")
        connection.execute("DELETE FROM wareboard_person")
    backup = keep(folder, stick / "nobody.zip").backup.path

    put_back(backup, DataFolder(tmp_path / "new"))

    with database.opened(tmp_path / "new" / "record.sqlite3") as connection:
        assert database.row_counts(connection)["wareboard_person"] == 0


def test_bringing_back_twice_is_the_same_as_once(folder, monday):
    put_back(monday, folder)
    once = contents(folder)

    put_back(monday, folder)

    assert contents(folder) == once


def test_a_wrong_restore_is_undone_by_the_folder_kept(folder, monday):
    before = contents(folder)

    brought = put_back(monday, folder)
    shutil.rmtree(folder.path)
    brought.kept.rename(folder.path)

    assert contents(folder) == before


def test_brought_back_studio_has_a_key_of_its_own_or_none(folder, monday, tmp_path):
    put_back(monday, DataFolder(tmp_path / "new"))

    assert not (tmp_path / "new" / "secret-key").exists()


def test_brought_back_studio_remembers_the_backup(folder, monday, tmp_path):
    put_back(monday, DataFolder(tmp_path / "new"))

    assert last_backup(DataFolder(tmp_path / "new")).sha256 == hash_of(monday)


def test_open_studio_is_not_swapped_away(folder, monday):
    before = contents(folder)

    with lock.holding(folder), pytest.raises(FolderInUse, match="open already"):
        put_back(monday, folder)

    assert contents(folder) == before


def test_somebodys_documents_are_not_swapped_away(monday, tmp_path):
    documents = tmp_path / "Documents"
    documents.mkdir()
    (documents / "letter.txt").write_text("dear")

    with pytest.raises(FolderRefused, match="other things"):
        put_back(monday, DataFolder(documents))

    assert names_in(documents) == ["letter.txt"]


def test_nothing_is_left_beside_after_a_refusal(folder, stick, tmp_path):
    torn = stick / "torn.zip"
    torn.write_bytes(b"PK\x03\x04 torn")
    before = names_in(tmp_path)

    with pytest.raises(BackupRefused):
        put_back(torn, folder)

    assert names_in(tmp_path) == before


def test_missing_backup_is_said(folder, tmp_path):
    with pytest.raises(BackupRefused, match="cannot be read"):
        put_back(tmp_path / "none.zip", folder)


def rewritten(monday: Path, change) -> Path:
    """Write a backup again with its members changed, as a stranger might."""
    path = monday.with_name("changed.zip")
    with zipfile.ZipFile(monday) as source:
        members = {name: source.read(name) for name in source.namelist()}
    change(members)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for name, content in members.items():
            target.writestr(name, content)
    return path


def list_changed(**values):
    def change(members: dict[str, bytes]) -> None:
        listed = json.loads(members["manifest.json"])
        members["manifest.json"] = json.dumps(listed | values).encode()

    return change


def test_backup_packed_again_by_another_program_is_brought_back(folder, monday, tmp_path):
    again = rewritten(monday, lambda _: None)

    put_back(again, DataFolder(tmp_path / "new"))

    assert contents(DataFolder(tmp_path / "new")) == without_what_opens(contents(folder))


def test_newer_layout_is_refused_by_the_name_of_its_version(folder, monday):
    newer = rewritten(monday, list_changed(layout=2, written_by="9.1"))

    with pytest.raises(RecordNewer, match=r"version 9\.1"):
        put_back(newer, folder)


def record_changed(statement: str, **listed):
    def change(members: dict[str, bytes]) -> None:
        with tempfile.TemporaryDirectory() as place:
            record = Path(place) / "record.sqlite3"
            record.write_bytes(members["record.sqlite3"])
            with database.opened(record) as connection:
                connection.execute(statement)
            members["record.sqlite3"] = content = record.read_bytes()
        whole = json.loads(members["manifest.json"]) | listed
        for file in whole["files"]:
            if file["name"] == "record.sqlite3":
                file |= {"size_bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
        members["manifest.json"] = json.dumps(whole).encode()

    return change


def test_newer_record_is_refused_by_the_name_of_its_version(folder, monday):
    newer = rewritten(
        monday, record_changed("PRAGMA user_version=7", record_format=7, written_by="9.1")
    )

    with pytest.raises(RecordNewer, match=r"version 9\.1"):
        put_back(newer, folder)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (record_changed("PRAGMA application_id=1"), "another program"),
        (
            record_changed("CREATE TRIGGER t AFTER INSERT ON wareboard_person BEGIN SELECT 1; END"),
            "no record of ours",
        ),
        (record_changed("CREATE VIEW wareboard_view AS SELECT 1"), "no record of ours"),
        (record_changed("DELETE FROM wareboard_original"), "rows"),
        (record_changed("CREATE TABLE more (x)"), "rows"),
        (lambda members: members.pop("record.sqlite3"), "missing from it"),
        (lambda members: members.pop("manifest.json"), "no list"),
        (lambda members: members.update({"manifest.json": b"[" * 100_000}), "list of contents"),
        (lambda members: members.update({"manifest.json": b"{}"}), "list of contents"),
        (lambda members: members.update({"../../evil": b"x"}), "evil"),
        (lambda members: members.update({"/etc/evil": b"x"}), "evil"),
        (lambda members: members.update({"originals/../x.jpg": b"x"}), "originals/../x.jpg"),
        (lambda members: members.update({"originals/" + "0" * 64 + ".jpg": b"x"}), "does not name"),
        (list_changed(files=[]), "no record"),
        (list_changed(files=None), "list of contents"),
        (list_changed(rows={"django_session": -1}), "list of contents"),
        (list_changed(made_at="yesterday"), "list of contents"),
        (list_changed(what="somebody else's"), "calls itself"),
    ],
)
def test_backup_that_is_not_ours_is_refused_and_nothing_touched(
    folder, monday, tmp_path, change, why
):
    strange, before, beside = rewritten(monday, change), contents(folder), names_in(tmp_path)

    with pytest.raises(BackupRefused, match="Nothing was changed") as refusal:
        put_back(strange, folder)

    assert why in refusal.value.say
    assert (contents(folder), names_in(tmp_path)) == (before, beside)


def test_symlink_in_a_backup_is_refused(folder, monday):
    path = monday.with_name("link.zip")
    link = zipfile.ZipInfo("originals/" + "0" * 64 + ".jpg")
    link.external_attr = 0o120777 << 16
    shutil.copy(monday, path)
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(link, "/etc/passwd")

    with pytest.raises(BackupRefused, match="no plain file"):
        put_back(path, folder)


def test_name_that_stands_twice_is_refused(folder, monday):
    path = monday.with_name("twice.zip")
    shutil.copy(monday, path)
    with pytest.warns(UserWarning, match="Duplicate name"), zipfile.ZipFile(path, "a") as archive:
        archive.writestr("manifest.json", b"{}")

    with pytest.raises(BackupRefused, match="twice"):
        put_back(path, folder)


def test_bomb_is_refused_before_it_is_unpacked(folder, monday):
    bomb = rewritten(
        monday,
        lambda members: members.update({"originals/" + "0" * 64 + ".jpg": bytes(300_000_000)}),
    )

    with pytest.raises(BackupRefused, match="far more"):
        put_back(bomb, folder)


def test_list_of_a_million_names_is_refused_unread(folder, stick):
    path = stick / "names.zip"
    path.write_bytes(
        bytes(100) + b"PK\x05\x06" + bytes(4) + b"\xff\xff" * 2 + b"\xf0" * 4 + bytes(6)
    )

    with pytest.raises(BackupRefused, match="more files than"):
        put_back(path, folder)


def test_password_on_a_zip_is_refused(folder, monday):
    path = monday.with_name("locked.zip")
    content = bytearray(monday.read_bytes())
    listed = content.rfind(b"PK\x01\x02")
    content[listed + 8] |= 1
    path.write_bytes(content)

    with pytest.raises(BackupRefused, match="packed in a way"):
        put_back(path, folder)
