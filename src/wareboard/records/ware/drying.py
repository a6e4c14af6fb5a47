"""Pots before lighting: rows of the ware room, turned into the core's question and answer.

For a whole load everything is read in a fixed number of queries.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Exists, OuterRef

from wareboard.core.answer import Answer
from wareboard.core.drying import (
    AIR_NOT_KNOWN,
    BeforeLighting,
    DryWeight,
    Proof,
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

from .books import coats_of, work_out_all
from .bridge import WorkedCoat
from .models import Air, Coat, Pot, Weighing
from .words import WeighingState

AIR_LASTS = timedelta(hours=24)
"""How long one tap on the air counts (common practice)."""

NORMAL_90 = 1.645
NEWEST_OF_FORM = 12

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


def core_air(air: Air) -> CoreAir:
    """Turn the day's air into what the core knows of it."""
    if air.rh_percent is None:
        return air_by_word(air.word)
    try:
        return air_by_hygrometer(air.rh_percent)
    except CoreError:
        # An instrument that shows what no room has is not believed; the word is.
        return air_by_word(air.word)


def airs_until(member: Member, when: datetime) -> list[Air]:
    """Give what was said of the air, newest first."""
    return list(Air.objects.seen_by(member).filter(at__lte=when).order_by("-at")[:400])


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


def _dry_weights_of_forms(member: Member, forms: set[str]) -> dict[str, list[float]]:
    """Give the newest bone-dry weights of unglazed pots of some forms; one query."""
    found: dict[str, list[float]] = defaultdict(list)
    if not forms:
        return found
    rows = (
        Weighing.objects.current()
        .filter(studio=member.studio_id, state=WeighingState.BONE_DRY, pot__form__in=forms)
        .filter(~Exists(Coat.objects.current().filter(pot=OuterRef("pot"), at__lte=OuterRef("at"))))
        .order_by("-at")
        .values_list("pot__form_id", "weight_g")[: NEWEST_OF_FORM * max(len(forms), 1) * 4]
    )
    for form_id, weight_g in rows:
        if len(found[form_id]) < NEWEST_OF_FORM:
            found[form_id].append(weight_g)
    return found


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


def _proof(weighings: Sequence[Weighing], last_dip: datetime | None, step_g: float) -> Proof | None:
    """Give the last proof weighing since the last dip."""
    before = after = None
    for row in weighings:
        if last_dip is not None and row.at <= last_dip:
            continue
        if row.state == WeighingState.BEFORE_PROOF:
            before, after = row, None
        elif row.state == WeighingState.AFTER_PROOF and before is not None:
            after = row
    if before is None or after is None:
        return None
    hours = (after.at - before.at).total_seconds() / 3600
    return Proof(before.weight_g, after.weight_g, hours=hours, scale_step_g=step_g)


def judge_pots(
    member: Member, pots: Sequence[Pot], when: datetime, *, roughly: bool = False
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
    roughly : bool
        For a glance: a pot without a dry weight of its own is not held against
        its form's, and every powder is taken to have the usual density.

    Returns
    -------
    list of Lit, Air or None, mapping of str to sequence of Coat
        The pots in the order given, the air that was counted, and the coats
        by pot, for drawing them.
    """
    step_g = member.studio.scale_step_g
    airs = airs_until(member, when)
    today = air_at(airs, when)
    weighings = weighings_until(pots, when)
    coats = {
        pot_id: [coat for coat in found if coat.at <= when]
        for pot_id, found in coats_of(member, [pot.pk for pot in pots]).items()
    }
    worked = work_out_all(member, coats, with_area=False, with_batches=not roughly)
    own = {pot.pk: own_dry(weighings[pot.pk], coats.get(pot.pk, ()), airs, step_g) for pot in pots}
    unknown = {str(p.form_id) for p in pots if p.form_id and own[p.pk] is None and weighings[p.pk]}
    of_forms = _dry_weights_of_forms(member, set() if roughly else unknown)
    lit = []
    for pot in pots:
        rows = weighings[pot.pk]
        if not rows:
            lit.append(Lit(pot, None, None))
            continue
        if rows[-1].state == WeighingState.PLASTIC:
            lit.append(Lit(pot, None, rows[-1].at, "it was freshly thrown when last weighed"))
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
                proof=_proof(rows, last_dip, step_g),
                still_falling=falling,
            )
        except CoreError as refused:
            lit.append(Lit(pot, None, rows[-1].at, str(refused)))
        else:
            if last_dip is not None and not since:
                lit.append(Lit(pot, None, rows[-1].at, "it was dipped since it was last weighed"))
            else:
                lit.append(Lit(pot, answer, rows[-1].at, dry=dry, coat_g=coat_g))
    return lit, today, coats
