"""Take a record folder into the record: all of it, or nothing."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.core.exceptions import ValidationError
from django.db import IntegrityError, models, transaction

from wareboard.exchange.record_folder import RecordFolder, read_record_folder
from wareboard.records.people.models import Member, MemberRole, Studio
from wareboard.records.pictures.disk import Disk
from wareboard.records.pictures.storage import original_path

from .hand_out import rows_of
from .refusals import KeepingError
from .tables import KEPT, Kept, fields_of, specs


class TakingInRefused(KeepingError):
    """A folder that does not fit this record; nothing was taken in."""


@dataclass(frozen=True)
class Plan:
    """What taking in would do.

    Attributes
    ----------
    adds : dict of str to int
        New rows, by table.
    has : dict of str to int
        Rows that the record holds already, letter for letter.
    """

    adds: dict[str, int]
    has: dict[str, int]


def has_entries(studio: Studio) -> bool:
    """Say whether a studio holds anything yet."""
    return any(
        kept.model._base_manager.filter(studio=studio).exists() for kept in KEPT if kept.is_entry
    )


def _as_read(row: dict[str, Any]) -> dict[str, Any]:
    """Give a row as reading the folder would: an empty text is a blank cell."""
    return {name: None if value == "" else value for name, value in row.items()}


def _split(kept: Kept, folder: RecordFolder, studio: Studio) -> tuple[list[dict[str, Any]], int]:
    """Sort a table's rows into new ones and ones that are here already."""
    rows = folder.rows_by_table[kept.name]
    here = {row["id"]: row for row in rows_of(kept, studio)}
    fresh = []
    for row in rows:
        mine = here.get(row["id"])
        if mine is None:
            fresh.append(row)
        elif _as_read(mine) != row:
            raise TakingInRefused(
                f"{kept.name}.csv: the entry {row['id']} is here already and says something else; "
                "nothing was taken in.",
                field="id",
                seen=row["id"],
                accepted="an entry that is new, or the same as the one that is here",
            )
    return fresh, len(rows) - len(fresh)


def plan(path: Path, studio: Studio | None) -> Plan:
    """Say what taking in this folder would add, without adding it."""
    folder = read_record_folder(path, specs())
    if studio is None or not has_entries(studio):
        return Plan({name: len(rows) for name, rows in folder.rows_by_table.items()}, {})
    adds, has = {}, {}
    for kept in _tables_of_entries():
        fresh, same = _split(kept, folder, studio)
        adds[kept.name], has[kept.name] = len(fresh), same
    return Plan(adds, has)


def _tables_of_entries() -> list[Kept]:
    return [kept for kept in KEPT if kept.is_entry or kept.is_part]


def _instances(kept: Kept, rows: list[dict[str, Any]], studio: Studio) -> list[models.Model]:
    attributes = {f.name: f.attname for f in fields_of(kept.model)}
    blanks = {
        f.name
        for f in fields_of(kept.model)
        if isinstance(f, models.CharField | models.TextField) and not f.null
    }
    own = {"studio_id": studio.pk} if kept.is_entry or kept.model is Member else {}
    made = []
    for row in rows:
        values = {
            attributes[name]: "" if value is None and name in blanks else value
            for name, value in row.items()
        }
        made.append(kept.model(**values, **own))
    return made


def _adopt(folder: RecordFolder, empty: Studio | None) -> Studio:
    """Make the folder's studio this one; whoever owns this machine owns it."""
    (row,) = folder.rows_by_table["studio"]
    owner = None
    if empty is not None:
        owner = empty.members.filter(role=MemberRole.OWNER, person__isnull=False).first()
    person = owner.person if owner else None
    if empty is not None:
        empty.members.all().delete()
        empty.delete()
    studio = Studio(**row)
    studio.full_clean()
    studio.save(force_insert=True)
    members = next(kept for kept in KEPT if kept.model is Member)
    Member.objects.bulk_create(_instances(members, folder.rows_by_table["members"], studio))  # type: ignore[arg-type] # all are members
    if person is not None:
        first = studio.members.filter(role=MemberRole.OWNER).order_by("pk").first()
        if first is None:
            first = Member.objects.create(
                id="owner", studio=studio, name=person.username, role=MemberRole.OWNER
            )
        first.person = person
        first.save(update_fields=["person"])
    return studio


def _copy_originals(folder: RecordFolder) -> None:
    """Bring the files over first: a row never points at a file that is not there."""
    disk = Disk()
    for original in folder.originals:
        final = original_path(f"{original.sha256}.{original.ending}")
        if not final.exists():
            disk.write_whole(final, original.source.read_bytes())


def take_in(path: Path, studio: Studio | None) -> tuple[Studio, dict[str, int]]:
    """Take a record folder in.

    Parameters
    ----------
    path : Path
        The folder.
    studio : Studio or None
        Into which studio. Where there is none yet, or it is still empty, the
        folder's own studio takes its place.

    Returns
    -------
    Studio, dict of str to int
        The studio, and the rows added by table.

    Raises
    ------
    FolderRefused
        If the folder itself is not as it should be.
    TakingInRefused
        If it does not fit what the record holds.
    """
    folder = read_record_folder(path, specs())
    _copy_originals(folder)
    added = {}
    try:
        with transaction.atomic():
            if studio is None or not has_entries(studio):
                studio = _adopt(folder, studio)
            for kept in _tables_of_entries():
                fresh, _ = _split(kept, folder, studio)
                kept.model._base_manager.bulk_create(_instances(kept, fresh, studio))
                added[kept.name] = len(fresh)
    except IntegrityError as error:
        raise TakingInRefused(
            f"The record refuses this folder ({error}); nothing was taken in.",
            field="path",
            seen=str(path),
            accepted="a record folder whose entries fit each other",
        ) from error
    except ValidationError as error:
        raise TakingInRefused(
            f"studio.csv: {'; '.join(error.messages)} Nothing was taken in.",
            field="studio",
            seen=str(path),
            accepted="a studio's settings as hand-out writes them",
        ) from error
    return studio, added
