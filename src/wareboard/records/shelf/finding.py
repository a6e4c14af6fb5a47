"""Finding pots on the shelf: also by their fault, their verdict, their firing and their kiln."""

from django.db.models import Exists, OuterRef, Q, QuerySet
from django.utils.translation import gettext as _

from wareboard.records.kiln.models import Load, Placing
from wareboard.records.people.folding import fold
from wareboard.records.people.models import Member
from wareboard.records.ware.finding import holding, pots_found
from wareboard.records.ware.models import Pot

from .models import Fault, Verdict
from .words import FaultWord, Thumb

SHORTEST_STEM = 3


def faults_called(words: tuple[str, ...]) -> list[str]:
    """Give the faults that a word may mean: crazed, craze and crazing are one."""
    found = []
    for fault in FaultWord:
        stem = fault.value.rstrip("e")
        label = fold(str(fault.label))
        if any(
            word in label or (word.startswith(stem) and len(stem) >= SHORTEST_STEM)
            for word in words
            if len(word) >= SHORTEST_STEM
        ):
            found.append(fault.value)
    return found


def told_of(member: Member, text: str) -> QuerySet[Pot]:
    """Give the pots that every word is found of, in any room, newest first."""
    loads = list(
        Load.objects.seen_by(member).values_list(
            "pk", "name", "kiln__name", "firings__number", "firings__undone_at"
        )
    )
    numbers = {key: str(number) for key, _n, _k, number, undone in loads if number and not undone}
    labels = [
        (key, f"{name} {kiln} {_('firing') if key in numbers else ''}")
        for key, name, kiln, _number, _undone in loads
    ]

    def elsewhere(words: tuple[str, ...]) -> Q:
        load_ids = {*holding(labels, words)} | {k for k, n in numbers.items() if n in words}
        said = Q()
        for word in words:
            said |= Q(words__says=word)
        named = Fault.objects.filter(word__in=faults_called(words)).values("verdict")
        verdicts = Verdict.objects.current().filter(said | Q(pk__in=named))
        thumbs = [thumb for thumb in Thumb if fold(str(thumb.label)) in words]
        found = Q(pk__in=verdicts.order_by().values("pot"))
        if load_ids:
            placings = Placing.objects.standing().filter(load__in=load_ids)
            found |= Q(pk__in=placings.values("pot"))
        if thumbs:
            judged = Verdict.objects.current().filter(pot=OuterRef("pk"), thumb__in=thumbs)
            found |= Q(Exists(judged))
        return found

    return pots_found(member, text, elsewhere)
