"""What a pot weighs dry, as far as its own weighings and those of its form tell."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta

from django.db.models import Exists, OuterRef, QuerySet, Window
from django.db.models.functions import RowNumber
from django.utils.translation import gettext as _

from wareboard.core.drying import (
    AIR_NOT_KNOWN,
    LEAST_LEATHER_HARD,
    DryWeight,
    dry_from_shelf,
    dry_from_tray,
    was_damp,
)
from wareboard.records.people.models import Member

from .models import Air, Coat, Pot, Weighing
from .room_air import air_at, core_air
from .words import RAW, WeighingState

NEWEST_OF_FORM = 12
LOOKED_THROUGH = 48
"""Bone-dry weighings of a form among which those of unglazed pots are looked for, the newest."""

ONE_WEIGHING = timedelta(hours=1)

DRY = (WeighingState.SHELF_DRY, WeighingState.BONE_DRY)


def called_dry(weighings: Sequence[Weighing]) -> list[tuple[Weighing, Weighing]]:
    """Give the weighings that cannot have been dry, each with the leather-hard one before it."""
    damp = [row for row in weighings if row.state == WeighingState.LEATHER_HARD]
    found = []
    for row in weighings:
        before = [one for one in damp if one.at <= row.at and was_damp(row.weight_g, one.weight_g)]
        if row.state in DRY and before:
            found.append((row, max(before, key=lambda one: one.at)))
    return found


def damp_said(row: Weighing, leather_hard: Weighing) -> str:
    """Say why a weighing that was called dry does not count."""
    say = _(
        "%(dry)s g was called dry, but leather-hard it weighed %(damp)s g, and leather-hard clay"
        " holds about 15 %% water: it was not dry, so that weight does not count."
    )
    return say % {"dry": f"{row.weight_g:g}", "damp": f"{leather_hard.weight_g:g}"}


def _damp() -> Exists:
    """Tell in the record what :func:`called_dry` tells of a weighing."""
    return Exists(
        Weighing.objects.current().filter(
            pot=OuterRef("pot"),
            state=WeighingState.LEATHER_HARD,
            at__lte=OuterRef("at"),
            weight_g__lt=OuterRef("weight_g") * (1.0 + LEAST_LEATHER_HARD),
        )
    )


def _unglazed(weighings: QuerySet[Weighing]) -> QuerySet[Weighing]:
    """Leave those weighings out that were taken with a coat on the pot."""
    coats = Coat.objects.current().filter(pot=OuterRef("pot"), at__lte=OuterRef("at"))
    return weighings.filter(~Exists(coats))


def dry_of_forms(member: Member, pot_ids: Sequence[str], when: datetime) -> QuerySet[Weighing]:
    """Give the newest bone-dry weighings of the forms of pots that have none of their own."""
    of_pot = Weighing.objects.current().filter(pot=OuterRef("pk"), at__lte=when)
    forms = Pot.objects.filter(
        Exists(of_pot.filter(state__in=RAW)),
        ~Exists(_unglazed(of_pot.filter(~_damp(), state__in=DRY))),
        pk__in=pot_ids,
    ).values("form")
    weighed = Weighing.objects.standing().filter(
        studio=member.studio_id, state=WeighingState.BONE_DRY, pot__form__in=forms, at__lte=when
    )
    number = Window(RowNumber(), partition_by="pot__form", order_by="-at")
    newest = weighed.annotate(number=number).filter(number__lte=LOOKED_THROUGH).values("pk")
    return _unglazed(Weighing.objects.filter(~_damp(), pk__in=newest))


def dry_pots_of_form_g(pot: Pot) -> list[float]:
    """Give the newest bone-dry weights of other pots of a pot's form [g]; one query."""
    if pot.form_id is None:
        return []
    weighed = Weighing.objects.current().filter(
        ~_damp(), studio=pot.studio_id, state=WeighingState.BONE_DRY, pot__form=pot.form_id
    )
    newest = _unglazed(weighed).exclude(pot=pot.pk).order_by("-at")
    return list(newest.values_list("weight_g", flat=True)[:NEWEST_OF_FORM])


def usual_dry_g(
    pots: Sequence[Pot],
    weighings: Mapping[str, Sequence[Weighing]],
    coats: Mapping[str, Sequence[Coat]],
    of_others: Mapping[str, Sequence[Weighing]],
) -> dict[str, list[float]]:
    """Give by form the newest bone-dry weights of its unglazed pots, those of the load too [g]."""
    found = {form_id: list(rows) for form_id, rows in of_others.items()}
    for pot in pots:
        if not pot.form_id:
            continue
        damp = {row.pk for row, _leather_hard in called_dry(weighings.get(pot.pk, ()))}
        first_dip = min((coat.at for coat in coats.get(pot.pk, ())), default=None)
        found.setdefault(pot.form_id, []).extend(
            row
            for row in weighings.get(pot.pk, ())
            if row.state == WeighingState.BONE_DRY
            and row.pk not in damp
            and (first_dip is None or row.at < first_dip)
        )
    return {
        form_id: [row.weight_g for row in sorted(rows, key=lambda r: r.at)[-NEWEST_OF_FORM:]]
        for form_id, rows in found.items()
    }


def only_called_dry(weighings: Sequence[Weighing], coats: Sequence[Coat]) -> str:
    """Give how a pot was called dry, where its last weighing alone says so; else empty.

    Weighings of one hour are one: they say the same word of the same pot.
    """
    first_dip = min((coat.at for coat in coats), default=None)
    damp = {row.pk for row, _leather_hard in called_dry(weighings)}
    dry = [
        row
        for row in weighings
        if row.state in DRY and row.pk not in damp and (first_dip is None or row.at < first_dip)
    ]
    last = weighings[-1]
    if last not in dry or any(last.at - row.at >= ONE_WEIGHING for row in dry):
        return ""
    return str(last.state)


def own_dry(
    weighings: Sequence[Weighing], coats: Sequence[Coat], airs: Sequence[Air], step_g: float
) -> DryWeight | None:
    """Give a pot's own dry weight from its bone-dry weighings, if there are any.

    A weighing after the first coat has glaze in it and tells nothing of the
    clay alone; nor does one that cannot have been dry, by what the pot weighed
    leather-hard. Of several the one that leaves least clay counts: a pot can
    never weigh less than its clay, so a heavier one was not yet dry.
    """
    first_dip = min((coat.at for coat in coats), default=None)
    damp = {row.pk for row, _leather_hard in called_dry(weighings)}
    found = []
    for row in weighings:
        if row.pk in damp or (first_dip is not None and row.at >= first_dip):
            continue
        if row.state == WeighingState.BONE_DRY:
            found.append(dry_from_tray(row.weight_g, scale_step_g=step_g).result)
        elif row.state == WeighingState.SHELF_DRY:
            said = air_at(airs, row.at)
            then = core_air(said) if said else AIR_NOT_KNOWN
            found.append(dry_from_shelf(row.weight_g, then, scale_step_g=step_g).result)
    return min(found, key=lambda dry: dry.dry_clay_g, default=None)
