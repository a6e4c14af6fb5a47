"""What a potter does at the shelf: judge, and answer a hope."""

from collections.abc import Sequence
from typing import Any

from django.db import transaction
from django.utils import timezone

from wareboard.records.people.entry import id_under, keep, new_id
from wareboard.records.people.models import Member
from wareboard.records.ware.models import Hope, Pot

from .models import Fault, HopeAnswer, Verdict
from .queries import lit_before
from .words import Surface, Thumb


@transaction.atomic
def judge(
    member: Member,
    pot: Pot,
    *,
    faults: Sequence[str] = (),
    where: str = "",
    amount_mm: float | None = None,
    **facts: Any,
) -> Verdict:
    """Keep how one surface came out, with its faults.

    A later verdict on the same surface corrects the one in force; after another firing it is a
    verdict of that one, and what was said of the earlier firing stays.
    """
    before = (
        Verdict.objects.current()
        .filter(
            pot=pot,
            surface=facts["surface"],
            at__gte=lit_before(pot, facts.get("at") or timezone.now()),
        )
        .exclude(pk=facts.get("entry_id", ""))
        .order_by("-at")
        .first()
    )
    parts = tuple(Fault(word=word, where=where, amount_mm=amount_mm) for word in faults)
    entry_id = str(facts.pop("entry_id", ""))
    return keep(
        Verdict,
        member,
        entry_id=entry_id,
        owner="verdict",
        parts=parts,
        pot=pot,
        corrects=before,
        **facts,
    )


@transaction.atomic
def all_good(member: Member, pots: Sequence[Pot], *, entry_id: str = "") -> list[Verdict]:
    """Keep of several pots, by one tap, that they came out good; they are taken back together."""
    tap, now = entry_id or new_id(), timezone.now()
    if Verdict.objects.filter(studio=member.studio_id, together=tap).exists():
        return []
    return [
        keep(
            Verdict,
            member,
            entry_id=id_under(tap, number),
            together=tap,
            at=now,
            pot=pot,
            surface=Surface.WHOLE,
            thumb=Thumb.UP,
        )
        for number, pot in enumerate(pots, start=1)
    ]


@transaction.atomic
def answer_hope(member: Member, hope: Hope, *, came_true: bool, entry_id: str = "") -> HopeAnswer:
    """Keep what became of a hope or a fear."""
    return keep(HopeAnswer, member, entry_id=entry_id, hope=hope, came_true=came_true)
