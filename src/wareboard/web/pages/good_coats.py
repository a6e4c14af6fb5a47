"""What a glaze's good coats were like: how thick, how wet, and which are counted.

The same coats are counted before a dip and after it: those that were weighed,
on a form that is drawn, on a side that came out good.
"""

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.core.coat import coat_words
from wareboard.records.glazes.models import Glaze
from wareboard.records.people.models import Member
from wareboard.records.people.shown import rounded
from wareboard.records.shelf.queries import ENOUGH_GOOD_POTS, good_coats
from wareboard.records.ware.books import coats_of, work_out_all
from wareboard.records.ware.bridge import WorkedCoat
from wareboard.records.ware.models import Coat, Pot

STEP_MM = 0.05


def spread_of(low_mm: float, high_mm: float) -> str:
    """Write from where to where a thickness may lie."""
    return f"({rounded(low_mm, STEP_MM)}–{rounded(high_mm, STEP_MM)})"


@dataclass(frozen=True)
class Usual:
    """What a glaze's good coats were like.

    Attributes
    ----------
    good_mm : tuple of float
        Their thicknesses [mm]; empty where none was weighed on a drawn form.
    mm, half_mm : float
        The middle one, and half of what nine in ten lie within [mm].
    water_percent : float or None
        The water they put into the pot, against its weight [%].
    undrawn : int
        How many were weighed on a form that nobody has drawn.
    by_others : int
        How many were not weighed, but taken to be like another pot.
    """

    good_mm: tuple[float, ...] = ()
    mm: float = 0.0
    half_mm: float = 0.0
    water_percent: float | None = None
    undrawn: int = 0
    by_others: int = 0

    def why_unknown(self, glaze: Glaze) -> str:
        """Say why none of them tells a thickness."""
        if self.undrawn:
            say = ngettext(
                "the one good pot with %s that was weighed is of a form nobody has drawn",
                "the good pots with %s that were weighed are of a form nobody has drawn",
                self.undrawn,
            )
        elif self.by_others:
            say = _("the good pots with %s were only taken to be like one that was weighed")
        else:
            say = _("no good pot with %s was weighed yet")
        return say % glaze.name

    @property
    def band_mm(self) -> tuple[float, float] | None:
        """Give from where to where they lie; None while they are too few for a word [mm]."""
        if not self.good_mm:
            return None
        band = coat_words(self.mm, self.good_mm).result
        if band.usual_low_mm is None or band.usual_high_mm is None:
            return None
        return band.usual_low_mm, band.usual_high_mm

    @property
    def counts(self) -> str:
        """Say which coats are counted."""
        n = len(self.good_mm)
        say = ngettext(
            "Counted: %d weighed coat that came out good.",
            "Counted: %d weighed coats that came out good.",
            n,
        )
        return say % n

    def say(self, glaze: Glaze) -> str:
        """Say from where to where they lie, or the one there is."""
        low_mm, high_mm = self.band_mm or (min(self.good_mm), max(self.good_mm))
        low, high = rounded(low_mm, STEP_MM), rounded(high_mm, STEP_MM)
        facts = {"glaze": glaze.name, "low": low, "high": f"{high} mm"}
        if len(self.good_mm) == 1:
            facts["span"] = spread_of(self.mm - self.half_mm, self.mm + self.half_mm)
            return _("The one good %(glaze)s coat: %(high)s %(span)s") % facts
        if low == high:
            return _("Good %(glaze)s coats: %(high)s") % facts
        return _("Good %(glaze)s coats: %(low)s to %(high)s") % facts


@dataclass(frozen=True)
class Known:
    """What the record knows before a dip: the pots' coats, and the glaze's good ones.

    Attributes
    ----------
    coats : mapping of str to sequence of WorkedCoat
        By pot, in order.
    usual : Usual
        What the glaze's good coats were like.
    tried : WorkedCoat or None
        The coat that is about to be kept, where it was asked for.
    """

    coats: Mapping[str, Sequence[WorkedCoat]]
    usual: Usual
    tried: WorkedCoat | None = None


def usual_of(worked: Sequence[WorkedCoat], side: str) -> Usual:
    """Learn from a glaze's good coats how thick and how wet it usually is.

    Coats on a general outline are left out: their area is nobody's measure.
    """
    told = [one for one in worked if one.answer is not None and not one.usual]
    own = [
        (one.told_mm, one.answer.doubt["coat_mm"])
        for one in told
        if one.answer is not None and one.told_mm is not None
    ]
    same = [one for one in told if one.coat.side == side] or told
    water = [one.answer.result.water_percent_of_pot for one in same if one.answer is not None]
    water_percent = statistics.median(water) if water else None
    if not own:
        by_others = sum(one.usual and one.answer is not None for one in worked)
        return Usual(water_percent=water_percent, undrawn=len(told), by_others=by_others)
    good = sorted(mm for mm, _doubt in own)
    doubt = statistics.median((spread.high - spread.low) / 2 for _mm, spread in own)
    return Usual(
        tuple(good),
        statistics.median(good),
        max((good[-1] - good[0]) / 2, doubt),
        water_percent,
    )


def gather(
    member: Member, pots: Sequence[Pot], glaze: Glaze, side: str, *, tried: Coat | None = None
) -> Known:
    """Read the coats of some pots and the good coats of a glaze, in few queries.

    Parameters
    ----------
    member : Member
        Who asks.
    pots : sequence of Pot
        Whose coats are wanted.
    glaze : Glaze
        Whose good coats are wanted.
    side : str
        Of which side.
    tried : Coat, optional
        One that nobody keeps yet, to be worked out with the others.
    """
    coats = coats_of(member, [pot.pk for pot in pots])
    good = list(
        good_coats(member, glaze).select_related(
            "bucket__glaze", "glaze", "pot__form", "pot__clay", "like"
        )[:ENOUGH_GOOD_POTS]
    )
    here = {coat.pk for found in coats.values() for coat in found}
    together = {key: list(found) for key, found in coats.items()}
    for coat in good:
        if coat.pk not in here:
            together.setdefault(coat.pot_id, []).append(coat)
    if tried is not None:
        together.setdefault(tried.pot_id, []).append(tried)
    worked = work_out_all(member, together)
    chosen = {coat.pk for coat in good}
    every = [one for found in worked.values() for one in found]
    return Known(
        {pot.pk: [w for w in worked.get(pot.pk, ()) if w.coat.pk in here] for pot in pots},
        usual_of([one for one in every if one.coat.pk in chosen], side),
        next((one for one in every if one.coat is tried), None),
    )
