"""Take a record folder into the record: all of it, or nothing.

First the folder is read, then everything in it is held against the rules and
against what is here; only a folder that fits is stored.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.db import IntegrityError, models, transaction

from wareboard.exchange.record_folder import Findings, FolderRefused, RecordFolder
from wareboard.exchange.record_folder import read_record_folder as read
from wareboard.records.people.entry import new_id
from wareboard.records.people.models import Member, MemberRole, Studio
from wareboard.records.pictures.disk import Disk
from wareboard.records.pictures.storage import original_path

from .fitting import Coming, check
from .hand_out import rows_of
from .refusals import KeepingError
from .tables import KEPT, Kept, fields_of, specs

OWNER = "owner"


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
    coming : Coming
        The folder as it was read and found to fit.
    """

    adds: dict[str, int]
    has: dict[str, int]
    coming: Coming


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
            number = folder.numbers_by_table[kept.name][row["id"]]
            raise TakingInRefused(
                f"{kept.name}.csv, row {number}: the entry {row['id']} is here already and says "
                "something else; nothing was taken in.",
                field="id",
                seen=row["id"],
                accepted="an entry that is new, or the same as the one that is here",
            )
    return fresh, len(rows) - len(fresh)


def plan(path: Path, studio: Studio | None) -> Plan:
    """Read a folder and say what taking it in would add, without adding it.

    Parameters
    ----------
    path : Path
        The folder.
    studio : Studio or None
        Into which studio. Where there is none yet, or it is still empty, the
        folder's own studio takes its place.

    Raises
    ------
    FolderRefused
        If the folder is not as it should be, or does not fit this record.
    TakingInRefused
        If an entry of it is here and says something else.
    """
    folder = read(path, specs())
    if studio is None or not has_entries(studio):
        _refuse_several_studios(folder)
        rows = {kept: folder.rows_by_table[kept.name] for kept in KEPT}
        coming = Coming(folder, rows, studio=None, leaving=studio)
        has = {}
    else:
        split = {kept: _split(kept, folder, studio) for kept in _tables_of_entries()}
        coming = Coming(folder, {kept: new for kept, (new, _) in split.items()}, studio)
        has = {kept.name: same for kept, (_, same) in split.items()}
    check(coming)
    return Plan({kept.name: len(new) for kept, new in coming.fresh.items()}, has, coming)


def _refuse_several_studios(folder: RecordFolder) -> None:
    """Refuse a folder of no studio, or of more than one."""
    found = len(folder.rows_by_table["studio"])
    if found != 1:
        findings = Findings(2)
        findings.add("studio.csv", f"has {found} rows", accepted="one studio has one row")
        raise FolderRefused(findings.problems)


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
    studio = Studio(**{name: "" if value is None else value for name, value in row.items()})
    studio.save(force_insert=True)
    members = next(kept for kept in KEPT if kept.model is Member)
    Member.objects.bulk_create(_instances(members, folder.rows_by_table["members"], studio))  # type: ignore[arg-type] # all are members
    if person is not None:
        first = studio.members.filter(role=MemberRole.OWNER).order_by("pk").first()
        if first is None:
            free = not Member.objects.filter(pk=OWNER).exists()
            first = Member.objects.create(
                id=OWNER if free else new_id(),
                studio=studio,
                name=person.username,
                role=MemberRole.OWNER,
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


def put_in(found: Plan) -> Studio:
    """Store what a plan found to be new; give the studio that has it now.

    Raises
    ------
    TakingInRefused
        If the database holds something against it that nobody thought of.
    """
    coming = found.coming
    _copy_originals(coming.folder)
    try:
        with transaction.atomic():
            studio = coming.studio or _adopt(coming.folder, coming.leaving)
            for kept in _tables_of_entries():
                rows = coming.fresh[kept]
                kept.model._base_manager.bulk_create(_instances(kept, rows, studio))
    except IntegrityError as error:
        raise TakingInRefused(
            "Entries of this folder do not fit each other or this record; nothing was taken in.",
            field="path",
            seen=coming.folder.studio_title,
            accepted="a record folder whose entries fit each other",
        ) from error
    return studio


def take_in(path: Path, studio: Studio | None) -> tuple[Studio, dict[str, int]]:
    """Take a record folder in, as :func:`plan` found it.

    Returns
    -------
    Studio, dict of str to int
        The studio, and the rows added by table.
    """
    found = plan(path, studio)
    return put_in(found), found.adds
