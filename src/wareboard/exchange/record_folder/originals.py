"""The original photos and sounds: where they lie, and that they are what they were.

A file is kept under the SHA-256 of its content, so that its name tells whether
it has changed. Names that people or cameras gave are data in the tables, never
paths.
"""

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from wareboard.exchange.record_folder import disk

ROOMS = ("photos", "sounds")
PATH = re.compile(r"(photos|sounds)/([0-9a-f]{64})\.([a-z0-9]{1,8})")


@dataclass(frozen=True, slots=True)
class Original:
    """One original file.

    Parameters
    ----------
    sha256 : str
        Of its content, 64 lower-case hexadecimal digits.
    ending : str
        Ending of its name without the point, lower case: ``jpg``.
    source : Path
        Where its bytes are now.
    room : str
        ``photos`` or ``sounds``.

    Raises
    ------
    ValueError
        If it would not be safe as the name of a file.
    """

    sha256: str
    ending: str
    source: Path
    room: Literal["photos", "sounds"] = "photos"

    def __post_init__(self) -> None:
        """Refuse what is not safe as the name of a file."""
        if not PATH.fullmatch(self.path):
            raise ValueError(f"{self.path!r} is no place for an original")

    @property
    def path(self) -> str:
        """Path inside the record folder, as cells of the tables name it."""
        return f"{self.room}/{self.sha256}.{self.ending}"


def original_at(folder: Path, path: str) -> Original | None:
    """Read a path of a table as an original of a folder; none if it is no such path."""
    found = PATH.fullmatch(path)
    if found is None:
        return None
    room: Literal["photos", "sounds"] = "photos" if found[1] == "photos" else "sounds"
    return Original(found[2], found[3], folder / path, room)


def digest_of(source: Path, *, longest: int, to: Callable[[bytes], None] | None = None) -> str:
    """Work out the SHA-256 of a file in pieces, handing the pieces on.

    Parameters
    ----------
    source : Path
        The file.
    longest : int
        Reading stops after so many bytes; the digest is then of no file.
    to : callable, optional
        Takes the pieces, in order.

    Returns
    -------
    str
        64 hexadecimal digits; empty if the file is longer.

    Raises
    ------
    OSError, NotOrdinary
        If it cannot be read as a file.
    """
    digest = hashlib.sha256()
    left = longest
    with disk.opened(source) as file:
        while piece := file.read(disk.CHUNK):
            left -= len(piece)
            if left < 0:
                return ""
            digest.update(piece)
            if to is not None:
                to(piece)
    return digest.hexdigest()
