"""The bottle that a bucket is weighed with, and what it may weigh full."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from wareboard.core.slop import full_bottle
from wareboard.exchange.typed_number import written
from wareboard.records.people.entry import EntryRefused


@dataclass(frozen=True)
class Bottle:
    """A bottle, as it was weighed empty and full of water.

    Attributes
    ----------
    empty_g : float
        Its weight, empty and dry [g].
    volume_ml : float
        What it holds to the brim [ml].
    """

    empty_g: float
    volume_ml: float

    def __str__(self) -> str:
        """Give its two numbers."""
        words = {"grams": written(self.empty_g), "ml": written(self.volume_ml)}
        return _("%(grams)s g empty, holds %(ml)s ml") % words


def refuse_full(full_g: float, bottle: Bottle) -> None:
    """Refuse what this bottle cannot weigh full of slop, and ask where a digit slipped.

    Raises
    ------
    EntryRefused
        With the weight that was likely meant, or with what the bottle may weigh.
    """
    full = full_bottle(bottle.empty_g, bottle.volume_ml)
    if full.allows(full_g):
        return
    words = {
        "seen": written(full_g),
        "low": written(round(full.lowest)),
        "high": written(round(full.highest)),
    }
    too_much = full_g > full.highest
    for _slip, meant in full.likely_slips(full_g):
        say = (
            _("%(seen)s g is too much for this bottle: do you mean %(meant)s?")
            if too_much
            else _("%(seen)s g is too little for this bottle: do you mean %(meant)s?")
        )
        raise EntryRefused(say % {**words, "meant": written(meant)})
    say = (
        _("%(seen)s g is too much for this bottle: full of slop it weighs %(low)s to %(high)s g.")
        if too_much
        else _(
            "%(seen)s g is too little for this bottle: full of water it weighs %(low)s g. "
            "Look at what it weighs empty and what it holds."
        )
    )
    raise EntryRefused(say % words)
