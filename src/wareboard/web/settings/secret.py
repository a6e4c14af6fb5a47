"""The key that signs sessions: made once for a data folder, never handed out."""

import os
import secrets
from contextlib import suppress
from pathlib import Path

FILE = "secret-key"


def secret_key(data: Path) -> str:
    """Read the folder's key, or make it.

    Two programs that start at once agree: the key is written whole under
    another name first, and only one of them can give it the name.
    """
    path = data / FILE
    if not path.exists():
        data.mkdir(mode=0o700, parents=True, exist_ok=True)
        draft = data / f"{FILE}.{os.getpid()}"
        handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "w", encoding="ascii") as file:
            file.write(secrets.token_urlsafe(48))
            file.flush()
            os.fsync(file.fileno())
        with suppress(FileExistsError):
            os.link(draft, path)
        draft.unlink()
    return path.read_text(encoding="ascii")
