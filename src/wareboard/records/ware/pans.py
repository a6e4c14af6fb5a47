"""Small pots weighed together for a proof: what a scale is too coarse for alone."""

from collections.abc import Iterable, Sequence

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext as _

from wareboard.records.people.entry import EntryRefused, keep, new_id, nth
from wareboard.records.people.models import Member

from . import queries
from .drawn import names_of
from .models import Pot, Weighing
from .proved import FEWEST_ON_PAN
from .words import ON_A_PAN, WeighingState

MOST = 60


def pots_named(member: Member, pot_ids: Sequence[str]) -> QuerySet[Pot]:
    """Give the pots that a page asked for, in the order they were made."""
    return queries.pots_for(member).filter(pk__in=pot_ids[:MOST]).order_by("at", "pk")


def last_on_pan(pots: Iterable[Pot]) -> list[Weighing]:
    """Give of each pot its last weighing with others, the newest last; one query."""
    rows = Weighing.objects.current().filter(pot__in=[pot.pk for pot in pots], state__in=ON_A_PAN)
    last = {row.pot_id: row for row in rows.order_by("at", "kept_at")}
    return sorted(last.values(), key=lambda row: (row.at, row.kept_at))


def waits_for_second(last: Sequence[Weighing]) -> list[Weighing]:
    """Give the newest of them that were before the warm hours and have none after them yet."""
    waiting = [row for row in last if row.state == WeighingState.PAN_BEFORE]
    return [row for row in waiting if row.at == waiting[-1].at]


@transaction.atomic
def weigh_together(
    member: Member,
    pots: Sequence[Pot],
    *,
    weight_g: float,
    state: str,
    entry_id: str = "",
    remembered: str = "",
) -> list[Weighing]:
    """Keep what several pots weigh together, before or after the warm hours.

    Raises
    ------
    EntryRefused
        If it is one pot, if they are not of one form, or if after the hours other pots
        stand there than before.
    """
    if len(pots) < FEWEST_ON_PAN:
        raise EntryRefused(_("One pot alone is weighed on its own page; together are two or more."))
    if len({pot.form_id for pot in pots}) > 1:
        raise EntryRefused(
            _("Together only pots of one form: a wet pot hides among dry ones of another kind.")
        )
    if state == WeighingState.PAN_AFTER:
        _same_as_before(pots, entry_id)
    tap, now = entry_id or new_id(), timezone.now()
    return [
        keep(
            Weighing,
            member,
            entry_id=nth(tap, number),
            together=tap,
            at=now,
            pot=pot,
            weight_g=weight_g,
            state=state,
            remembered=remembered,
        )
        for number, pot in enumerate(pots, start=1)
    ]


def _same_as_before(pots: Sequence[Pot], entry_id: str) -> None:
    """Refuse a second weighing of other pots than the first; one that is sent again is none."""
    if entry_id and Weighing.objects.filter(together=entry_id).exists():
        return
    waiting = waits_for_second(last_on_pan(pots))
    taps = {row.together for row in waiting}
    first = list(
        Weighing.objects.current().filter(together__in=taps - {""}).select_related("pot__form")
    )
    if not first:
        raise EntryRefused(_("They were not weighed together before the two hours: do that first."))
    if {row.pot_id for row in first} != {pot.pk for pot in pots}:
        names = ", ".join(names_of([row.pot for row in first]).values())
        raise EntryRefused(_("Before the two hours these stood on the scale: %s.") % names)
