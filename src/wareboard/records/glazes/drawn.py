"""How much slop: litres by a mark, grams on the scale, or the whole bucket."""

from dataclasses import dataclass
from enum import StrEnum

from django.utils.translation import gettext as _

from wareboard.core.slop.bucket import ML_L
from wareboard.core.units import MASS_G, VOLUME_L, Quantity
from wareboard.exchange.refusals import NumberAsked, NumberRefused
from wareboard.exchange.typed_number import read_typed, written
from wareboard.records.people.entry import EntryRefused

QUANTITY = {"l": VOLUME_L, "g": MASS_G}
OTHER = {"l": "g", "g": "l"}
LIMITS = {"l": (0.02, 200.0), "g": (20.0, 600_000.0)}
"""From a test cup to the largest bin, thrice as heavy as water [l, g] (common practice)."""


class HowMuch(StrEnum):
    """In what it is told."""

    LITRES = "litres"
    GRAMS = "grams"
    WHOLE = "whole"


@dataclass(frozen=True)
class Drawn:
    """Slop drawn off, as it was told.

    Attributes
    ----------
    wet_g : float or None
        By the scale, without the tub [g].
    litres : float or None
        By a mark on the tub [l].
    """

    wet_g: float | None = None
    litres: float | None = None

    @property
    def volume_ml(self) -> float | None:
        """Its volume where it was told by a mark [ml]."""
        return None if self.litres is None else self.litres * ML_L


def read_drawn(text: str, *, bare: str, field: str) -> Drawn:
    """Read litres or grams; a unit that is written decides, else the button.

    Parameters
    ----------
    text : str
        As typed.
    bare : str
        What a number without a unit is: ``l`` or ``g``.
    field : str
        What was asked.

    Raises
    ------
    NumberRefused
        If it is neither.
    """
    try:
        return _drawn(bare, _read(text, QUANTITY[bare], field))
    except NumberAsked:
        raise
    except NumberRefused as refused:
        try:
            return _drawn(OTHER[bare], _with_unit(text, QUANTITY[OTHER[bare]], field))
        except NumberRefused:
            raise refused from None


def refuse_drawn(drawn: Drawn) -> None:
    """Refuse what no bucket holds and what is too little to weigh powder for.

    Raises
    ------
    EntryRefused
        With the other unit where that would do.
    """
    unit, value = ("l", drawn.litres) if drawn.wet_g is None else ("g", drawn.wet_g)
    if value is None or LIMITS[unit][0] <= value <= LIMITS[unit][1]:
        return
    low, high = LIMITS[OTHER[unit]]
    words = {"seen": f"{written(value)} {unit}", "meant": f"{written(value)} {OTHER[unit]}"}
    too_much = value > LIMITS[unit][1]
    if low <= value <= high:
        say = (
            _("%(seen)s is more than a bucket holds: do you mean %(meant)s?")
            if too_much
            else _("%(seen)s of glaze is too little to add powder to: do you mean %(meant)s?")
        )
        raise EntryRefused(say % words)
    say = (
        _("%(seen)s is more than a bucket holds: accepted is up to 200 l, or 600 kg.")
        if too_much
        else _("%(seen)s of glaze is too little to add powder to: accepted is from 20 g.")
    )
    raise EntryRefused(say % words)


def _read(text: str, quantity: Quantity, field: str) -> float:
    return read_typed(text, quantity, field=field).value


def _with_unit(text: str, quantity: Quantity, field: str) -> float:
    """Read a number only where letters stand behind it."""
    if not text or not text.strip()[-1:].isalpha():
        raise NumberRefused("", field=field, seen=text, accepted=quantity.words)
    return _read(text, quantity, field)


def _drawn(unit: str, value: float) -> Drawn:
    return Drawn(litres=value) if unit == "l" else Drawn(wet_g=value)
