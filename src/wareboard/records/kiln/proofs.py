"""Proof weighings: which pots of a load go on the scale alone, and which only together.

A scale that shows whole grams is too coarse for the loss of one small pot.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.urls import reverse
from django.utils.http import urlencode

from wareboard.core.drying import NextWeighing
from wareboard.records.ware.drying import Lit
from wareboard.records.ware.models import Pot

LISTED = 12


@dataclass(frozen=True)
class Listed:
    """A pot by its name."""

    pot: Pot
    name: str


@dataclass(frozen=True)
class Pan:
    """Pots of one form, too small for the scale alone: a wet one of another form would hide."""

    pots: tuple[Listed, ...]

    @property
    def url(self) -> str:
        """The page on which they are weighed together."""
        pots = urlencode({"pot": [one.pot.pk for one in self.pots]}, doseq=True)
        return f"{reverse('ware:weigh-together')}?{pots}"


@dataclass(frozen=True)
class ProofsAsked:
    """Whom two weighings with warm hours between would tell of.

    Attributes
    ----------
    alone : tuple of Listed
        Heavy enough for the scale, one at a time.
    together : tuple of Pan
        Too small for it alone, by their form.
    unknown : tuple of Listed
        Never weighed: a first weighing tells which it is.
    more : int
        How many of them are not listed.
    """

    alone: tuple[Listed, ...] = ()
    together: tuple[Pan, ...] = ()
    unknown: tuple[Listed, ...] = ()
    more: int = 0

    def __bool__(self) -> bool:
        """Tell whether there is any."""
        return bool(self.alone or self.together or self.unknown)


def proofs_asked(lits: Iterable[Lit], names: Mapping[str, str]) -> ProofsAsked:
    """Sort the pots of a load that a proof weighing would tell of; the first of each."""
    kinds: dict[str, list[Listed]] = {"alone": [], "together": [], "unknown": []}
    for lit in lits:
        told = Listed(lit.pot, names[lit.pot.pk])
        if lit.answer is None:
            if not lit.refused:
                kinds["unknown"].append(told)
        elif lit.answer.result.next_weighing is NextWeighing.PROOF:
            kinds["alone"].append(told)
        elif lit.answer.result.next_weighing is NextWeighing.PROOF_TOGETHER:
            kinds["together"].append(told)
    shown = {kind: tuple(found[:LISTED]) for kind, found in kinds.items()}
    more = sum(len(found) - len(shown[kind]) for kind, found in kinds.items())
    by_form: dict[str | None, list[Listed]] = {}
    for one in shown["together"]:
        by_form.setdefault(one.pot.form_id, []).append(one)
    pans = tuple(Pan(tuple(pots)) for pots in by_form.values())
    return ProofsAsked(shown["alone"], pans, shown["unknown"], more)
