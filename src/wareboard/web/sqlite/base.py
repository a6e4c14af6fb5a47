"""Django's SQLite backend, made to use the bundled SQLite.

SQLite 3.7.0 to 3.51.2 can corrupt a write-ahead log when writes and checkpoints
coincide; the system's own is often one of these. Django's backend imports the
module ``sqlite3`` by name, so the bundled one has to stand under that name
before the backend is loaded.
"""

import sys
from typing import Any

import pysqlite3
import pysqlite3.dbapi2

sys.modules["sqlite3"] = pysqlite3
sys.modules["sqlite3.dbapi2"] = pysqlite3.dbapi2

from django.db.backends.sqlite3 import base  # noqa: E402 - the swap above must come first

FIRST_SOUND_SQLITE = (3, 51, 3)

SAFE_PRAGMAS = (
    "PRAGMA synchronous=FULL",
    "PRAGMA trusted_schema=OFF",
    "PRAGMA cell_size_check=ON",
    "PRAGMA mmap_size=0",
)


def journal_mode() -> str:
    """Say which journal this SQLite may be trusted with."""
    sound = base.Database.sqlite_version_info >= FIRST_SOUND_SQLITE
    return "WAL" if sound else "DELETE"


class DatabaseWrapper(base.DatabaseWrapper):
    """A connection that keeps what it acknowledged through a power cut."""

    def get_new_connection(self, conn_params: dict[str, Any]) -> Any:
        """Open a connection with the safe settings."""
        connection = super().get_new_connection(conn_params)
        connection.execute(f"PRAGMA journal_mode={journal_mode()}")
        for pragma in SAFE_PRAGMAS:
            connection.execute(pragma)
        if sys.platform == "darwin":
            connection.execute("PRAGMA fullfsync=1")
        return connection
