"""Taking a backup apart, as if a stranger had made it.

Only names on its own list come out of it, into a folder that was empty. Sizes,
counts and the ratio of packed to unpacked are bounded before and while reading;
every byte is hashed on its way.

Sources
-------
[APPNOTE]_ gives the layout of a zip file's end, read here before the library
reads the list of a million names into memory.

.. [APPNOTE] PKWARE, ".ZIP File Format Specification", sections 4.3.14 to 4.3.16,
   https://pkware.cachefly.net/webdocs/casestudies/APPNOTE.TXT
"""

import hashlib
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import BinaryIO

from wareboard.records.pictures.disk import Disk

from . import database, manifest, places
from .manifest import KeptFile, Manifest, not_ours, refused
from .refusals import KeepingError

CHUNK_BYTES = 1 << 18
LONGEST_LIST_BYTES = 50_000_000
MOST_UNPACKED_TO_PACKED = 60
PACKINGS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
ENCRYPTED = 0x1
END = struct.Struct("<4s4H2LH")
END_MARK = b"PK\x05\x06"
END_64 = struct.Struct("<4sQ2H2L4Q")
END_64_MARK = b"PK\x06\x06"
LOCATOR_BYTES = 20
DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    NotImplementedError,  # packed in a way that zipfile does not know
    RuntimeError,
    struct.error,
    ValueError,
    OverflowError,
    KeyError,
)


@contextmanager
def opened(path: Path) -> Iterator[zipfile.ZipFile]:
    """Open a backup whose outside is in order.

    Raises
    ------
    BackupRefused
        If it is missing, is no zip file, or its list of names is too long.
    """
    with ExitStack() as held:
        try:
            file = held.enter_context(path.open("rb"))
            refuse_long_list(file)
            archive = held.enter_context(zipfile.ZipFile(file))
            refuse_odd_members(archive, path.stat().st_size)
        except OSError as error:
            raise refused(
                f"{path} cannot be read: {error.strerror or error}.", seen=str(path)
            ) from error
        except DAMAGE as error:
            raise damaged(error, f"{path.name} is damaged or no zip file") from error
        yield archive


def damaged(error: Exception, what: str) -> KeepingError:
    """Say what is damaged; what was said already stays as it is."""
    return error if isinstance(error, KeepingError) else not_ours(what)


def refuse_long_list(file: BinaryIO) -> None:
    """Read the end of a zip file, and refuse a list of names that would fill the memory."""
    size = file.seek(0, 2)
    if size < END.size:
        raise not_ours("the file is too short")
    file.seek(size - END.size)
    mark, *_, list_bytes, _, comment = END.unpack(file.read(END.size))
    if mark != END_MARK or comment:
        raise not_ours("its end is missing or is not a zip file's")
    wide = size - END.size - LOCATOR_BYTES - END_64.size
    if wide >= 0:
        file.seek(wide)
        mark, *_, wide_bytes, _ = END_64.unpack(file.read(END_64.size))
        list_bytes = wide_bytes if mark == END_64_MARK else list_bytes
    if list_bytes > LONGEST_LIST_BYTES:
        raise not_ours("it names more files than a backup has")


def refuse_odd_members(archive: zipfile.ZipFile, packed_bytes: int) -> None:
    """Refuse names, kinds and sizes that no backup of ours has."""
    members = archive.infolist()
    names = [member.filename for member in members]
    if len(set(names)) != len(names):
        raise not_ours("it names a file twice")
    for member in members:
        mode = member.external_attr >> 16
        if member.filename != manifest.NAME and not manifest.SAFE_NAME.fullmatch(member.filename):
            raise not_ours(f"it holds {member.filename[:80]!r}")
        if mode and not stat.S_ISREG(mode) and stat.S_IFMT(mode):
            raise not_ours(f"{member.filename} is no plain file")
        if member.flag_bits & ENCRYPTED or member.compress_type not in PACKINGS:
            raise not_ours(f"{member.filename} is packed in a way no backup is")
    unpacked = sum(member.file_size for member in members)
    if unpacked > MOST_UNPACKED_TO_PACKED * packed_bytes:
        raise not_ours("it would unpack to far more than it is")


def read_manifest(archive: zipfile.ZipFile) -> Manifest:
    """Read the list of contents, and see that the archive holds just that."""
    names = set(archive.namelist())
    if manifest.NAME not in names:
        raise not_ours("it has no list of contents")
    member = archive.getinfo(manifest.NAME)
    if member.file_size > manifest.LARGEST_BYTES:
        raise not_ours("its list of contents is endless")
    try:
        found = Manifest.read(archive.read(member))
    except DAMAGE as error:
        raise damaged(error, "its list of contents is damaged") from error
    listed = {file.name for file in found.files}
    gone = sorted(listed - names)
    if gone:
        raise not_ours(f"{gone[0]} is missing from it")
    if names - listed - {manifest.NAME}:
        raise not_ours("it holds a file that its list does not name")
    return found


def unpack(path: Path, into: Path, *, disk: Disk, trial: bool = False) -> Manifest:
    """Take a backup apart into an empty folder, checking every byte.

    Parameters
    ----------
    path : Path
        The backup.
    into : Path
        A folder that is empty.
    disk : Disk
        The file operations.
    trial : bool
        Whether photos are thrown away again once their bytes were found right.

    Raises
    ------
    BackupRefused
        If anything in it is not as its list says; the folder may then hold a part of it.
    """
    with opened(path) as archive:
        found = read_manifest(archive)
        refuse_without_room(found, into, trial=trial)
        disk.make_folder(into / "originals")
        for file in found.files:
            target = into / file.name
            take_out(archive, file, target, disk=disk)
            if trial and file.name != manifest.RECORD_NAME:
                target.unlink()
            elif not trial:
                disk.force_file(target)
    check_record(into / manifest.RECORD_NAME, found)
    return found


def refuse_without_room(found: Manifest, into: Path, *, trial: bool) -> None:
    """Refuse before the disk is full rather than after."""
    sizes = [file.size_bytes for file in found.files]
    needed = 2 * max(sizes) if trial else sum(sizes)
    free = places.free_bytes(into)
    if needed > free:
        raise refused(
            f"There is not enough room: {needed / 1e6:.0f} MB are needed in {into.parent}, and"
            f" {free / 1e6:.0f} MB are free.",
            seen=free,
        )


def take_out(archive: zipfile.ZipFile, file: KeptFile, target: Path, *, disk: Disk) -> None:
    """Take one file out, and refuse it if a single byte is not as it was."""
    broken = not_ours(f"{file.name} is damaged")
    digest, left = hashlib.sha256(), file.size_bytes
    try:
        with archive.open(file.name) as source, disk.create(target) as copy:
            while chunk := source.read(CHUNK_BYTES):
                left -= len(chunk)
                if left < 0:
                    raise broken
                digest.update(chunk)
                disk.write(copy, chunk, target)
    except DAMAGE as error:
        raise damaged(error, f"{file.name} is damaged") from error
    if left or digest.hexdigest() != file.sha256:
        raise broken


def check_record(record: Path, found: Manifest) -> None:
    """See that a record from a backup is whole, ours, and has every row it should have."""
    try:
        with database.opened(record) as connection:
            refuse_foreign_schema(connection)
            damage = database.faults(record, "integrity_check")
            if damage:
                raise not_ours(f"its record is damaged ({damage[0]})")
            rows = database.row_counts(connection)
            record_format = database.pragma(connection, "user_version")
    except database.DatabaseError as error:
        raise not_ours(f"its record is damaged ({error})") from error
    if rows != dict(found.rows) or record_format != found.record_format:
        raise not_ours("its record does not have the rows that its list says")
    dangling = database.dangling(record)
    if dangling:
        raise not_ours(f"its record does not hang together ({dangling[0]})")


def refuse_foreign_schema(connection: database.Connection) -> None:
    """Refuse another program's database, and one that does something when it is read."""
    if database.pragma(connection, "application_id") != database.APPLICATION_ID:
        raise not_ours("its record is another program's database")
    odd = connection.execute(
        "SELECT count(*) FROM sqlite_schema WHERE type NOT IN ('table', 'index')"
        " OR sql LIKE 'CREATE VIRTUAL%'"
    ).fetchone()[0]
    if odd:
        raise not_ours("its record has parts that no record of ours has")
