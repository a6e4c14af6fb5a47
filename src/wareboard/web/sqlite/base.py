"""Django's SQLite backend, made to use the bundled SQLite and to keep what it acknowledged.

SQLite 3.7.0 to 3.51.2 can corrupt a write-ahead log when writes and checkpoints
coincide; the system's own is often one of these. Django's backend imports the
module ``sqlite3`` by name, so the bundled one has to stand under that name
before the backend is loaded.

Every write is forced to the disk before it is acknowledged. A record's file
that is missing is never made anew, and one that was taken away while the studio
is open is noticed before the next entry goes into a file that nobody will find.
"""

import sys
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import Any, ClassVar

import pysqlite3
import pysqlite3.dbapi2

sys.modules["sqlite3"] = pysqlite3
sys.modules["sqlite3.dbapi2"] = pysqlite3.dbapi2

from django.db import DEFAULT_DB_ALIAS, OperationalError  # noqa: E402 - the swap comes first
from django.db.backends.sqlite3 import base, creation, operations  # noqa: E402 - as above

from wareboard.records.keeping import database, places  # noqa: E402 - as above

TAKEN_AWAY = (
    "The record's file was taken away or replaced while the studio was open."
    " Nothing more is written; stop the studio and start it again."
)


@cache
def journal_mode(path: Path) -> str:
    """Say which journal may be trusted with a file.

    The write-ahead log needs a SQLite without the fault, and a disk of this
    machine: it does not work over a network.
    """
    sound = database.sqlite_version() >= database.FIRST_SOUND_WAL
    return "WAL" if sound and not places.on_network_share(path) else "DELETE"


def instant(stored: str) -> datetime:
    """Read an instant as it is kept: the time in UTC, without saying so.

    Examples
    --------
    >>> instant("2026-11-25 07:40:00")
    datetime.datetime(2026, 11, 25, 7, 40, tzinfo=datetime.timezone.utc)
    """
    try:
        return datetime.fromisoformat(stored + "+00:00")
    except ValueError:
        told = datetime.fromisoformat(stored)
        return told if told.tzinfo else told.replace(tzinfo=UTC)


# Every row has instants, and a page reads thousands: they are read in one step.
pysqlite3.register_converter("datetime", lambda stored: instant(stored.decode()))


class DatabaseOperations(operations.DatabaseOperations):
    """What differs from Django's own reading of values."""

    def convert_datetimefield_value(self, value: Any, *_of: Any) -> Any:
        """Leave an instant as it is; read one that came as text, as from an expression."""
        return instant(value) if isinstance(value, str) else value


class DatabaseCreation(creation.DatabaseCreation):
    """Databases for test runs, the only ones that are made on connecting."""

    def _create_test_db(self, verbosity: int, autoclobber: bool, keepdb: bool = False) -> Any:  # noqa: FBT001, FBT002 - Django's own signature
        """Make the empty file that a connection would not make."""
        name = super()._create_test_db(verbosity, autoclobber, keepdb)  # type: ignore[misc] # the stubs leave it out
        if not self.is_in_memory_db(name):
            Path(name).touch(mode=0o600)
        return name


class DatabaseWrapper(base.DatabaseWrapper):
    """A connection that keeps what it acknowledged through a power cut."""

    creation_class = DatabaseCreation
    ops_class = DatabaseOperations
    # The record's file as this process first opened it.
    first_opened: ClassVar[dict[str, tuple[int, int]]] = {}

    def get_connection_params(self) -> dict[str, Any]:
        """Name the file so that a missing one is an error."""
        params: dict[str, Any] = super().get_connection_params()
        if not self.is_in_memory_db():
            params["database"] = database.address(Path(params["database"]))
        return params

    def get_new_connection(self, conn_params: dict[str, Any]) -> Any:
        """Open a connection with the safe settings."""
        connection = super().get_new_connection(conn_params)
        for pragma in database.SAFE_PRAGMAS:
            connection.execute(pragma)
        if not self.is_in_memory_db():
            self.refuse_another_file()
            mode = journal_mode(Path(self.settings_dict["NAME"]))
            connection.execute(f"PRAGMA journal_mode={mode}").fetchall()
            if mode == "DELETE":
                # An entry stands once its journal is gone: wait for that as well.
                connection.execute("PRAGMA synchronous=EXTRA")
        if sys.platform == "darwin":
            connection.execute("PRAGMA fullfsync=1")
        return connection

    def _start_transaction_under_autocommit(self) -> None:
        """Begin, unless the file is no longer the one that was opened."""
        self.refuse_another_file()
        super()._start_transaction_under_autocommit()  # type: ignore[misc] # the stubs leave it out

    def refuse_another_file(self) -> None:
        """Stop when the record's file was taken away or replaced since it was opened."""
        name = str(self.settings_dict["NAME"])
        if self.alias != DEFAULT_DB_ALIAS or self.is_in_memory_db():
            return
        now = identity(Path(name))
        if now is None or self.first_opened.setdefault(name, now) != now:
            raise OperationalError(TAKEN_AWAY)


def identity(path: Path) -> tuple[int, int] | None:
    """Tell one file from another that took its name; never by opening it."""
    try:
        status = path.stat()
    except OSError:
        return None
    return status.st_dev, status.st_ino
