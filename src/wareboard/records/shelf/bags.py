"""How bags are told apart: by their label, and where two have the same one, by when they came."""

from collections import Counter
from collections.abc import Mapping
from datetime import datetime
from typing import NamedTuple

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from wareboard.records.people.models import Member
from wareboard.records.stores.models import Lot


class Bag(NamedTuple):
    """A lot as far as its name goes."""

    pk: str
    material_id: str
    label: str
    at: datetime


def names_of_bags(member: Member) -> Mapping[str, str]:
    """Give by id what each lot of the studio is called; one query."""
    lots = Lot.objects.seen_by(member).order_by("at", "kept_at", "pk")
    return told_apart([Bag(*row) for row in lots.values_list("pk", "material_id", "label", "at")])


def told_apart(bags: list[Bag]) -> dict[str, str]:
    """Name bags so that no two of one material have the same name.

    Parameters
    ----------
    bags : list of Bag
        All of a studio, the first to come first.
    """
    names = {bag.pk: bag.label for bag in bags}
    for say in (_bought, _numbered):
        taken = Counter((bag.material_id, names[bag.pk]) for bag in bags)
        met: Counter[tuple[str, str]] = Counter()
        for bag in bags:
            name = bag.material_id, names[bag.pk]
            if taken[name] > 1:
                met[name] += 1
                names[bag.pk] = say(names[bag.pk], bag, met[name])
    return names


def _bought(name: str, bag: Bag, _number: int) -> str:
    day = date_format(timezone.localtime(bag.at), "j M Y")
    return _("%(label)s, bought %(day)s") % {"label": name, "day": day}


def _numbered(name: str, _bag: Bag, number: int) -> str:
    return f"{name} ({number})"
