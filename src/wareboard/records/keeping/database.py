"""The record's file, seen with plain SQLite: opened, copied, checked and counted.

Nothing here needs Django, so that a record can be checked before the program
dares to work with it. The file is only ever opened through SQLite: opening and
closing it in any other way drops the locks that another connection of the same
process holds.

Sources
-------
[SQLITE-CORRUPT]_ says why a database is not opened as a plain file, and why a
copy is made by the backup interface.

.. [SQLITE-CORRUPT] SQLite, "How To Corrupt An SQLite Database File",
   sections 1.2 and 2.2, https://www.sqlite.org/howtocorrupt.html
"""

from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pysqlite3

# Set in the header of every record, so that another program's database is
# not taken for one: the letters "Wbrd".
APPLICATION_ID = 0x57627264
# Raised only when an older program could not keep the record whole even
# though it knows every migration in it.
RECORD_FORMAT = 1

FIRST_SOUND_WAL = (3, 51, 3)

SAFE_PRAGMAS = (
    "PRAGMA synchronous=FULL",
    "PRAGMA trusted_schema=OFF",
    "PRAGMA cell_size_check=ON",
    "PRAGMA mmap_size=0",
)

DatabaseError: type[Exception] = pysqlite3.DatabaseError
Connection = Any


def why(error: Exception) -> str:
    """Say in a few words what a disk or SQLite refused."""
    return str(getattr(error, "strerror", None) or error)


def sqlite_version() -> tuple[int, ...]:
    """Give the version of the SQLite that comes with the program."""
    return tuple(pysqlite3.sqlite_version_info)


def address(path: Path, *, mode: str = "rw") -> str:
    """Name a file for SQLite so that a missing one is never made.

    Parameters
    ----------
    path : Path
        The database file.
    mode : str
        ``ro``, ``rw``, or ``rwc`` where a new file is wanted.

    Examples
    --------
    >>> address(Path("/pot shed/record.sqlite3"))
    'file:///pot%20shed/record.sqlite3?mode=rw'
    """
    posix = path.absolute().as_posix()
    root = "" if posix.startswith("/") else "/"
    return f"file://{root}{quote(posix, safe='/:')}?mode={mode}"


@contextmanager
def opened(path: Path, *, mode: str = "rw") -> Iterator[Any]:
    """Open a database with the safe settings, and close it again.

    Raises
    ------
    DatabaseError
        If it is missing or is no database.
    """
    with closing(
        pysqlite3.connect(address(path, mode=mode), uri=True, timeout=20, isolation_level=None)
    ) as connection:
        for pragma in SAFE_PRAGMAS:
            connection.execute(pragma)
        yield connection


def pragma(connection: Any, name: str) -> Any:
    """Read one of the database's own numbers."""
    return connection.execute(f"PRAGMA {name}").fetchone()[0]


def stamp(connection: Any) -> None:
    """Mark the database as this program's."""
    connection.execute(f"PRAGMA application_id={APPLICATION_ID}")
    connection.execute(f"PRAGMA user_version={RECORD_FORMAT}")


def settle(path: Path) -> None:
    """Bring everything into the one file, so that it can be renamed or packed."""
    with opened(path) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
        connection.execute("PRAGMA journal_mode=DELETE").fetchall()


def fold_log_in(path: Path) -> None:
    """Bring the write-ahead log into the file, where nobody else needs it just now.

    Only a courtesy to whoever copies the file by hand: an entry in the log is
    as safe as one in the file, so a record that is gone or busy is left alone.
    """
    with suppress(pysqlite3.Error), opened(path) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def side_files(path: Path) -> tuple[Path, ...]:
    """Name the files that SQLite may keep beside a database."""
    return tuple(path.with_name(path.name + end) for end in ("-wal", "-shm", "-journal"))


def copy(source: Path, target: Path) -> None:
    """Copy a database while others write to it: one state of it, whole."""
    with opened(source) as origin, opened(target, mode="rwc") as twin:
        origin.backup(twin)
        twin.execute("PRAGMA journal_mode=DELETE").fetchall()


def quick_faults(path: Path) -> list[str]:
    """Say what a quick look at every page finds wrong; empty where all is well."""
    return faults(path, "quick_check")


def all_faults(path: Path) -> list[str]:
    """Say what the thorough check finds wrong: pages, indexes, and rows that lead nowhere."""
    return faults(path, "integrity_check") or dangling(path)


def faults(path: Path, check: str) -> list[str]:
    """Run one of SQLite's own checks."""
    try:
        with opened(path) as connection:
            said = [row[0] for row in connection.execute(f"PRAGMA {check}(20)")]
    except pysqlite3.DatabaseError as error:
        return [str(error)]
    return [] if said == ["ok"] else said


def dangling(path: Path) -> list[str]:
    """Name tables with rows whose counterpart is missing."""
    try:
        with opened(path) as connection:
            found = connection.execute("PRAGMA foreign_key_check").fetchall()
    except pysqlite3.DatabaseError as error:
        return [str(error)]
    pairs = sorted({(row[0], row[2]) for row in found})
    return [f"rows of {table} name rows of {parent} that are missing" for table, parent in pairs]


def tables(connection: Any) -> list[str]:
    """Name the tables, in order."""
    rows = connection.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite!_%'"
        " ESCAPE '!' ORDER BY name"
    )
    return [row[0] for row in rows]


def row_counts(connection: Any) -> dict[str, int]:
    """Count the rows of every table."""
    return {
        table: connection.execute(f"SELECT count(*) FROM {quoted(table)}").fetchone()[0]  # noqa: S608 - the name is the database's own, quoted
        for table in tables(connection)
    }


def quoted(name: str) -> str:
    """Quote a table's name for SQL."""
    return '"' + name.replace('"', '""') + '"'


def applied_migrations(connection: Any) -> frozenset[tuple[str, str]]:
    """Give the migrations a record has been through."""
    if "django_migrations" not in tables(connection):
        return frozenset()
    rows = connection.execute("SELECT app, name FROM django_migrations")
    return frozenset((app, name) for app, name in rows)
