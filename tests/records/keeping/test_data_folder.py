"""The data folder: made once, this user's alone, and never started anew where a record was."""

import json
import os
import socket
import stat
import subprocess
import sys

import pytest

from wareboard.records.keeping import data_folder, database, lock, places
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.refusals import FolderInUse, FolderRefused, RecordLost

from .conftest import names_in

posix = pytest.mark.skipif(sys.platform == "win32", reason="Windows keeps rights otherwise")


@posix
def test_everything_is_for_its_owner_alone(folder):
    modes = {
        path.name: stat.S_IMODE(path.stat().st_mode) & 0o077
        for path in (folder.path, *folder.path.rglob("*"))
    }

    assert {name: bits for name, bits in modes.items() if bits} == {}


@posix
def test_new_files_are_for_their_owner_alone(tmp_path):
    was = os.umask(0o022)
    try:
        data_folder.prepare(DataFolder(tmp_path / "new"))
        (tmp_path / "new" / "file").touch()
        assert stat.S_IMODE((tmp_path / "new" / "file").stat().st_mode) == 0o600
    finally:
        os.umask(was)


def test_a_new_folder_is_new(tmp_path):
    folder = DataFolder(tmp_path / "new")
    data_folder.prepare(folder)

    assert data_folder.is_new(folder)


def test_a_whole_record_is_not_new(folder):
    assert not data_folder.is_new(folder)


def deleted(folder):
    folder.record.unlink()


def emptied(folder):
    folder.record.write_bytes(b"")


def overwritten(folder):
    folder.record.write_bytes(b"these are no tables " * 4000)


def cut(folder):
    os.truncate(folder.record, folder.record.stat().st_size // 2 // 4096 * 4096)


def made_a_folder(folder):
    folder.record.unlink()
    folder.record.mkdir()


def another_programs(folder):
    with database.opened(folder.record) as connection:
        connection.execute("PRAGMA application_id=7")


def deleted_with_its_marker(folder):
    folder.record.unlink()
    folder.marker.unlink()


@pytest.mark.parametrize(
    "harm",
    [deleted, emptied, overwritten, cut, made_a_folder, another_programs, deleted_with_its_marker],
)
def test_a_lost_record_stops_the_studio_and_nothing_new_is_made(folder, harm):
    harm(folder)
    before = names_in(folder.path)

    with pytest.raises(RecordLost, match="bring-back") as refusal:
        data_folder.is_new(folder)

    assert refusal.value.field == "data"
    assert names_in(folder.path) == before


def test_a_bit_flipped_in_any_page_is_noticed_or_harmless(folder):
    pages = folder.record.stat().st_size // 4096
    whole = folder.record.read_bytes()
    crashed = []
    for page in range(pages):
        torn = bytearray(whole)
        torn[page * 4096 + 5] ^= 0xFF
        folder.record.write_bytes(torn)
        try:
            data_folder.is_new(folder)
        except RecordLost:
            continue
        except Exception as error:  # noqa: BLE001 - any other error is what is looked for
            crashed.append((page, repr(error)))

    assert crashed == []
    assert pages > 100


def test_marker_keeps_the_folders_id_over_versions(folder):
    first = data_folder.mark(folder)
    folder.marker.write_text(json.dumps(first | {"written_by": "0.0.1"}))

    again = data_folder.mark(folder)

    assert again == first


def test_record_without_a_marker_is_adopted(folder):
    folder.marker.unlink()

    assert not data_folder.is_new(folder)


def test_a_file_in_the_folders_place_is_said(tmp_path):
    (tmp_path / "file").write_text("x")

    with pytest.raises(FolderRefused, match="is a file"):
        data_folder.prepare(DataFolder(tmp_path / "file"))


def test_somebodys_other_things_are_left_alone(tmp_path):
    (tmp_path / "letter.txt").write_text("dear")

    with pytest.raises(FolderRefused, match="other things"):
        data_folder.prepare(DataFolder(tmp_path))

    assert names_in(tmp_path) == ["letter.txt"]


def test_folder_that_cannot_be_made_is_said(tmp_path):
    (tmp_path / "file").write_text("x")

    with pytest.raises(FolderRefused, match="cannot be used"):
        data_folder.prepare(DataFolder(tmp_path / "file" / "below"))


def test_second_program_is_told_who_has_the_folder(folder):
    with (
        lock.holding(folder, address="http://127.0.0.1:8473/"),
        pytest.raises(FolderInUse) as refusal,
        lock.holding(folder, patience_s=0.0),
    ):
        pass

    assert f"process {os.getpid()} on {socket.gethostname()}" in refusal.value.say
    assert "http://127.0.0.1:8473/" in refusal.value.say


def test_lock_of_a_killed_program_is_no_lock(folder):
    holder = subprocess.Popen(
        [
            sys.executable,
            "-c",
            (
                "import sys, time; from pathlib import Path\n"
                "from wareboard.records.keeping import lock\n"
                "from wareboard.records.keeping.data_folder import DataFolder\n"
                "with lock.holding(DataFolder(Path(sys.argv[1]))):\n"
                "    print('held', flush=True); time.sleep(60)\n"
            ),
            folder.path,
        ],
        stdout=subprocess.PIPE,
    )
    assert holder.stdout is not None
    assert holder.stdout.readline() == b"held\n"
    with pytest.raises(FolderInUse), lock.holding(folder, patience_s=0.0):
        pass
    holder.kill()
    holder.wait()
    holder.stdout.close()

    with lock.holding(folder):
        note = data_folder.read_note(folder.path / data_folder.LOCK)

    assert note["pid"] == os.getpid()


def test_folder_left_open_on_another_machine_is_named(folder):
    (folder.path / data_folder.LOCK).write_text('{"pid": 7, "host": "old-laptop"}')

    assert lock.left_open_elsewhere(folder) == "old-laptop"


@pytest.mark.parametrize(
    ("name", "synced"),
    [
        ("Dropbox", True),
        ("OneDrive - Clay Ltd", True),
        ("Google Drive", True),
        ("Pots", False),
        ("Dropboxes of clay", False),
    ],
)
def test_synced_folders_are_known_by_name(tmp_path, name, synced):
    path = tmp_path / name / "Wareboard"
    path.mkdir(parents=True)

    assert places.is_synced(path) is synced
    assert bool(places.doubts_about(DataFolder(path))) is synced


def test_synced_folder_is_known_by_its_mark(tmp_path):
    (tmp_path / ".stfolder").mkdir()

    assert places.is_synced(tmp_path / "Wareboard")


MOUNTS = r"""/dev/sda1 / ext4 rw,relatime 0 0
nas:/pots /mnt/pots nfs4 rw 0 0
//nas/share /mnt/my\040share cifs rw 0 0
"""


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/home/potter/Wareboard", "ext4"),
        ("/mnt/pots/Wareboard", "nfs4"),
        ("/mnt/potsherds", "ext4"),
        ("/mnt/my share/Wareboard", "cifs"),
    ],
)
def test_file_system_is_that_of_the_nearest_mount(path, kind):
    assert places.file_system(data_folder.Path(path), MOUNTS) == kind


def test_this_machines_disk_is_no_network_share(tmp_path):
    assert not places.on_network_share(tmp_path)


def test_what_was_half_written_is_swept_and_nothing_else(folder):
    half = folder.originals / ".incoming.0a1b2c3d.part"
    half.write_bytes(b"half")
    fresh, stale = folder.path / ".keeping.fresh.part", folder.path / ".keeping.stale.part"
    fresh.mkdir()
    stale.mkdir()
    os.utime(stale, (0, 0))
    before = set(names_in(folder.path)) | set(names_in(folder.originals))

    data_folder.sweep(folder)

    after = set(names_in(folder.path)) | set(names_in(folder.originals))
    assert before - after == {half.name, stale.name}
