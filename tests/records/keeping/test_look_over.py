"""Looking over finds every fault that was put in, and is silent otherwise."""

import json
from datetime import UTC, datetime, timedelta

import pytest

from wareboard.records.keeping import database
from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import last_backup
from wareboard.records.keeping.look_over import look_over, original_faults
from wareboard.records.keeping.refusals import FolderRefused
from wareboard.records.keeping.tables import KEPT
from wareboard.records.keeping.taken_back import OWNERS

from .conftest import names_in

SAME_DISK = "The last backup lies on the same disk as the record: a stick would be better."
NOW = datetime.now(UTC)

AT = "2026-11-20 10:00:00"
ENTRY = {"studio_id": "studio", "at": AT, "kept_at": AT, "remembered": "", "together": ""}
POT = {"name": "mug", "test_piece": 0, "whose": "", "note": ""}


def put(connection, table: str, **row: object) -> None:
    """Write a row past the program, as only a fault of somebody's could."""
    named, gaps = ", ".join(row), ", ".join("?" * len(row))
    connection.execute(
        f"INSERT INTO wareboard_{table} ({named}) VALUES ({gaps})",  # noqa: S608 - names of the test
        tuple(row.values()),
    )


def take_back(connection, table: str) -> None:
    """Call every row of a table taken back."""
    connection.execute(f"UPDATE wareboard_{table} SET undone_at = ?", (AT,))  # noqa: S608 - as above


def put_pot_and_weighing(connection) -> None:
    put(connection, "pot", id="mug", **POT, **ENTRY)
    put(connection, "weighing", id="dry", pot_id="mug", weight_g=400.0, state="bone dry", **ENTRY)


def found_in(folder: DataFolder) -> list[tuple[str, str]]:
    return [(fault.what, fault.name) for fault in look_over(folder, now=NOW).faults]


def test_sound_studio_is_silent(folder, stick):
    keep(folder, stick / "monday.zip")

    found = look_over(folder, now=datetime.now(UTC))

    assert (found.faults, found.cautions, found.originals) == ((), (SAME_DISK,), 4)


def test_flipped_missing_truncated_and_extra_are_all_found(folder):
    flipped, missing, truncated, _ = names_in(folder.originals)
    content = bytearray((folder.originals / flipped).read_bytes())
    content[len(content) // 2] ^= 1
    (folder.originals / flipped).write_bytes(content)
    (folder.originals / missing).unlink()
    (folder.originals / truncated).write_bytes(b"\xff\xd8")
    extra = "0" * 64 + ".jpg"
    (folder.originals / extra).write_bytes(b"whose?")

    found = found_in(folder)

    assert sorted(found) == sorted(
        [("changed", flipped), ("missing", missing), ("truncated", truncated), ("extra", extra)]
    )


def test_what_is_being_written_just_now_is_no_fault(folder):
    (folder.originals / ".incoming.0a1b2c3d.part").write_bytes(b"half")

    assert found_in(folder) == []


def test_ten_thousand_sound_files_raise_no_alarm(tmp_path):
    import hashlib  # noqa: PLC0415 - here alone

    listed = {}
    for number in range(10_000):
        content = str(number).encode()
        name = f"{hashlib.sha256(content).hexdigest()}.jpg"
        (tmp_path / name).write_bytes(content)
        listed[name] = len(content)

    assert list(original_faults(tmp_path, listed)) == []


def test_lost_record_is_the_fault_named(folder):
    folder.record.unlink()

    assert found_in(folder) == [("record", "record.sqlite3")]


def test_rows_that_lead_nowhere_are_found(folder):
    with database.opened(folder.record) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("UPDATE wareboard_original SET studio_id = 'nobody'")

    assert [what for what, _ in found_in(folder)] == ["record"]


def test_an_entry_that_rests_on_what_was_taken_back_is_found(folder):
    with database.opened(folder.record) as connection:
        put_pot_and_weighing(connection)
        before = found_in(folder)
        take_back(connection, "pot")

    said = [fault for fault in look_over(folder, now=NOW).faults if fault.what == "undone"]

    assert before == []
    assert [(fault.name, fault.say) for fault in said] == [
        ("dry", "The weighing dry stands, though the pot mug below it was taken back.")
    ]


def test_an_entry_that_was_taken_back_too_is_no_fault(folder):
    with database.opened(folder.record) as connection:
        put_pot_and_weighing(connection)
        take_back(connection, "pot")
        take_back(connection, "weighing")

    assert found_in(folder) == []


def test_a_line_that_rests_on_what_was_taken_back_is_found(folder):
    powder = {"name": "silica", "other_names": "", "kind": "glaze material", "library_id": ""}
    line = {"recipe_id": "rill-1", "material_id": "silica", "parts": 100.0, "addition": 0}
    with database.opened(folder.record) as connection:
        put(connection, "material", id="silica", **powder, **ENTRY)
        put(connection, "glaze", id="rill", name="Rill", character="", swatch="#a9a79c", **ENTRY)
        put(connection, "recipe", id="rill-1", glaze_id="rill", version=1, why="", **ENTRY)
        put(connection, "recipe_line", id="line-1", position=1, **line)
        take_back(connection, "material")

    assert found_in(folder) == [("undone", "line-1")]


def test_every_kind_of_line_is_known_by_the_entry_it_stands_with():
    lines = {kept.model._meta.db_table: f"{kept.owner}_id" for kept in KEPT if kept.is_part}

    assert lines == OWNERS


def test_backup_on_the_disk_of_the_record_is_no_fine_backup(folder, stick):
    keep(folder, stick / "monday.zip")

    assert last_backup(folder).same_disk is True
    assert look_over(folder, now=datetime.now(UTC)).cautions == (SAME_DISK,)


def test_backup_on_a_stick_that_is_in_a_drawer_stays_on_another_disk(folder, stick):
    keep(folder, stick / "monday.zip")
    note = json.loads(folder.last_backup.read_text(encoding="utf-8"))
    folder.last_backup.write_text(json.dumps(note | {"same_disk": False}), encoding="utf-8")

    assert last_backup(folder).same_disk is False


def test_older_note_of_a_backup_is_asked_where_its_file_lies(folder, stick):
    keep(folder, stick / "monday.zip")
    note = json.loads(folder.last_backup.read_text(encoding="utf-8"))
    del note["same_disk"]
    folder.last_backup.write_text(json.dumps(note), encoding="utf-8")

    assert last_backup(folder).same_disk is True


def test_backup_that_changed_since_is_found(folder, stick):
    path = keep(folder, stick / "monday.zip").backup.path
    with path.open("r+b") as file:
        file.seek(500)
        file.write(b"?")

    assert found_in(folder) == [("backup", "monday.zip")]


def test_backup_that_is_in_a_drawer_is_a_caution(folder, stick):
    keep(folder, stick / "monday.zip").backup.path.unlink()

    found = look_over(folder, now=datetime.now(UTC))

    assert found.faults == ()
    assert [caution for caution in found.cautions if "not at hand" in caution] != []


@pytest.mark.parametrize(("days", "cautions"), [(6, 1), (8, 2)])
def test_backup_older_than_a_week_is_a_caution(folder, stick, days, cautions):
    keep(folder, stick / "monday.zip")

    found = look_over(folder, now=datetime.now(UTC) + timedelta(days=days))

    assert len(found.cautions) == cautions


def test_no_backup_ever_is_a_caution(folder):
    assert [c for c in look_over(folder, now=NOW).cautions if "No backup" in c] != []


def test_folder_without_a_studio_is_refused(tmp_path):
    with pytest.raises(FolderRefused, match="no record"):
        look_over(DataFolder(tmp_path / "none"), now=NOW)
