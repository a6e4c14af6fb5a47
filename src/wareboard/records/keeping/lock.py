"""One program at a time has a data folder open.

The lock is the operating system's own and ends with the process, however that
ends. What stands in the file only tells a person who holds it.
"""

import json
import os
import socket
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

from .data_folder import LOCK, DataFolder, read_note
from .refusals import FolderInUse

# Workers of a server that was killed need a moment to notice.
PATIENCE_S = 3.0
# The byte that is locked lies far behind the text, so that the text can be read.
LOCKED_BYTE = 1 << 20


@contextmanager
def holding(
    folder: DataFolder, *, address: str = "", patience_s: float = PATIENCE_S
) -> Iterator[None]:
    """Hold the folder for as long as the block runs.

    Parameters
    ----------
    folder : DataFolder
        The folder to hold.
    address : str
        Where the studio is to be found while it is open, for whoever comes second.
    patience_s : float
        How long to wait for one that is being given up.

    Raises
    ------
    FolderInUse
        If another program holds it.
    """
    handle = os.open(folder.path / LOCK, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        take(handle, folder, patience_s)
        say_who(handle, address)
        yield
        os.ftruncate(handle, 0)
    finally:
        os.close(handle)


def say_who(handle: int, address: str) -> None:
    """Write into the locked file who holds it."""
    note = {"pid": os.getpid(), "host": socket.gethostname(), "address": address}
    os.ftruncate(handle, 0)
    os.lseek(handle, 0, os.SEEK_SET)
    os.write(handle, json.dumps(note).encode() + b"\n")


def take(handle: int, folder: DataFolder, patience_s: float) -> None:
    """Take the lock, waiting a moment for one that is being given up."""
    until = time.monotonic() + patience_s
    while not try_lock(handle):
        if time.monotonic() > until:
            raise in_use(folder)
        time.sleep(0.05)


def in_use(folder: DataFolder) -> FolderInUse:
    """Say who has the folder open."""
    note = read_note(folder.path / LOCK)
    holder = f"process {note['pid']} on {note['host']}" if note.get("pid") else "another program"
    where = f" Look for it at {note['address']}." if note.get("address") else ""
    return FolderInUse(
        f"The record in {folder.path} is open already: {holder} has it.{where}",
        field="data",
        seen=str(folder.path),
        accepted="a folder that no other program has open",
    )


def open_at(folder: DataFolder) -> str:
    """Give the address of the studio that has the folder open on this machine; else nothing."""
    try:
        handle = os.open(folder.path / LOCK, os.O_RDWR)
    except OSError:
        return ""
    try:
        if try_lock(handle):
            return ""
    finally:
        os.close(handle)
    note = read_note(folder.path / LOCK)
    here = note.get("host") == socket.gethostname()
    return str(note.get("address") or "") if here else ""


def left_open_elsewhere(folder: DataFolder) -> str:
    """Name another machine that opened the folder and did not close it; else nothing."""
    host = read_note(folder.path / LOCK).get("host", "")
    return str(host) if host and host != socket.gethostname() else ""


if sys.platform == "win32":
    import msvcrt

    def try_lock(handle: int) -> bool:
        """Ask for the lock without waiting."""
        os.lseek(handle, LOCKED_BYTE, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
else:
    import fcntl

    def try_lock(handle: int) -> bool:
        """Ask for the lock without waiting."""
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True
