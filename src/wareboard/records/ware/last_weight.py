"""The newest weight that is known of a pot: from the scale, or from its last weighed dip."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _

from wareboard.records.people.shown import Shown

from .models import Coat

Weighed = tuple[datetime, float, str]
"""When a pot was weighed, what it weighed [g], and its state in words."""


@dataclass(frozen=True)
class LastWeight:
    """What a pot weighed last.

    Attributes
    ----------
    at : datetime
        When that was.
    weight_g : float
        What it weighed [g].
    state : str
        How it was then, in words.
    dipped_since : bool
        Whether a coat went on after that.
    """

    at: datetime
    weight_g: float
    state: str
    dipped_since: bool

    def before_the_dip(self, shown: Shown, when: str) -> str:
        """Say what it was before a dip that nobody weighed."""
        words = {"g": shown.mass(self.weight_g), "when": when, "state": self.state}
        return _("Before it %(g)s, %(when)s, %(state)s") % words


def last_weight(weighings: Iterable[Weighed], coats: Iterable[Coat]) -> LastWeight | None:
    """Give the newest weight of a pot; None where it was never on the scale."""
    coats = list(coats)
    dips = [(c.at, c.after_g, _("just dipped")) for c in coats if c.after_g is not None]
    newest = max((*weighings, *dips), key=lambda one: one[0], default=None)
    if newest is None:
        return None
    return LastWeight(*newest, dipped_since=any(coat.at > newest[0] for coat in coats))
