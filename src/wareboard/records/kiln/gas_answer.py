"""How much gas a firing took, from cylinders on a scale."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from math import sqrt

from django.utils.translation import gettext as _

from wareboard.records.people.models import StudioMass
from wareboard.records.people.shown import G_LB, Shown, rounded

from .bridge import hours_since
from .models import FuelWeight

SCALE_KG = 0.1
"""One weighing on a bathroom or luggage scale is known to this (common practice)."""

NEAR_H = 0.25
SHORTEST_H = 0.5
G_KG = 1000.0


def kilos(mass_kg: float, shown: Shown) -> str:
    """Write a cylinder's weight."""
    if shown.studio.mass == StudioMass.POUND:
        return f"{rounded(mass_kg * G_KG / G_LB, 0.1)} lb"
    return f"{rounded(mass_kg, 0.1)} kg"


@dataclass(frozen=True)
class GasAnswer:
    """What the cylinders say.

    Attributes
    ----------
    title : str
        The one sentence.
    doubt : str
        Its doubt.
    said : list of str
        By stage, and what is left.
    known : bool
        Whether a cylinder was weighed twice, so that a use is known.
    """

    title: str
    doubt: str = ""
    said: list[str] = field(default_factory=list)
    known: bool = False


def _by_cylinder(weights: Sequence[FuelWeight]) -> dict[str, list[FuelWeight]]:
    found: dict[str, list[FuelWeight]] = {}
    for weight in weights:
        found.setdefault(weight.cylinder.casefold(), []).append(weight)
    return found


def used_kg(weights: Sequence[FuelWeight]) -> tuple[float, int]:
    """Give what went out of the cylinders [kg], and how many of them were weighed twice.

    Parameters
    ----------
    weights : sequence of FuelWeight
        In the order of time.
    """
    twice = [rows for rows in _by_cylinder(weights).values() if len(rows) > 1]
    return sum(rows[0].gross_kg - rows[-1].gross_kg for rows in twice), len(twice)


def _rate(weights: Sequence[FuelWeight], shown: Shown) -> str:
    used, _cylinders = used_kg(weights)
    hours = hours_since(weights[0].at, weights[-1].at)
    if hours < SHORTEST_H:
        return ""
    per_hour = _("%s an hour") % kilos(used / hours, shown)
    return _("%(used)s in %(hours)s h, %(rate)s") % {
        "used": kilos(used, shown),
        "hours": rounded(hours, 0.5).removesuffix(".0"),
        "rate": per_hour,
    }


def gas_answer(
    weights: Sequence[FuelWeight], sealed_at: datetime | None, shown: Shown
) -> GasAnswer:
    """Say how much gas was used, and how fast.

    Parameters
    ----------
    weights : sequence of FuelWeight
        Of one firing, in the order of time.
    sealed_at : datetime or None
        When the door was sealed.
    shown : Shown
        How this studio reads numbers.
    """
    used, twice = used_kg(weights)
    left = [rows[-1] for rows in _by_cylinder(weights).values()]
    said = []
    if twice:
        if sealed_at is not None:
            before = [w for w in weights if hours_since(sealed_at, w.at) <= NEAR_H]
            after = [w for w in weights if hours_since(sealed_at, w.at) >= -NEAR_H]
            for name, stage in ((_("Until sealed: %s."), before), (_("Since: %s."), after)):
                rate = _rate(stage, shown) if used_kg(stage)[1] else ""
                said += [name % rate] if rate else []
        elif rate := _rate(weights, shown):
            said.append(f"{rate}.")
    for weight in left:
        if weight.tare_kg is not None:
            say = _("Left in it: %s.") % kilos(weight.gross_kg - weight.tare_kg, shown)
            said.append(f"{weight.cylinder}: {say}" if len(left) > 1 else say)
    if not twice:
        title = _("Weigh the cylinder again later.") if weights else _("No cylinder weighed yet.")
        return GasAnswer(title, said=said)
    half = SCALE_KG * sqrt(2 * twice)
    return GasAnswer(
        _("%s of gas used.") % kilos(used, shown), f"(± {kilos(half, shown)})", said, known=True
    )
