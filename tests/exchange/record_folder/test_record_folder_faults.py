"""Writing that fails at every step in turn: the target is the old folder or the new one."""

import errno
import os
import shutil
import signal

import pytest
from record_folder_samples import ROWS, SPECS, contents

from wareboard.exchange.record_folder import (
    FolderNotWritten,
    FolderRefused,
    disk,
    read_record_folder,
)

CALLS = ("mkdir", "open", "write", "fsync", "rename")
NEWER = {**ROWS, "coats": [{"pot_id": "p-2", "place": 1, "glaze": "newer"}]}


class Faults:
    """Calls of the operating system, counted, that fail from one of them on."""

    def __init__(self, at, *, for_ever, happen):
        self.count = 0
        self._at = at
        self._for_ever = for_ever
        self._happen = happen

    def around(self, call):
        def counted(*arguments, **options):
            self.count += 1
            if self.count == self._at or (self._for_ever and self.count > self._at):
                self._happen()
            return call(*arguments, **options)

        return counted


def full_disk():
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def pulled_plug():
    os.kill(os.getpid(), signal.SIGKILL)


@pytest.fixture(params=["one step", "two steps"])
def folders_change_places(request, monkeypatch):
    """The system can let two folders change places in one step, or it cannot."""
    if request.param == "two steps":
        monkeypatch.setattr(disk, "exchange", lambda *_: False)
    return request.param


@pytest.fixture
def old_and_new(studio):
    """The bytes of an old record and of a newer one."""
    old = contents(studio.write("old"))
    new = contents(studio.write("new", rows_by_table=NEWER))
    shutil.rmtree(studio.place / "old")
    shutil.rmtree(studio.place / "new")
    return old, new


def write_with(studio, faults, **changes):
    """Write the newer record while calls fail; tell whether it was written."""
    with pytest.MonkeyPatch.context() as patch:
        for name in CALLS:
            patch.setattr(os, name, faults.around(getattr(os, name)))
        try:
            studio.write(rows_by_table=NEWER, **changes)
        except FolderNotWritten:
            return False
    return True


@pytest.mark.parametrize("for_ever", [False, True])
def test_a_new_folder_is_there_whole_or_not_at_all(studio, old_and_new, for_ever):
    _, new = old_and_new
    written, step = False, 0

    while not written:
        step += 1
        written = write_with(studio, Faults(step, for_ever=for_ever, happen=full_disk))
        # The last step tells the disk to keep the new name: the folder is there before it.
        seen = contents(studio.place / "record")
        assert seen in ({}, new)
        left = [path for path in studio.place.iterdir() if path.name != "record"]
        # A disk that fails for ever lets nothing be cleared away either.
        assert len(left) <= for_ever
        for folder in (studio.place / "record", *left):
            shutil.rmtree(folder, ignore_errors=True)

    assert seen == new
    assert step > 20


@pytest.mark.parametrize("for_ever", [False, True])
def test_an_old_folder_stays_until_the_new_one_is_whole(
    studio, old_and_new, folders_change_places, for_ever
):
    old, new = old_and_new
    written, step, ends = False, 0, []

    while not written:
        step += 1
        studio.write(overwrite=True)
        faults = Faults(step, for_ever=for_ever, happen=full_disk)
        written = write_with(studio, faults, overwrite=True)
        seen = contents(studio.place / "record")
        aside = contents(studio.place / ".record.before")
        ends.append("old" if seen == old else "new" if seen == new else "gone")
        # In two steps a disk that fails for ever can leave the old folder aside, whole.
        assert ends[-1] != "gone" or (seen, aside) == ({}, old)

    assert ends.count("gone") == (folders_change_places == "two steps" and for_ever)
    assert ends[-1] == "new"
    assert step > 20


def test_an_old_folder_left_aside_goes_back_when_the_disk_is_well(studio, old_and_new):
    old, _ = old_and_new
    folder = studio.write()
    folder.rename(studio.place / ".record.before")

    with pytest.raises(FolderNotWritten, match="already holds a record"):
        studio.write(rows_by_table=NEWER)

    assert contents(folder) == old


def test_an_old_folder_left_aside_is_kept_while_something_else_has_its_place(studio, old_and_new):
    old, _ = old_and_new
    folder = studio.write()
    folder.rename(studio.place / ".record.before")
    folder.mkdir()
    (folder / "letter.txt").write_bytes(b"x")

    with pytest.raises(FolderNotWritten, match="holds something that is no record"):
        studio.write(overwrite=True)

    assert contents(studio.place / ".record.before") == old


def test_an_old_folder_left_aside_goes_away_with_the_next_writing(studio, folders_change_places):
    folder = studio.write()
    shutil.copytree(folder, studio.place / ".record.before")

    studio.write(overwrite=True)

    assert [path.name for path in studio.place.iterdir()] == ["record"]


def test_reading_tells_where_an_old_folder_was_left_aside(studio):
    studio.write().rename(studio.place / ".record.before")

    with pytest.raises(FolderRefused) as refusal:
        read_record_folder(studio.place / "record", SPECS)

    assert refusal.value.problems[0].say == (
        "record: is no folder; rename .record.before beside it, which an interrupted handing out "
        "left."
    )


# The child of a process with threads only writes the folder and ends.
@pytest.mark.filterwarnings("ignore:.*use of fork.*:DeprecationWarning")
def test_a_process_killed_at_any_step_leaves_the_old_folder_or_the_new(
    studio, old_and_new, folders_change_places
):
    old, new = old_and_new
    ends, step, status = [], 0, 1

    while status:
        step += 1
        studio.write(overwrite=True)
        child = os.fork()
        if not child:
            write_with(studio, Faults(step, for_ever=False, happen=pulled_plug), overwrite=True)
            os._exit(0)
        _, status = os.waitpid(child, 0)
        seen = contents(studio.place / "record")
        aside = contents(studio.place / ".record.before")
        ends.append("old" if seen == old else "new" if seen == new else "gone")
        assert ends[-1] != "gone" or (seen, aside) == ({}, old)

    # Old until the change of places, new after it; in two steps there is a moment between.
    two_steps = folders_change_places == "two steps"
    assert list(dict.fromkeys(ends)) == (["old", "gone", "new"] if two_steps else ["old", "new"])
    assert ends.count("gone") == two_steps
    assert len(ends) > 20


def test_what_a_killed_process_left_is_swept_up_when_nobody_can_be_writing_it(studio):
    left, live = (studio.place / f".record.unfinished-{number}" for number in "12")
    for folder in (left, live):
        folder.mkdir()
        (folder / "pots.csv").write_bytes(b"half")
    os.utime(left, times=(1_000, 1_000))

    studio.write()

    assert sorted(path.name for path in studio.place.iterdir()) == [live.name, "record"]


def test_a_full_disk_is_told_in_a_sentence(studio):
    faults = Faults(9, for_ever=True, happen=full_disk)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "write", faults.around(os.write))
        patch.setattr(os, "fsync", faults.around(os.fsync))
        with pytest.raises(FolderNotWritten) as refusal:
            studio.write()

    assert refusal.value.say == ("The folder record could not be written: No space left on device.")


def test_a_disk_that_takes_a_few_bytes_at_a_time_gets_them_all(studio, old_and_new, monkeypatch):
    _, new = old_and_new
    write = os.write
    monkeypatch.setattr(os, "write", lambda descriptor, data: write(descriptor, data[:7]))

    folder = studio.write(rows_by_table=NEWER)

    assert contents(folder) == new
