"""Pots before lighting: rows of the ware room, turned into the core's question and answer.

For a whole load everything is read in a fixed number of queries.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.db.models import (
    Case,
    F,
    When,
)
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from wareboard.core.answer import Answer
from wareboard.core.doubt import NORMAL_90
from wareboard.core.drying import (
    PROVED,
    SLOW_START,
    SLOW_START_C,
    BeforeLighting,
    DryWeight,
    Sign,
    before_lighting,
    dry_from_form,
)
from wareboard.core.errors import CoreError
from wareboard.records.people.models import Member
from wareboard.records.people.shown import Shown

from .books import coats_on, work_out_all
from .bridge import WorkedCoat
from .dry_known import (
    called_dry,
    damp_said,
    dry_of_forms,
    only_called_dry,
    own_dry,
    usual_dry_g,
)
from .models import Air, Coat, Pot, Weighing
from .proved import PAN_COUNT, proof_of
from .room_air import air_at, airs_until, core_air
from .words import ON_A_PAN, RAW, WeighingState

ON_YOUR_WORD = gettext_lazy(
    "A go here rests on one weighing: that the pot was bone dry, warm from the tray, is your word."
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


def weighings_until(pots: Sequence[Pot], when: datetime) -> dict[str, list[Weighing]]:
    """Give the raw weighings of some pots up to an instant, oldest first; one query."""
    found: dict[str, list[Weighing]] = defaultdict(list)
    rows = Weighing.objects.current().filter(
        pot__in=[pot.pk for pot in pots], state__in=RAW, at__lte=when
    )
    for row in rows.order_by("at", "kept_at"):
        found[row.pot_id].append(row)
    return found


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
    both = own.values("pk").union(dry_of_forms(member, ids, when).values("pk"))
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


def coat_on(worked: Sequence[WorkedCoat]) -> tuple[float, float]:
    """Add up the dry glaze on a pot, with its standard deviation [g]."""
    answers = [one.answer for one in worked if one.answer is not None]
    total = sum(answer.result.coat_g for answer in answers)
    spreads = [answer.doubt["coat_g"] for answer in answers]
    variance = sum(((s.high - s.low) / 2 / NORMAL_90) ** 2 for s in spreads)
    return total, variance**0.5


def _with_reasons(
    answer: Answer[BeforeLighting], damp: Sequence[tuple[Weighing, Weighing]]
) -> Answer[BeforeLighting]:
    """Add which weighing was called dry and does not count."""
    said = tuple(damp_said(row, leather_hard) for row, leather_hard in damp[-1:])
    reasons = (*answer.result.reasons, *said)
    return replace(answer, result=replace(answer.result, reasons=reasons))


def cautions_said(answer: Answer[BeforeLighting], shown: Shown) -> list[str]:
    """Give the cautions of an answer, the slow start in the unit of the studio."""
    own = _("Keep the slow start below %s.") % shown.temperature(SLOW_START_C)
    return [own if say == SLOW_START else say for say in answer.cautions]


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
    of_forms = usual_dry_g(pots, weighings, coats, of_others)
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
        called = only_called_dry(rows, coats.get(pot.pk, ()))
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
                held_against_itself=called == WeighingState.SHELF_DRY,
            )
        except CoreError as refused:
            lit.append(replace(last, refused=str(refused)))
            continue
        if last_dip is not None and not since:
            lit.append(replace(last, refused="it was dipped since it was last weighed"))
            continue
        answer = _with_reasons(answer, called_dry(rows))
        if called and answer.result.sign is Sign.GO and PROVED not in answer.result.reasons:
            answer = replace(answer, cautions=(*answer.cautions, str(ON_YOUR_WORD)))
        lit.append(replace(last, answer=answer, dry=dry, coat_g=coat_g))
    return lit, today, coats
