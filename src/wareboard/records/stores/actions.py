"""What a potter does in the stores: each is kept whole or not at all."""

from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from wareboard.exchange.typed_sheet import TypedSheet
from wareboard.records.people.entry import EntryRefused, keep, new_id
from wareboard.records.people.models import Member
from wareboard.records.people.shown import day
from wareboard.records.people.standing_for import stands_now

from .models import Count, Lot, Material, Sheet, SheetOxide, SheetStanding


@transaction.atomic
def add_material(member: Member, *, name: str, entry_id: str = "", **facts: Any) -> Material:
    """Keep a new material.

    Raises
    ------
    EntryRefused
        If the studio has another one of this name: a recipe could not tell them apart.
    """
    alike = Material.objects.seen_by(member).filter(name__iexact=name).exclude(pk=entry_id)
    if alike.exists():
        say = _("%(name)s stands in the stores already: open its page, or add a word to the name.")
        raise EntryRefused(say % {"name": name})
    return keep(Material, member, entry_id=entry_id, name=name, **facts)


@transaction.atomic
def stand_in(material: Material, *, library_id: str) -> None:
    """Choose which row of the built-in table stands in for a material."""
    material.library_id = library_id
    material.save(update_fields=["library_id"])


@transaction.atomic
def enter_sheet(
    member: Member,
    material: Material,
    *,
    sheet: TypedSheet,
    lot: Lot | None = None,
    **facts: Any,
) -> Sheet:
    """Keep an analysis of a material; where a lot is named it becomes that lot's own.

    Raises
    ------
    EntryRefused
        If the lot has a sheet of its own: a second one would take its place unseen.
    """
    kept = keep(
        Sheet,
        member,
        owner="sheet",
        parts=tuple(
            SheetOxide(oxide=oxide, percent=percent) for oxide, percent in sheet.oxides.items()
        ),
        material=material,
        loss_percent=sheet.loi_percent,
        **facts,
    )
    if lot is not None:
        first = own_sheet(Lot.objects.select_related("sheet").get(pk=lot.pk))
        if first is not None and first.pk != kept.pk:
            raise EntryRefused(one_sheet_only(lot, first))
        lot.sheet = kept
        lot.save(update_fields=["sheet"])
    return kept


@transaction.atomic
def correct_sheet(
    member: Member, wrong: Sheet, *, sheet: TypedSheet | None, entry_id: str = "", **facts: Any
) -> Sheet:
    """Put a sheet right: the new one keeps its time, and stands for it wherever a bag names it.

    How far a share is to be doubted stays with a share that stays. Where the record already
    says the same, nothing is kept.
    """
    stands = stands_now(wrong)
    before = {one.oxide: one for one in stands.oxides.order_by("position")}
    oxides = dict(sheet.oxides) if sheet is not None else {}
    told = {**facts, "loss_percent": sheet.loi_percent if sheet else stands.loss_percent}
    same = {oxide: one.percent for oxide, one in before.items()} == oxides
    if same and all(getattr(stands, name) == value for name, value in told.items()):
        return stands
    parts = []
    for oxide, percent in oxides.items():
        was = before.get(oxide)
        doubt = was.doubt_percent if was is not None and was.percent == percent else None
        parts.append(SheetOxide(oxide=oxide, percent=percent, doubt_percent=doubt))
    return keep(
        Sheet,
        member,
        entry_id=entry_id,
        owner="sheet",
        parts=tuple(parts),
        corrects=stands,
        material=stands.material,
        at=stands.at,
        **told,
    )


def own_sheet(lot: Lot) -> Sheet | None:
    """Give the sheet that is a lot's own; None where it has none that stands."""
    return lot.sheet if lot.sheet is not None and lot.sheet.undone_at is None else None


def one_sheet_only(lot: Lot, first: Sheet) -> str:
    """Say why a lot takes no second sheet, and what to do."""
    stands = stands_now(first)
    say = _("%(lot)s has a sheet of its own (%(what)s, %(day)s): put that one right.")
    container = f"{lot.get_container_display()} {lot.label}"
    return say % {
        "lot": container[:1].upper() + container[1:],
        "what": stands.get_standing_display(),
        "day": day(stands.at),
    }


@transaction.atomic
def open_lot(
    member: Member,
    material: Material,
    *,
    entry_id: str = "",
    at: Any = None,
    sheet: TypedSheet | None = None,
    standing: str = "",
    source: str = "",
    density_g_cm3: float | None = None,
    **facts: Any,
) -> Lot:
    """Keep a new bag, sack or jar, and its own sheet where it came with one."""
    entry_id = entry_id or new_id()
    own = None
    if sheet is not None:
        own = enter_sheet(
            member,
            material,
            sheet=sheet,
            entry_id=f"{entry_id}-s",
            at=at,
            together=entry_id,
            standing=standing or SheetStanding.SUPPLIER,
            source=source,
            density_g_cm3=density_g_cm3,
        )
    together = entry_id if own is not None else ""
    return keep(
        Lot,
        member,
        entry_id=entry_id,
        at=at,
        material=material,
        sheet=own,
        together=together,
        **facts,
    )


@transaction.atomic
def count_left(member: Member, lot: Lot, **facts: Any) -> Count:
    """Keep how much of a lot is left."""
    return keep(Count, member, lot=lot, **facts)
