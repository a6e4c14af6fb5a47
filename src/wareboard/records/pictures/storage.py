"""Where originals lie, and how they get there: whole, forced to the disk, then named.

Of an original not a byte is changed. Views may be thrown away: they are made
again when they are next asked for.
"""

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from django.conf import settings

from .disk import Disk, draft_name
from .kinds import SIZES

ORIGINALS = "originals"
VIEWS = "views"
CHUNK_BYTES = 1 << 18


class Incoming(Protocol):
    """A file as it comes: an upload, or a file opened for reading."""

    def read(self, size: int = -1, /) -> bytes:
        """Give the next bytes; none at the end."""
        ...


class TooMuch(Exception):
    """More bytes than are taken in."""


@dataclass(frozen=True)
class Draft:
    """A file that is on the disk and has no name yet.

    Attributes
    ----------
    path : Path
        Where it lies.
    sha256 : str
        Hash of its bytes.
    size_bytes : int
        How many there are.
    """

    path: Path
    sha256: str
    size_bytes: int


def folder(name: str) -> Path:
    """Give one of the data folder's folders, made where it is missing."""
    path = Path(settings.DATA) / name
    path.mkdir(mode=0o700, parents=True, exist_ok=True)
    return path


def write_draft(file: Incoming, *, most_bytes: int, disk: Disk) -> Draft:
    """Write a file down under no name, hashing as it comes.

    Raises
    ------
    TooMuch
        If it has more bytes than are taken in; nothing is left behind.
    """
    path = draft_name(folder(ORIGINALS) / "incoming")
    digest, size_bytes = hashlib.sha256(), 0
    try:
        with disk.create(path) as target:
            while chunk := file.read(CHUNK_BYTES):
                size_bytes += len(chunk)
                refuse_too_much(size_bytes, most_bytes)
                digest.update(chunk)
                disk.write(target, chunk, path)
            disk.force(target, path)
    except BaseException:
        path.unlink(missing_ok=True)
        raise
    return Draft(path, digest.hexdigest(), size_bytes)


def refuse_too_much(size_bytes: int, most_bytes: int) -> None:
    """Stop reading a file that is larger than is taken in."""
    if size_bytes > most_bytes:
        raise TooMuch


def name_draft(draft: Draft, suffix: str, *, disk: Disk) -> Path:
    """Give a draft its name; the same bytes that are here already are simply replaced."""
    final = folder(ORIGINALS) / f"{draft.sha256}.{suffix}"
    disk.replace(draft.path, final)
    disk.force_folder(final.parent)
    return final


def original_path(file_name: str) -> Path:
    """Give the place of an original."""
    return folder(ORIGINALS) / file_name


def view_path(sha256: str, size: str) -> Path:
    """Give the place of a view."""
    return folder(VIEWS) / f"{sha256}-{SIZES[size]}.jpg"


def keep_views(sha256: str, views: dict[str, bytes], *, disk: Disk) -> None:
    """Put a photo's views where pages find them."""
    for size, content in views.items():
        disk.write_whole(view_path(sha256, size), content)
