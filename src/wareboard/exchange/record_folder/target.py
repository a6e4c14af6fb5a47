"""What may stand where a record folder is to be written.

Handing out replaces a folder as a whole, so it must be sure that nothing but
an earlier record goes away with it.
"""

import json
from pathlib import Path
from typing import Any

from wareboard.exchange.record_folder import descriptor, disk, readme
from wareboard.exchange.record_folder.limits import USUAL
from wareboard.exchange.record_folder.originals import PATH, ROOMS
from wareboard.exchange.record_folder.problems import FolderNotWritten

# What file managers and spreadsheets leave behind by themselves.
LEFT_BEHIND = frozenset({".DS_Store", ".directory", "Thumbs.db", "desktop.ini"})
LEFT_BEHIND_FIRST = ("._", ".~lock.", "~$")


def is_left_behind(name: str) -> bool:
    """Tell whether a file manager or a spreadsheet left a file behind by itself."""
    return name in LEFT_BEHIND or name.startswith(LEFT_BEHIND_FIRST)


def check_target(target: Path, *, overwrite: bool) -> None:
    """Make sure that a record folder may be written at a place.

    Parameters
    ----------
    target : Path
        The place, absolute, links resolved.
    overwrite : bool
        True if an earlier record folder may be replaced.

    Raises
    ------
    FolderNotWritten
        If something else is there.
    """
    if not target.name or not target.parent.is_dir():
        raise _refused(target, f"There is no folder {target.parent} to write into.")
    if not target.exists():
        return
    if not target.is_dir():
        raise _refused(target, f"{target.name} is a file, so no folder can be written there.")
    names = [name for name in _names(target) if not is_left_behind(name)]
    if not names:
        return
    package = _package_at(target)
    if package is None:
        raise _refused(
            target, f"The folder {target.name} holds something that is no record: nothing written."
        )
    if not overwrite:
        raise _refused(target, f"The folder {target.name} already holds a record: nothing written.")
    if stray := _stray(target, names, package):
        raise _refused(
            target,
            f"The folder {target.name} holds {stray}, which is no part of a record and would be "
            "lost: move it away first.",
        )


def _names(folder: Path) -> list[str]:
    return [entry.name for entry in folder.iterdir()]


def _refused(target: Path, say: str) -> FolderNotWritten:
    return FolderNotWritten(
        say,
        field="path",
        seen=str(target),
        accepted="a new or empty folder, or an earlier record folder that may be replaced",
    )


def _package_at(folder: Path) -> dict[str, Any] | None:
    """Read the description of a record folder; none if it is no record folder."""
    try:
        with disk.opened(folder / descriptor.FILE) as file:
            package = json.loads(file.read(USUAL.descriptor_bytes))
    except (OSError, disk.NotOrdinary, ValueError, RecursionError):
        return None
    if isinstance(package, dict) and package.get("name") == descriptor.PACKAGE_NAME:
        return package
    return None


def _stray(folder: Path, names: list[str], package: dict[str, Any]) -> str:
    """Name one file that is no part of the record, or nothing."""
    resources = package.get("resources")
    ours = {descriptor.FILE, readme.FILE} | {
        f"{resource.get('name')}.csv"
        for resource in (resources if isinstance(resources, list) else [])
        if isinstance(resource, dict)
    }
    for name in sorted(names):
        place = folder / name
        if name in ROOMS and place.is_dir() and not place.is_symlink():
            for inside in sorted(_names(place)):
                path = f"{name}/{inside}"
                ordinary = (folder / path).is_file() and not (folder / path).is_symlink()
                if not is_left_behind(inside) and not (ordinary and PATH.fullmatch(path)):
                    return path
        elif name not in ours or not place.is_file() or place.is_symlink():
            return name
    return ""
