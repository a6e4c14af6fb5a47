"""Files and folders, opened, written and moved so that nothing is left half done.

All writing of the record folder goes through here: a file counts as written
when the disk has it, and a folder takes the place of another in one step where
the system can, else in two that can be undone.
"""

import ctypes
import os
import secrets
import shutil
import stat
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

CHUNK = 1024 * 1024
GIVEN_UP_S = 24 * 60 * 60.0
AT_FDCWD = -100  # "relative to the working folder", from the Linux headers
RENAME_EXCHANGE = 2  # as above, linux/fs.h


class NotOrdinary(Exception):
    """A name that is no ordinary file: a link, a folder, a device."""


@contextmanager
def opened(path: Path) -> Iterator[BinaryIO]:
    """Open an ordinary file for reading, and nothing else.

    A link is not followed and a pipe is not waited for.

    Raises
    ------
    NotOrdinary
        If it is no ordinary file.
    """
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
    flags |= getattr(os, "O_BINARY", 0)
    if path.is_symlink():
        raise NotOrdinary
    with os.fdopen(os.open(path, flags), "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise NotOrdinary
        yield file


class NewFile:
    """A file being written, flushed in large pieces.

    Parameters
    ----------
    path : Path
        Where; there must be nothing yet.
    """

    def __init__(self, path: Path) -> None:
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
        self._descriptor = os.open(path, flags, 0o666)
        self._waiting = bytearray()
        self.size_bytes = 0

    def write(self, data: bytes) -> None:
        """Take more of the content."""
        self._waiting += data
        self.size_bytes += len(data)
        if len(self._waiting) >= CHUNK:
            self._empty()

    def finish(self) -> None:
        """Write the rest and wait until the disk has it."""
        self._empty()
        os.fsync(self._descriptor)

    def close(self) -> None:
        """Let go of the file."""
        os.close(self._descriptor)

    def _empty(self) -> None:
        rest = memoryview(bytes(self._waiting))
        self._waiting.clear()
        while rest:
            rest = rest[os.write(self._descriptor, rest) :]


@contextmanager
def new_file(path: Path) -> Iterator[NewFile]:
    """Write a new file and have it on the disk at the end."""
    file = NewFile(path)
    try:
        yield file
        file.finish()
    finally:
        file.close()


def make_folder(path: Path) -> None:
    """Make a folder where there is nothing yet."""
    path.mkdir()


def settle(folder: Path) -> None:
    """Wait until the disk has the names in a folder."""
    if os.name == "nt":
        return  # such a system cannot open a folder, and writes names by itself
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


@contextmanager
def folder_in_place_of(target: Path) -> Iterator[Path]:
    """Give an empty folder that takes the place of the target at the end.

    Parameters
    ----------
    target : Path
        A folder, or nothing. Its parent must exist.

    Yields
    ------
    Path
        The new folder, beside the target. If the block fails, it goes away and
        the target stays as it was.
    """
    new = target.with_name(f".{target.name}.unfinished-{secrets.token_hex(4)}")
    try:
        make_folder(new)
        yield new
        settle(new)
        _take_place(new, target)
    finally:
        # After the change of places this is the old folder. If it cannot be
        # taken away now, the next writing does it.
        shutil.rmtree(new, ignore_errors=True)
    settle(target.parent)


def left_aside(target: Path) -> Path:
    """Name where the old folder waits while a new one takes its place in two steps."""
    return target.with_name(f".{target.name}.before")


def put_back(target: Path) -> None:
    """Mend what an interrupted writing has left beside a target.

    An old folder that was set aside and never replaced goes back to its place.
    Unfinished new ones go away when nobody has touched them for a day: until
    then somebody may be writing them.
    """
    aside = left_aside(target)
    if aside.is_dir() and not target.exists():
        aside.rename(target)
    for unfinished in target.parent.glob(f".{_literal(target.name)}.unfinished-*"):
        with suppress(OSError):
            if time.time() - unfinished.stat().st_mtime > GIVEN_UP_S:
                shutil.rmtree(unfinished)


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in one step, where the system can.

    Returns
    -------
    bool
        False if it cannot; then nothing has changed.
    """
    if sys.platform != "linux":
        return False
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is None:
        return False
    here = ctypes.c_int(AT_FDCWD)
    done = rename(here, os.fsencode(one), here, os.fsencode(other), ctypes.c_uint(RENAME_EXCHANGE))
    return bool(done == 0)


def _take_place(new: Path, target: Path) -> None:
    if not target.exists():
        new.rename(target)
        return
    # Left over from a writing that was interrupted when its new folder stood already.
    aside = left_aside(target)
    shutil.rmtree(aside, ignore_errors=True)
    if exchange(new, target):
        return
    target.rename(aside)
    try:
        new.rename(target)
    except OSError:
        with suppress(OSError):
            aside.rename(target)
        raise
    shutil.rmtree(aside, ignore_errors=True)


def _literal(name: str) -> str:
    """Take the special meaning off the signs of a file pattern."""
    return "".join(f"[{sign}]" if sign in "*?[" else sign for sign in name)
