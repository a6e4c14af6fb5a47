"""Writing files so that a power cut leaves the old state or the new one.

A file is written whole under another name, forced to the disk, given its name
in one step, and then the folder is forced to the disk as well. Every operation
goes through one object, so that a test can let the n-th of them fail.
"""

import os
import secrets
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import BinaryIO


class Disk:
    """The file operations that the record rests on, one method each."""

    def step(self, name: str, path: Path) -> None:
        """Take note of an operation that is about to happen."""

    def create(self, path: Path) -> BinaryIO:
        """Open a new file; one that exists already is an error."""
        self.step("create", path)
        flags = os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
        return os.fdopen(os.open(path, flags, 0o600), "w+b")

    def write(self, file: BinaryIO, chunk: bytes, path: Path) -> None:
        """Add to a file."""
        self.step("write", path)
        file.write(chunk)

    def force(self, file: BinaryIO, path: Path) -> None:
        """Wait until a file's bytes are on the disk."""
        self.step("force", path)
        file.flush()
        force_handle(file.fileno())

    def force_file(self, path: Path) -> None:
        """Wait until a closed file's bytes are on the disk."""
        self.step("force", path)
        handle = os.open(path, os.O_RDWR | getattr(os, "O_BINARY", 0))
        try:
            force_handle(handle)
        finally:
            os.close(handle)

    def force_folder(self, path: Path) -> None:
        """Wait until a folder's names are on the disk; Windows does it by itself."""
        self.step("force folder", path)
        if sys.platform == "win32":
            return
        handle = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
        try:
            force_handle(handle)
        finally:
            os.close(handle)

    def replace(self, source: Path, target: Path) -> None:
        """Give a file its name, in place of another that may have it."""
        self.step("rename", target)
        source.replace(target)

    def rename(self, source: Path, target: Path) -> None:
        """Give a file or a folder a name that is free."""
        self.step("rename", target)
        if target.exists():
            raise FileExistsError(f"{target} exists already.")
        source.rename(target)

    def make_folder(self, path: Path) -> None:
        """Make a folder that does not exist yet."""
        self.step("make folder", path)
        path.mkdir(mode=0o700)

    def write_whole(self, path: Path, content: bytes | Iterable[bytes]) -> None:
        """Write a file so that its name never stands for half of it."""
        chunks = (content,) if isinstance(content, bytes) else content
        draft = draft_name(path)
        try:
            with self.create(draft) as file:
                for chunk in chunks:
                    self.write(file, chunk, draft)
                self.force(file, draft)
            self.replace(draft, path)
        except BaseException:
            draft.unlink(missing_ok=True)
            raise
        self.force_folder(path.parent)


def draft_name(path: Path) -> Path:
    """Name a file that is not ready yet, beside the one it becomes."""
    return path.with_name(f".{path.name}.{secrets.token_hex(4)}.part")


def free_name(path: Path) -> Path:
    """Give the name, or the next like it that nothing has yet."""
    following = (path.with_name(f"{path.stem} {n}{path.suffix}") for n in range(2, 1000))
    return next(name for name in (path, *following) if not name.exists())


def force_handle(handle: int) -> None:
    """Ask the disk itself to keep what it was given; on a Mac plain fsync does not."""
    if sys.platform == "darwin":
        import fcntl  # noqa: PLC0415 - there is none on Windows

        fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
    else:
        os.fsync(handle)
