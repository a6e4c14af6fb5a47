"""Pots before lighting: rows of the ware room, turned into the core's question and answer.

For a whole load everything is read in a fixed number of queries.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from django.db.models import (
    Case,
    Exists,
    F,
    OuterRef,
    QuerySet,
    When,
    Window,
)
from django.db.models.functions import RowNumber

from wareboard.core.answer import Answer
from wareboard.core.drying import (
    AIR_NOT_KNOWN,
    BeforeLighting,
    DryWeight,
    air_by_hygrometer,
    air_by_word,
    before_lighting,
    dry_from_form,
    dry_from_shelf,
    dry_from_tray,
)
from wareboard.core.drying import Air as CoreAir
from wareboard.core.errors import CoreError
from wareboard.records.people.models import Member

from .books import coats_on, work_out_all
from .bridge import WorkedCoat
from .models import Air, Coat, Pot, Weighing
from .proved import PAN_COUNT, proof_of
from .words import ON_A_PAN, WeighingState

AIR_LASTS = timedelta(hours=24)
"""How long one tap on the air counts (common practice)."""

NORMAL_90 = 1.645
NEWEST_OF_FORM = 12
LOOKED_THROUGH = 48
"""Bone-dry weighings of a form among which those of unglazed pots are looked for, the newest."""

DRY = (WeighingState.SHELF_DRY, WeighingState.BONE_DRY)

RAW = (
    WeighingState.PLASTIC,
    WeighingState.LEATHER_HARD,
    WeighingState.SHELF_DRY,
    WeighingState.BONE_DRY,
    WeighingState.GLAZED,
    WeighingState.BEFORE_PROOF,
    WeighingState.AFTER_PROOF,
)


@dataclass(frozen=True)
class Lit:
    """One pot of a load before lighting.

    Attributes
    ----------
    pot : Pot
        The pot.
    answer : Answer of BeforeLighting or None
        Go, wait, stop or cannot tell; None where it was never weighed.
    weighed_at : datetime or None
        When its last weight was taken.
    weighed_as : str
        In what state it was then, in words; empty where it was never weighed.
    refused : str
        Why its weighings do not fit each other, where they do not.
    dry : DryWeight or None
        Its dry clay, own or estimated; None where nothing is known of it.
    coat_g : float
        Dry glaze on it, as counted [g].
    """

    pot: Pot
    answer: Answer[BeforeLighting] | None
    weighed_at: datetime | None
    refused: str = ""
    dry: DryWeight | None = None
    coat_g: float = 0.0
    weighed_as: str = ""


def core_air(air: Air) -> CoreAir:
    """Turn the day's air into what the core knows of it."""
    if air.rh_percent is None:
        return air_by_word(air.word)
    try:
        return air_by_hygrometer(air.rh_percent)
    except CoreError:
        # An instrument that shows what no room has is not believed; the word is.
        return air_by_word(air.word)


def airs_until(member: Member, when: datetime, *, since: datetime | None = None) -> list[Air]:
    """Give what was said of the air, newest first; all of it, or what counted since a time."""
    airs = Air.objects.seen_by(member).filter(at__lte=when)
    if since is not None:
        airs = airs.filter(at__gte=since - AIR_LASTS)
    return list(airs.order_by("-at")[:400])


def air_at(airs: Sequence[Air], when: datetime) -> Air | None:
    """Give the air that was said within the day before an instant."""
    return next((a for a in airs if a.at <= when and when - a.at <= AIR_LASTS), None)


def weighings_until(pots: Sequence[Pot], when: datetime) -> dict[str, list[Weighing]]:
    """Give the raw weighings of some pots up to an instant, oldest first; one query."""
    found: dict[str, list[Weighing]] = defaultdict(list)
    rows = Weighing.objects.current().filter(
        pot__in=[pot.pk for pot in pots], state__in=RAW, at__lte=when
    )
    for row in rows.order_by("at", "kept_at"):
        found[row.pot_id].append(row)
    return found


def _unglazed(weighings: QuerySet[Weighing]) -> QuerySet[Weighing]:
    """Leave those weighings out that were taken with a coat on the pot."""
    coats = Coat.objects.current().filter(pot=OuterRef("pot"), at__lte=OuterRef("at"))
    return weighings.filter(~Exists(coats))


def _dry_of_forms(member: Member, pot_ids: Sequence[str], when: datetime) -> QuerySet[Weighing]:
    """Give the newest bone-dry weighings of the forms of pots that have none of their own."""
    of_pot = Weighing.objects.current().filter(pot=OuterRef("pk"), at__lte=when)
    forms = Pot.objects.filter(
        Exists(of_pot.filter(state__in=RAW)),
        ~Exists(_unglazed(of_pot.filter(state__in=DRY))),
        pk__in=pot_ids,
    ).values("form")
    weighed = Weighing.objects.standing().filter(
        studio=member.studio_id, state=WeighingState.BONE_DRY, pot__form__in=forms, at__lte=when
    )
    number = Window(RowNumber(), partition_by="pot__form", order_by="-at")
    newest = weighed.annotate(number=number).filter(number__lte=LOOKED_THROUGH).values("pk")
    return _unglazed(Weighing.objects.filter(pk__in=newest))


def _weighed(
    member: Member, pots: Sequence[Pot], when: datetime
) -> tuple[dict[str, list[Weighing]], dict[str, list[Weighing]], dict[str, list[Weighing]]]:
    """Give weighings up to an instant, oldest first; one query.

    Returns
    -------
    dict of str to list of Weighing, thrice
        By pot its raw weighings; by pot those with others on a pan, which carry
        ``on_pan``, how many they were; and by form, where a pot has no dry
        weight of its own, the bone-dry weighings of other pots of that form.
    """
    ids = [pot.pk for pot in pots]
    here = set(ids)
    by_pot: dict[str, list[Weighing]] = defaultdict(list)
    on_pans: dict[str, list[Weighing]] = defaultdict(list)
    by_form: dict[str, list[Weighing]] = defaultdict(list)
    own = Weighing.objects.standing().filter(pot__in=ids, state__in=(*RAW, *ON_A_PAN), at__lte=when)
    both = own.values("pk").union(_dry_of_forms(member, ids, when).values("pk"))
    rows = (
        Weighing.objects.current()
        .filter(pk__in=both)
        .annotate(form_id=F("pot__form"), on_pan=Case(When(state__in=ON_A_PAN, then=PAN_COUNT)))
    )
    for row in rows.order_by("at", "kept_at"):
        if row.state in ON_A_PAN:
            on_pans[row.pot_id].append(row)
        elif row.pot_id in here:
            by_pot[row.pot_id].append(row)
        else:
            by_form[row.form_id].append(row)
    return by_pot, on_pans, by_form


def _usual_dry_g(
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
        first_dip = min((coat.at for coat in coats.get(pot.pk, ())), default=None)
        found.setdefault(pot.form_id, []).extend(
            row
            for row in weighings.get(pot.pk, ())
            if row.state == WeighingState.BONE_DRY and (first_dip is None or row.at < first_dip)
        )
    return {
        form_id: [row.weight_g for row in sorted(rows, key=lambda r: r.at)[-NEWEST_OF_FORM:]]
        for form_id, rows in found.items()
    }


def own_dry(
    weighings: Sequence[Weighing], coats: Sequence[Coat], airs: Sequence[Air], step_g: float
) -> DryWeight | None:
    """Give a pot's own dry weight from its bone-dry weighings, if there are any.

    A weighing after the first coat has glaze in it and tells nothing of the
    clay alone. Of several the one that leaves least clay counts: a pot can
    never weigh less than its clay, so a heavier one was not yet dry.
    """
    first_dip = min((coat.at for coat in coats), default=None)
    found = []
    for row in weighings:
        if first_dip is not None and row.at >= first_dip:
            continue
        if row.state == WeighingState.BONE_DRY:
            found.append(dry_from_tray(row.weight_g, scale_step_g=step_g).result)
        elif row.state == WeighingState.SHELF_DRY:
            said = air_at(airs, row.at)
            then = core_air(said) if said else AIR_NOT_KNOWN
            found.append(dry_from_shelf(row.weight_g, then, scale_step_g=step_g).result)
    return min(found, key=lambda dry: dry.dry_clay_g, default=None)


def coat_on(worked: Sequence[WorkedCoat]) -> tuple[float, float]:
    """Add up the dry glaze on a pot, with its standard deviation [g]."""
    answers = [one.answer for one in worked if one.answer is not None]
    total = sum(answer.result.coat_g for answer in answers)
    spreads = [answer.doubt["coat_g"] for answer in answers]
    variance = sum(((s.high - s.low) / 2 / NORMAL_90) ** 2 for s in spreads)
    return total, variance**0.5


def judge_pots(
    member: Member, pots: Sequence[Pot], when: datetime
) -> tuple[list[Lit], Air | None, Mapping[str, Sequence[Coat]]]:
    """Say of each pot whether it may be lit at a moment.

    Parameters
    ----------
    member : Member
        Whose record and scale.
    pots : sequence of Pot
        The load, forms at hand.
    when : datetime
        At which moment; weighings and air after it are not looked at.

    Returns
    -------
    list of Lit, Air or None, mapping of str to sequence of Coat
        The pots in the order given, the air that was counted, and the coats
        by pot, for drawing them.
    """
    step_g = member.studio.scale_step_g
    weighings, on_pans, of_others = _weighed(member, pots, when)
    on_shelf = [
        row.at
        for rows in weighings.values()
        for row in rows
        if row.state == WeighingState.SHELF_DRY
    ]
    airs = airs_until(member, when, since=min(on_shelf, default=when))
    today = air_at(airs, when)
    coats = {
        pot_id: [coat for coat in found if coat.at <= when]
        for pot_id, found in coats_on(member, pots).items()
    }
    worked = work_out_all(member, coats, with_area=False)
    own = {pot.pk: own_dry(weighings[pot.pk], coats.get(pot.pk, ()), airs, step_g) for pot in pots}
    of_forms = _usual_dry_g(pots, weighings, coats, of_others)
    lit = []
    for pot in pots:
        rows = weighings[pot.pk]
        if not rows:
            lit.append(Lit(pot, None, None))
            continue
        last = Lit(pot, None, rows[-1].at, weighed_as=str(rows[-1].get_state_display()))
        if rows[-1].state == WeighingState.PLASTIC:
            lit.append(replace(last, refused="it was freshly thrown when last weighed"))
            continue
        dips = [c.at for c in coats.get(pot.pk, ())]
        last_dip = max(dips, default=None)
        dry = own[pot.pk]
        usual = of_forms.get(pot.form_id or "")
        if dry is None and usual:
            dry = dry_from_form(usual).result
        coat_g, coat_sd_g = coat_on(worked.get(pot.pk, ()))
        since = [r for r in rows if last_dip is None or r.at > last_dip]
        falling = len(since) > 1 and since[-2].weight_g - since[-1].weight_g > step_g
        try:
            answer = before_lighting(
                rows[-1].weight_g,
                dry,
                air=core_air(today) if today else None,
                coat_g=coat_g if since else 0.0,
                coat_sd_g=coat_sd_g if since else 0.0,
                scale_step_g=step_g,
                proof=proof_of(rows, on_pans[pot.pk], last_dip, step_g),
                still_falling=falling,
            )
        except CoreError as refused:
            lit.append(replace(last, refused=str(refused)))
        else:
            if last_dip is not None and not since:
                lit.append(replace(last, refused="it was dipped since it was last weighed"))
            else:
                lit.append(replace(last, answer=answer, dry=dry, coat_g=coat_g))
    return lit, today, coats
