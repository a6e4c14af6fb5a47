"""What a potter does at the shelf: judge, and answer a hope."""

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from wareboard.records.people.entry import keep
from wareboard.records.people.models import Member
from wareboard.records.ware.models import Hope, Pot

from .models import Fault, HopeAnswer, Verdict


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

    A later verdict on the same surface corrects the one in force.
    """
    before = (
        Verdict.objects.current()
        .filter(pot=pot, surface=facts["surface"])
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
def answer_hope(member: Member, hope: Hope, *, came_true: bool, entry_id: str = "") -> HopeAnswer:
    """Keep what became of a hope or a fear."""
    return keep(HopeAnswer, member, entry_id=entry_id, hope=hope, came_true=came_true)
