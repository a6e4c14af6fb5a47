"""Finding pots by words: each word on its own, anywhere in what is known of a pot.

Forms, glazes and buckets are few and pots are many: the few are read and asked
for the words here, and the many are asked once for all of them.
"""

from collections.abc import Callable, Iterable, Sequence

from django.db.models import Q, QuerySet

from wareboard.records.glazes.models import Bucket, Glaze
from wareboard.records.people.entry import nth
from wareboard.records.people.folding import fold, words_in
from wareboard.records.people.models import Member

from .models import Coat, Form, Pot
from .queries import pots_for
from .words import said_alike

Elsewhere = Callable[[tuple[str, ...]], Q]
"""Where else a word may stand: takes the word in both countries' spelling."""


def holding(named: Iterable[tuple[str, str]], words: Sequence[str]) -> list[str]:
    """Give the ids of what has one of some words in its name."""
    return [key for key, name in named if any(word in fold(name) for word in words)]


def _numbered(word: str) -> Q:
    """Find the third of the pots that were made in one tap, which are called by their numbers."""
    if not word.isdecimal():
        return Q()
    return Q(name="", pk__endswith=nth("", int(word))) & ~Q(together="")


def pots_found(member: Member, text: str, elsewhere: Elsewhere | None = None) -> QuerySet[Pot]:
    """Give the pots that every word is found of, newest first.

    Parameters
    ----------
    member : Member
        Whose pots.
    text : str
        Words, in any order, with or without capitals and accents.
    elsewhere : callable, optional
        Where later rooms may find a word.
    """
    pots, words = pots_for(member), words_in(text)
    if not words:
        return pots
    studio = member.studio_id
    forms = list(Form.objects.filter(studio=studio).values_list("pk", "name"))
    buckets = list(
        Bucket.objects.filter(studio=studio).values_list("pk", "name", "glaze", "glaze__name")
    )
    glazes = list(Glaze.objects.filter(studio=studio).values_list("pk", "name"))
    for word in words:
        alike = said_alike(word)
        found = Q(pk=word) | Q(form__in=holding(forms, alike)) | _numbered(word)
        for one in alike:
            found |= Q(name__says=one) | Q(whose__says=one) | Q(note__says=one)
        from_buckets = holding(((key, f"{own} {of}") for key, own, _id, of in buckets), alike)
        coats = Coat.objects.current().filter(
            Q(bucket__in=from_buckets) | Q(glaze__in=holding(glazes, alike))
        )
        found |= Q(pk__in=coats.order_by().values("pot"))
        if elsewhere is not None:
            found |= elsewhere(alike)
        pots = pots.filter(found)
    return pots
