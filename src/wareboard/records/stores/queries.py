"""What the stores hold, as a member may see it."""

from collections.abc import Iterable, Sequence

from django.db.models import Case, OuterRef, QuerySet, Subquery, When
from django.db.models.functions import Lower

from wareboard.records.people.models import Member

from .models import Count, Lot, Material, MaterialKind, Sheet

NEWEST_FIRST = ("-at", "-kept_at", "-pk")
SHEETS_SHOWN = 12
COUNTS_SHOWN = 6
LOTS_OFFERED = 120


def materials_for(member: Member) -> QuerySet[Material]:
    """Give the studio's materials by name, capitals or not."""
    materials: QuerySet[Material] = (
        Material.objects.seen_by(member)
        .annotate(sort_name=Lower("name"))
        .order_by("sort_name", "pk")
    )
    return materials


def lots_for(member: Member) -> QuerySet[Lot]:
    """Give lots with what was left of each at its last count, newest first."""
    counts = Count.objects.current().filter(lot=OuterRef("pk")).order_by(*NEWEST_FIRST)
    lots: QuerySet[Lot] = (
        Lot.objects.seen_by(member)
        .select_related("material", "sheet")
        .annotate(
            left_g=Subquery(counts.values("left_g")[:1]), left_at=Subquery(counts.values("at")[:1])
        )
        .order_by(*NEWEST_FIRST)
    )
    return lots


def newest_lot(member: Member, material: Material) -> Lot | None:
    """Give the lot of a material that was opened last."""
    return lots_for(member).filter(material=material).first()


def lots_in_use(member: Member) -> QuerySet[Lot]:
    """Give the lot in use of each material: the newest of those that are not used up."""
    counts = Count.objects.current().filter(lot=OuterRef("pk")).order_by(*NEWEST_FIRST)
    alike = Lot.objects.standing().filter(material=OuterRef("material"))
    used_up = Case(When(left=0, then=1), default=0)
    newest = alike.annotate(left=Subquery(counts.values("left_g")[:1])).order_by(
        used_up, *NEWEST_FIRST
    )
    return lots_for(member).filter(pk=Subquery(newest.values("pk")[:1]))


def in_use_by_material(member: Member, materials: Iterable[Material]) -> dict[str, Lot]:
    """Give for each material the lot in use, by material; one query."""
    ids = [material.pk for material in materials]
    return {lot.material_id: lot for lot in lots_in_use(member).filter(material__in=ids)}


def powders_in_use(member: Member) -> Sequence[Lot]:
    """Give the lot in use of each powder, colourants first, each kind by name; one query."""
    kinds = [MaterialKind.COLOURANT, MaterialKind.GLAZE]
    lots = lots_in_use(member).filter(material__kind__in=kinds)
    return list(lots.order_by("material__kind", Lower("material__name"), "pk")[:LOTS_OFFERED])


def lots_by_material(member: Member, material_ids: Iterable[str]) -> dict[str, list[Lot]]:
    """Give the lots of some materials, that in use first, by material; one query."""
    found: dict[str, list[Lot]] = {}
    for lot in in_use_first(lots_for(member).filter(material__in=list(material_ids))):
        found.setdefault(lot.material_id, []).append(lot)
    return found


def in_use_first(lots: Iterable[Lot]) -> list[Lot]:
    """Put lots in order: the newest first, those that were counted as used up last."""
    newest = sorted(lots, key=lambda lot: (lot.at, lot.kept_at, lot.pk), reverse=True)
    return sorted(newest, key=is_used_up)


def is_used_up(lot: Lot) -> bool:
    """Tell whether nothing was left of a lot at its last count."""
    return lot.left_g == 0


def sheets_of(member: Member, material: Material) -> Sequence[Sheet]:
    """Give the newest sheets of a material with their oxides."""
    sheets = Sheet.objects.current().seen_by(member).filter(material=material)
    return list(sheets.prefetch_related("oxides").order_by(*NEWEST_FIRST)[:SHEETS_SHOWN])


def sheets_for(member: Member) -> QuerySet[Sheet]:
    """Give the studio's sheets, also those that were put right since."""
    sheets: QuerySet[Sheet] = Sheet.objects.seen_by(member).select_related("material")
    return sheets


def counts_of(member: Member, lot: Lot) -> Sequence[Count]:
    """Give the newest counts of a lot."""
    counts = Count.objects.current().filter(studio=member.studio_id, lot=lot)
    return list(counts.order_by(*NEWEST_FIRST)[:COUNTS_SHOWN])


def materials_by_name(member: Member) -> dict[str, Material]:
    """Give every material by each of its names, in small letters."""
    materials = list(materials_for(member))
    found: dict[str, Material] = {}
    for material in materials:
        for name in material.other_names.split(","):
            if name.strip():
                found.setdefault(folded(name), material)
    found.update({folded(material.name): material for material in materials})
    return found


def folded(name: str) -> str:
    """Give a name as it is looked up: small letters, single blanks."""
    return " ".join(name.casefold().split())
