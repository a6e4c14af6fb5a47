"""A dip that is hard to believe: asked about once, with the digit that may have slipped."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils import timezone
from django.utils.translation import gettext as _

from wareboard.core.coat import most_of_one_dip_mm
from wareboard.core.slips import with_one_digit_changed
from wareboard.exchange.number_text import written
from wareboard.records.people.shown import Shown
from wareboard.records.ware.bridge import NEVER_WEIGHED, WorkedCoat
from wareboard.records.ware.dip_forms import SMALL_G
from wareboard.records.ware.models import Coat, Pot
from wareboard.records.ware.weighing_answer import COAT_UNWEIGHED, STEPS

from .good_coats import Known, Usual

AROUND_GOOD = 0.5
"""A coat as far below or above the good ones, as a ratio, is a likely one still."""


def tried_on(pot: Pot, facts: Mapping[str, Any], *, wrong: Coat | None = None) -> Coat | None:
    """Give a dip as a coat that nobody keeps yet; None where it was not weighed.

    Parameters
    ----------
    pot : Pot
        Which pot was weighed.
    facts : mapping
        As a form of the dip gives them.
    wrong : Coat, optional
        The coat that is put right: what is not said anew stays as it was.
    """
    names = "bucket", "side", "extent", "before_g", "after_g", "lip_cm"
    known = {name: getattr(wrong, name) for name in names} if wrong is not None else {}
    known |= {name: facts[name] for name in names if name in facts}
    if known.get("before_g") is None or known.get("after_g") is None:
        return None
    return Coat(pot=pot, at=wrong.at if wrong is not None else timezone.now(), **known)


@dataclass(frozen=True)
class Weights:
    """A pot before and after a dip.

    Attributes
    ----------
    before_g, after_g : float
        What was typed [g].
    """

    before_g: float
    after_g: float

    @property
    def slop_g(self) -> float:
        """Give what hangs on it [g]."""
        return self.after_g - self.before_g

    def slipped(self, *, before_stands: bool) -> Iterator[tuple["Weights", str]]:
        """Give the weights with one digit changed, and how to say which was meant."""
        for after_g in _one_digit_changed(self.after_g):
            yield Weights(self.before_g, after_g), _("%s after the dip") % Shown.weighed(after_g)
        if before_stands:
            return
        for before_g in _one_digit_changed(self.before_g):
            yield Weights(before_g, self.after_g), _("%s before the dip") % Shown.weighed(before_g)


def _one_digit_changed(weight_g: float) -> list[float]:
    places = len(written(weight_g).partition(".")[2])
    return [n / 10**places for n in with_one_digit_changed(round(weight_g * 10**places))]


def _meant(weights: Weights, mm: float, usual: Usual, *, before_stands: bool) -> str:
    """Say which weight was meant, where just one with one digit changed makes a likely coat."""
    if not usual.good_mm:
        return ""
    slop_g_mm = weights.slop_g / mm
    least_g = (1 - AROUND_GOOD) * usual.good_mm[0] * slop_g_mm
    most_g = (1 + AROUND_GOOD) * usual.good_mm[-1] * slop_g_mm
    slips = weights.slipped(before_stands=before_stands)
    fits = [say for other, say in slips if least_g <= other.slop_g <= most_g]
    return fits[0] if len(fits) == 1 else ""


def hard_to_believe(known: Known, shown: Shown, *, weighed_g: float | None = None) -> str:
    """Ask about a dip that is thicker than one dip gets; else empty.

    Parameters
    ----------
    known : Known
        With the dip as ``tried``.
    shown : Shown
        How this studio reads numbers.
    weighed_g : float, optional
        What the pot weighed when it was last on the scale, so that the weight
        before the dip is known to stand [g].
    """
    one = known.tried
    if one is None:
        return ""
    weights = Weights(one.coat.before_g or 0.0, one.coat.after_g or 0.0)
    said = _too_thick(one, weights, known.usual, shown)
    if not said:
        return ""
    step_g = STEPS * shown.studio.scale_step_g
    stands = weighed_g is not None and abs(weights.before_g - weighed_g) <= step_g
    mm = one.thickness_mm
    meant = _meant(weights, mm, known.usual, before_stands=stands) if mm else ""
    asked = _("Do you mean %s?") % meant if meant else _("Look at both weights again.")
    return f"{said} {asked}"


def _too_thick(one: WorkedCoat, weights: Weights, usual: Usual, shown: Shown) -> str:
    """Say what is too thick about a dip; empty where nothing is."""
    facts = {"after": Shown.weighed(weights.after_g), "slop": Shown.weighed(weights.slop_g)}
    if one.told_mm is not None:
        most_mm = most_of_one_dip_mm(usual.good_mm)
        if one.told_mm <= most_mm:
            return ""
        facts["mm"] = shown.thickness(one.told_mm)
        glaze = one.coat.bucket.glaze if one.coat.bucket else one.coat.glaze
        if not usual.good_mm or glaze is None:
            facts["most"] = shown.thickness(most_mm)
            say = _(
                "%(after)s after the dip makes a coat of %(mm)s, and one dip gives up to %(most)s."
            )
            return say % facts
        facts["good"] = usual.say(glaze)
        return _("%(after)s after the dip makes a coat of %(mm)s. %(good)s.") % facts
    if one.answer is None and one.missing != NEVER_WEIGHED:
        return f"{facts['after']}: {one.missing.removesuffix('.')}."
    if weights.slop_g <= max(COAT_UNWEIGHED * weights.before_g, SMALL_G):
        return ""
    facts["before"] = Shown.weighed(weights.before_g)
    return _("%(slop)s of slop on a pot of %(before)s is more than one dip puts on.") % facts
