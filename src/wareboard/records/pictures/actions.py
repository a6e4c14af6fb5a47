"""Taking in photos and spoken notes."""

import errno
from pathlib import PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING, cast

from django.utils.translation import gettext as _

from wareboard.exchange.refusals import shown
from wareboard.records.people.entry import EntryRefused, keep
from wareboard.records.people.models import Member

from . import storage
from .disk import Disk
from .kinds import HEAD_BYTES, FileKind, has_views, is_whole, kind_of
from .models import Original, OriginalKind

if TYPE_CHECKING:
    from . import photos

MOST_BYTES = {OriginalKind.PHOTO: 80_000_000, OriginalKind.SOUND: 50_000_000}
DISK_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
LONGEST_NAME = 200


class FileRefused(EntryRefused):
    """A file that is not taken in; the text is one sentence."""


def keep_original(
    member: Member,
    file: storage.Incoming,
    *,
    entry_id: str = "",
    kind: str = OriginalKind.PHOTO,
    together: str = "",
    disk: Disk | None = None,
) -> Original:
    """Keep a file byte for byte under its hash, and what it is in the record.

    The file is on the disk, whole, before the record says that it is there. A
    photo is read to its last pixel first, and its views are made.

    Parameters
    ----------
    member : Member
        Who brings it.
    file : Incoming
        An upload, or a file opened for reading.
    entry_id : str
        The id the client made; the same one again gives back what is kept.
    kind : str
        ``photo`` or ``sound``.
    together : str
        The mark of all that the same tap entered.
    disk : Disk, optional
        The file operations; a test gives one that fails.

    Raises
    ------
    FileRefused
        If it is empty, too large, incomplete, or something else; nothing is kept.
    """
    disk, wanted = disk or Disk(), OriginalKind(kind)
    most_bytes = MOST_BYTES[wanted]
    try:
        draft = storage.write_draft(file, most_bytes=most_bytes, disk=disk)
    except storage.TooMuch as error:
        raise FileRefused(
            _("This file is too large: at most %(most)d MB.") % {"most": most_bytes // 1_000_000}
        ) from error
    except OSError as error:
        raise full_or_same(error) from error
    try:
        content = draft.path.read_bytes()
        found = refuse_unless(wanted, content)
        photo = read(content) if has_views(found.suffix) else None
        storage.name_draft(draft, found.suffix, disk=disk)
        if photo is not None:
            storage.keep_views(draft.sha256, photo.views, disk=disk)
    except OSError as error:
        raise full_or_same(error) from error
    finally:
        draft.path.unlink(missing_ok=True)
    return keep(
        Original,
        member,
        entry_id=entry_id,
        together=together,
        sha256=draft.sha256,
        kind=found.kind,
        suffix=found.suffix,
        size_bytes=draft.size_bytes,
        width_px=photo.width_px if photo else None,
        height_px=photo.height_px if photo else None,
        taken=photo.taken if photo else "",
        came_as=name_it_came_with(file),
    )


def read(content: bytes) -> "photos.Photo":
    """Read a photo to its last pixel."""
    from . import photos  # noqa: PLC0415 - loads the reader of pictures, which few requests need

    try:
        return photos.read_photo(content)
    except photos.PhotoUnreadable as error:
        raise FileRefused(str(error)) from error


def refuse_unless(wanted: OriginalKind, content: bytes) -> FileKind:
    """Tell what a file is, and refuse one that is not what it should be."""
    if not content:
        raise FileRefused(_("This file is empty; send it again."))
    found = kind_of(content[:HEAD_BYTES])
    if found is None or found.kind != wanted:
        if wanted == OriginalKind.SOUND:
            raise FileRefused(_("This file is no sound recording that can be kept."))
        raise FileRefused(_("This file is no photo that can be kept."))
    if not is_whole(content, found.suffix):
        raise FileRefused(_("This file arrived incomplete; send it again."))
    return found


def full_or_same(error: OSError) -> OSError | FileRefused:
    """Say a full disk in a sentence; leave any other fault what it is."""
    if error.errno not in DISK_FULL:
        return error
    return FileRefused(
        _(
            "The disk of this studio's machine is full, so this file was not kept. Make room there,"
            " then send it again."
        )
    )


def name_it_came_with(file: storage.Incoming) -> str:
    """Give the name a file came with, as plain text and without folders."""
    name = str(cast("object", getattr(file, "name", "")) or "")
    last = PureWindowsPath(PurePosixPath(name).name).name
    return shown(last)[:LONGEST_NAME]
