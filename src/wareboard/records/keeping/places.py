"""Where a data folder lies, and what is doubtful about it.

A program that copies files behind SQLite's back, or a disk at the other end of
a network, may tear a record that would survive a power cut on a disk of its own.
"""

import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

from .data_folder import DataFolder

# Folders of the usual synchronising programs, as they name them; common practice.
SYNCED_FOLDERS = (
    "dropbox",
    "onedrive",
    "google drive",
    "googledrive",
    "my drive",
    "icloud drive",
    "icloudrive",
    "mobile documents",
    "cloudstorage",
    "nextcloud",
    "owncloud",
    "pcloud drive",
    "pclouddrive",
    "megasync",
    "syncthing",
    "seafile",
)
SYNC_MARKS = (".stfolder", ".dropbox", ".owncloudsync.log", ".nextcloudsync.log")
NETWORK_FILE_SYSTEMS = frozenset(
    {"nfs", "nfs4", "cifs", "smb", "smb2", "smb3", "smbfs", "afpfs", "webdav", "davfs", "ncpfs"}
    | {"9p", "afs", "ceph", "glusterfs", "lustre", "fuse.sshfs", "fuse.rclone", "fuse.davfs2"}
    | {"fuse.glusterfs", "fuse.gvfsd-fuse"}
)
LITTLE_ROOM_BYTES = 1 << 30
LITTLE_ROOM_SHARE = 0.05
REMOTE_DRIVE = 4


def doubts_about(folder: DataFolder) -> tuple[str, ...]:
    """Say in a line each what may go wrong with a folder where it lies."""
    doubts = []
    if is_synced(folder.path):
        doubts.append(
            f"{folder.path} is kept in step with another machine: that can tear the record. Keep"
            " it in a folder of this machine alone, and put backups there instead."
        )
    if on_network_share(folder.path):
        doubts.append(
            f"{folder.path} lies on a network share, where a record is not safe. Keep it on a"
            " disk of this machine, and put backups there instead."
        )
    free = free_bytes(folder.path)
    if is_little(folder.path):
        doubts.append(
            f"Only {free / 1e9:.1f} GB are free on the disk of {folder.path}: make room before"
            " photos fill it."
        )
    return tuple(doubts)


def is_synced(path: Path) -> bool:
    """Say whether a folder lies where a program keeps it in step with other machines."""
    resolved = path.expanduser().resolve()
    for parent in (resolved, *resolved.parents):
        name = parent.name.casefold()
        if any(name == known or name.startswith(f"{known} -") for known in SYNCED_FOLDERS):
            return True
        if any((parent / mark).exists() for mark in SYNC_MARKS):
            return True
    return False


def free_bytes(path: Path) -> int:
    """Give the room left on the disk a path lies on."""
    return shutil.disk_usage(nearest(path)).free


def is_little(path: Path) -> bool:
    """Say whether the disk is nearly full."""
    usage = shutil.disk_usage(nearest(path))
    return usage.free < LITTLE_ROOM_BYTES or usage.free < LITTLE_ROOM_SHARE * usage.total


def on_same_disk(path: Path, other: Path) -> bool:
    """Say whether two paths that are there lie on one disk, and would be lost together."""
    try:
        return path.stat().st_dev == other.stat().st_dev
    except OSError:
        return False


def nearest(path: Path) -> Path:
    """Give the path, or the nearest folder above it that exists."""
    return next(parent for parent in (path, *path.absolute().parents) if parent.exists())


@cache
def on_network_share(path: Path) -> bool:
    """Say whether a path lies at the other end of a network."""
    resolved = nearest(path.expanduser()).resolve()
    if sys.platform == "win32":
        return on_remote_drive(resolved)
    kind = file_system(resolved, mounts())
    return kind in NETWORK_FILE_SYSTEMS


def on_remote_drive(path: Path) -> bool:
    """Ask Windows whether a drive is another machine's."""
    import ctypes  # noqa: PLC0415 - asked on Windows alone

    windows = getattr(ctypes, "windll", None)
    if windows is None or path.drive.startswith("\\\\"):
        return path.drive.startswith("\\\\")
    return bool(windows.kernel32.GetDriveTypeW(f"{path.drive}\\") == REMOTE_DRIVE)


def mounts() -> str:
    """List what is mounted where, as the system lists it."""
    table = Path("/proc/self/mounts")
    if table.exists():
        return table.read_text(encoding="utf-8", errors="surrogateescape")
    listed = subprocess.run(
        ["/sbin/mount"], capture_output=True, check=False, encoding="utf-8", errors="replace"
    )
    return listed.stdout


def file_system(path: Path, table: str) -> str:
    r"""Name the kind of file system a path lies on, from a list of mounts.

    Examples
    --------
    >>> file_system(Path("/pots/record"), "/dev/sda / ext4 rw 0 0\nnas:/pots /pots nfs4 rw 0 0")
    'nfs4'
    >>> file_system(Path("/Volumes/pots"), "//nas/pots on /Volumes/pots (smbfs, nodev)")
    'smbfs'
    """
    best, kind = -1, ""
    for line in table.splitlines():
        if " on /" in line and line.endswith(")"):
            where, _, rest = line.partition(" on ")[2].rpartition(" (")
            found = rest.split(",")[0].rstrip(")")
        else:
            parts = line.split()
            if len(parts) < 3:  # noqa: PLR2004 - device, place, kind
                continue
            where, found = parts[1].replace("\\040", " "), parts[2]
        inside = Path(where) == path or Path(where) in path.parents
        if inside and len(where) > best:
            best, kind = len(where), found
    return kind


__all__ = [
    "doubts_about",
    "file_system",
    "free_bytes",
    "is_little",
    "is_synced",
    "on_network_share",
    "on_same_disk",
]
