"""The n-th file operation fails, or the machine dies there: old or new each time."""

import shutil

import pytest

from wareboard.records.keeping import database
from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import last_backup
from wareboard.records.keeping.refusals import BackupRefused
from wareboard.records.keeping.swapping import finish_swap

from .conftest import contents, names_in
from .failing_disk import DyingMachine, FailingDisk, in_a_child
from .test_restore import put_back

MOST_STEPS = 500


@pytest.fixture
def sunday(folder, stick):
    """An older backup, which nothing may touch."""
    keep(folder, stick / "sunday.zip")
    return (stick / "sunday.zip").read_bytes()


@pytest.mark.parametrize("for_ever", [False, True], ids=["once", "for ever"])
def test_backup_that_fails_leaves_no_file_of_its_name(folder, stick, sunday, for_ever):
    noted, before = last_backup(folder), contents(folder)
    for step in range(1, MOST_STEPS):
        try:
            keep(folder, stick / "monday.zip", disk=FailingDisk(step, for_ever=for_ever))
        except BackupRefused:
            assert names_in(stick) == ["sunday.zip"]
            assert last_backup(folder) == noted
            assert [name for name in names_in(folder.path) if name.endswith(".part")] == []
        else:
            break

    assert step > 20
    assert (stick / "sunday.zip").read_bytes() == sunday
    assert contents(folder) == before
    put_back(stick / "monday.zip", DataFolder(stick / "new"))


@pytest.mark.parametrize("for_ever", [False, True], ids=["once", "for ever"])
def test_restore_that_fails_leaves_the_old_studio(folder, stick, sunday, for_ever):
    with database.opened(folder.record) as connection:
        connection.execute("UPDATE wareboard_studio SET name = 'Monday'")
    monday, beside = contents(folder), names_in(folder.path.parent)
    for step in range(1, MOST_STEPS):
        try:
            put_back(stick / "sunday.zip", folder, disk=FailingDisk(step, for_ever=for_ever))
        except BackupRefused:
            assert contents(folder) == monday
            assert names_in(folder.path.parent) == beside
        else:
            break

    assert step > 20
    assert contents(folder)["wareboard_studio"] != monday["wareboard_studio"]


def test_machine_that_dies_in_a_restore_leaves_the_old_studio_or_the_new(
    folder, stick, sunday, tmp_path
):
    with database.opened(folder.record) as connection:
        connection.execute("UPDATE wareboard_studio SET name = 'Monday'")
    keep(folder, stick / "monday.zip")
    old, outcomes = contents(folder), []
    put_back(stick / "sunday.zip", DataFolder(tmp_path / "as new"))
    new = contents(DataFolder(tmp_path / "as new"))
    for step in range(1, MOST_STEPS):
        finished = in_a_child(
            lambda step=step: put_back(stick / "sunday.zip", folder, disk=DyingMachine(step))
        )
        finish_swap(folder)

        found = contents(folder)
        assert found in (old, new), f"torn at step {step}"
        outcomes.append("old" if found == old else "new")
        for kept in tmp_path.glob("Wareboard until *"):
            assert contents(DataFolder(kept)) == old
        if finished:
            break
        if found == new:
            shutil.rmtree(folder.path)
            next(tmp_path.glob("Wareboard until *")).rename(folder.path)

    assert outcomes.index("new") > 20
    assert [name for name in names_in(tmp_path) if "coming-back" in name] == []


def test_machine_that_dies_in_a_backup_leaves_no_file_of_its_name(folder, stick, sunday):
    before = contents(folder)
    for step in range(1, MOST_STEPS):
        finished = in_a_child(
            lambda step=step: keep(folder, stick / "monday.zip", disk=DyingMachine(step))
        )
        if finished or (stick / "monday.zip").exists():
            break
        assert [name for name in names_in(stick) if not name.startswith(".")] == ["sunday.zip"]

    assert step > 20
    assert (stick / "sunday.zip").read_bytes() == sunday
    assert contents(folder) == before
    put_back(stick / "monday.zip", DataFolder(stick / "new"))
