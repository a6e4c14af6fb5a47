"""The key that signs sessions: made once for a data folder, never handed out."""

import os
import secrets
from pathlib import Path

FILE = "secret-key"
SHORTEST = 32


def secret_key(data: Path) -> str:
    """Read the folder's key, or make it.

    A key that is missing or torn is made anew: whoever was signed in signs in
    again. Two programs that start at once agree: the key is written whole under
    another name first, and only one of them can give it the name.
    """
    path = data / FILE
    if path.exists():
        key = read_key(path)
        if len(key) >= SHORTEST:
            return key
        path.unlink(missing_ok=True)
    data.mkdir(mode=0o700, parents=True, exist_ok=True)
    draft = data / f"{FILE}.{secrets.token_hex(4)}"
    handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_urlsafe(48))
        file.flush()
        os.fsync(file.fileno())
    try:
        os.link(draft, path)
    except FileExistsError:
        pass
    except OSError:
        # A stick whose file system knows no second name for a file.
        draft.replace(path)
    draft.unlink(missing_ok=True)
    return read_key(path)


def read_key(path: Path) -> str:
    """Read a key; nothing where there is none that can be read."""
    try:
        return path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError):
        return ""
