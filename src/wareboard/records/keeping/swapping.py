"""Putting one folder in another's place, so that a power cut leaves the old or the new.

Between two renames the studio's folder has no name for an instant. A note that
was written before says which folder is to have it, so that whatever starts
next finishes the step.
"""

import json
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from wareboard.records.pictures.disk import Disk, free_name

from .data_folder import DataFolder, read_note

COMING = "coming-back"


def swap(folder: DataFolder, coming: DataFolder, disk: Disk) -> Path | None:
    """Put the new folder in the old one's place; an error puts the old one back.

    Returns
    -------
    Path or None
        Where the old one is now; none where there was none.
    """
    kept = dated_name(folder) if folder.path.exists() else None
    note = {"coming": coming.path.name, "kept": kept.name if kept else ""}
    try:
        disk.write_whole(swap_note(folder), json.dumps(note).encode())
        if kept is not None:
            disk.rename(folder.path, kept)
        try:
            disk.rename(coming.path, folder.path)
        except OSError:
            if kept is not None:
                kept.rename(folder.path)
            raise
        # The new state stands; should the disk not confirm it, the note still says so.
        with suppress(OSError):
            disk.force_folder(folder.path.parent)
    finally:
        if folder.path.exists() or kept is None:
            swap_note(folder).unlink(missing_ok=True)
    return kept


def dated_name(folder: DataFolder) -> Path:
    """Give the name under which the studio is kept as it was."""
    now = datetime.now().astimezone()
    return free_name(folder.path.with_name(f"{folder.path.name} until {now:%Y-%m-%d %H%M%S}"))


def swap_note(folder: DataFolder) -> Path:
    """Give the place of the note that says a swap is going on."""
    return folder.path.with_name(f".{folder.path.name}.swap.json")


def finish_swap(folder: DataFolder) -> None:
    """Finish a swap that was cut off between its two renames."""
    note = read_note(swap_note(folder))
    if not note:
        return
    for name in (note.get("coming"), note.get("kept")):
        waiting = folder.path.with_name(Path(str(name or "-")).name)
        if not folder.path.exists() and waiting.is_dir():
            waiting.rename(folder.path)
    swap_note(folder).unlink(missing_ok=True)
