"""Pots as they stand on a plank on a page: drawn, named, told apart."""

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import datetime
from itertools import count
from typing import Any

from django.utils.safestring import mark_safe

from wareboard.records.people.models import Member

from .drawn import Shape, draw_pots, name_of, names_of, profiles_of, shape_of
from .models import Coat, Pot
from .queries import beside


def shapes_of(pots: Sequence[Pot]) -> Mapping[str, Shape]:
    """Give the outlines of some pots, by pot; one query."""
    profiles = profiles_of(pot.form_id for pot in pots if pot.form_id)
    return {pot.pk: shape_of(pot, profiles) for pot in pots}


def made(pot: Pot) -> tuple[datetime, str]:
    """Sort pots in the order they were made."""
    return pot.at, pot.pk


def numbered(pots: Sequence[Pot]) -> dict[str, str]:
    """Name the pots of a board so that two of one form are told apart.

    Where their taps and days do not tell them apart, they are counted in the
    order they were made; a number that is another's by its tap is left out.

    Parameters
    ----------
    pots : sequence of Pot
        All that stand on it, in any order.
    """
    found = names_of(pots)
    alike, taken = Counter(found.values()), set(found.values())
    for pot in sorted(pots, key=made):
        name = found[pot.pk]
        if alike[name] > 1:
            number = next(n for n in count(1) if f"{name} {n}" not in taken)
            found[pot.pk] = f"{name} {number}"
            taken.add(found[pot.pk])
    return found


def names_on_boards(standing: Mapping[str, Sequence[Pot]]) -> dict[str, str]:
    """Give what each pot is called where it stands, from all that stands on each board."""
    return {key: name for pots in standing.values() for key, name in numbered(pots).items()}


def called(member: Member, pot: Pot) -> str:
    """Give what a pot is called where it stands: mug 3, if it is not the only mug there."""
    return numbered(beside(member, pot)).get(pot.pk) or name_of(pot)


def plank(
    pots: Sequence[Pot],
    coats: Mapping[str, Sequence[Coat]],
    *,
    shapes: Mapping[str, Shape],
    thickness_mm: Mapping[str, float | None] | None = None,
    names: Mapping[str, str] | None = None,
) -> list[dict[str, Any]]:
    """Give pots as a template shows them on a plank.

    Parameters
    ----------
    pots : sequence of Pot
        In the order they stand.
    coats : mapping of str to sequence of Coat
        By pot, in order.
    shapes : mapping of str to Shape
        By pot; those of other pots may be among them.
    thickness_mm : mapping of str to float or None, optional
        By coat, where it was worked out [mm].
    names : mapping of str to str, optional
        What they are called, where these are not all that stand on their board.
    """
    own = {pot.pk: shapes[pot.pk] for pot in pots}
    drawings = draw_pots(pots, coats, thickness_mm or {}, shapes=own)
    names = numbered(pots) if names is None else names
    return [
        {
            "pot": pot,
            "name": names[pot.pk],
            "general": not own[pot.pk].own,
            "drawing": mark_safe(drawings[pot.pk]),  # noqa: S308 - our own drawing, every text in it escaped
        }
        for pot in pots
    ]


def glazes_on(coats: Sequence[Coat]) -> str:
    """Name the glazes on a pot, each once, in the order they were put on."""
    names = []
    for coat in coats:
        glaze = coat.bucket.glaze if coat.bucket else coat.glaze
        if glaze is not None:
            names.append(glaze.name)
    return ", ".join(dict.fromkeys(names))
