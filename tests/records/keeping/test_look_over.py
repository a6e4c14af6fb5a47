"""Looking over finds every fault that was put in, and is silent otherwise."""

from datetime import UTC, datetime, timedelta

import pytest

from wareboard.records.keeping import database
from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.look_over import look_over, original_faults
from wareboard.records.keeping.refusals import FolderRefused

from .conftest import names_in

NOW = datetime.now(UTC)


def found_in(folder: DataFolder) -> list[tuple[str, str]]:
    return [(fault.what, fault.name) for fault in look_over(folder, now=NOW).faults]


def test_sound_studio_is_silent(folder, stick):
    keep(folder, stick / "monday.zip")

    found = look_over(folder, now=datetime.now(UTC))

    assert (found.faults, found.cautions, found.originals) == ((), (), 4)


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


@pytest.mark.parametrize(("days", "cautions"), [(6, 0), (8, 1)])
def test_backup_older_than_a_week_is_a_caution(folder, stick, days, cautions):
    keep(folder, stick / "monday.zip")

    found = look_over(folder, now=datetime.now(UTC) + timedelta(days=days))

    assert len(found.cautions) == cautions


def test_no_backup_ever_is_a_caution(folder):
    assert [c for c in look_over(folder, now=NOW).cautions if "No backup" in c] != []


def test_folder_without_a_studio_is_refused(tmp_path):
    with pytest.raises(FolderRefused, match="no record"):
        look_over(DataFolder(tmp_path / "none"), now=NOW)
