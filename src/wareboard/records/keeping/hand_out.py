"""Hand out the whole record as a folder that needs no program to be read."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Literal
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import models, transaction

from wareboard import __version__
from wareboard.exchange.record_folder import Original, write_record_folder
from wareboard.records.people.models import Studio
from wareboard.records.pictures.models import OriginalKind

from .tables import KEPT, Kept, fields_of, specs

ORIGINALS = "originals"


def rows_of(kept: Kept, studio: Studio) -> list[dict[str, Any]]:
    """Give the standing rows of one table, as the folder's columns want them."""
    manager = kept.model._base_manager
    zone = ZoneInfo(studio.time_zone)
    if kept.is_part:
        query = manager.filter(
            **{f"{kept.owner}__studio": studio, f"{kept.owner}__undone_at__isnull": True}
        )
    elif kept.is_entry:
        query = manager.filter(studio=studio, undone_at__isnull=True)
    elif kept.model is Studio:
        query = manager.filter(pk=studio.pk)
    else:
        query = manager.filter(studio=studio)
    fields = fields_of(kept.model)
    times = {f.name for f in fields if isinstance(f, models.DateTimeField)}
    names = [f.name for f in fields]
    rows = []
    for values in query.order_by("pk").values_list(*names):
        row = dict(zip(names, values, strict=True))
        for name in times:
            row[name] = row[name].astimezone(zone) if row[name] is not None else None
        rows.append(row)
    return rows


def originals_of(rows: Iterable[Mapping[str, Any]]) -> list[Original]:
    """Give the files that the record's pictures lie in, each once."""
    folder = Path(settings.DATA) / ORIGINALS
    found = {}
    for row in rows:
        name = f"{row['sha256']}.{row['suffix']}"
        room: Literal["photos", "sounds"] = (
            "sounds" if row["kind"] == OriginalKind.SOUND else "photos"
        )
        found[name] = Original(row["sha256"], row["suffix"], folder / name, room)
    return list(found.values())


def hand_out(path: Path, studio: Studio, *, overwrite: bool = False) -> dict[str, int]:
    """Write a studio's record to a folder.

    Parameters
    ----------
    path : Path
        Folder to make.
    studio : Studio
        Whose record.
    overwrite : bool
        Whether an older record folder there may be replaced.

    Returns
    -------
    dict of str to int
        Rows written, by table.
    """
    with transaction.atomic():
        rows = {kept.name: rows_of(kept, studio) for kept in KEPT}
    write_record_folder(
        path,
        specs(),
        rows,
        originals_of(rows["pictures"]),
        studio_title=studio.name,
        program_version=__version__,
        overwrite=overwrite,
    )
    return {name: len(lines) for name, lines in rows.items()}
