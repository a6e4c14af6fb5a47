"""Numbers as people read them: rounded to what a scale can weigh, in the studio's units.

The record and the core know one unit a quantity; only here does the studio's
choice of pounds, gallons or Fahrenheit come in.
"""

import math
from dataclasses import dataclass
from datetime import datetime
from decimal import ROUND_HALF_UP, Decimal

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from wareboard.core.answer import Interval
from wareboard.exchange.number_text import written

from .models import Studio, StudioMass, StudioTemperature, StudioVolume

G_LB = 453.59237
L_US_GAL = 3.785411784
THOUSAND = 1000.0
TEN = 10.0
SURE_DIGITS = 12
"""Digits of a number that reckoning does not blur."""


def rounded(value: float, step: float) -> str:
    """Write a number to the nearest step, with no more digits than the step has.

    Half a step goes up, as it is taught in school: 0.25 in tenths is 0.3.

    Parameters
    ----------
    value : float
        The number.
    step : float
        Smallest step worth showing: 1, 0.1, 0.05 … [unit of the number].
    """
    places = max(0, math.ceil(-math.log10(step) - 1e-9))
    whole_step = Decimal(repr(step))
    exact = Decimal(f"{value:.{SURE_DIGITS}g}")
    steps = (exact / whole_step).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    return f"{float(steps * whole_step) + 0.0:.{places}f}"


def day(when: datetime, style: str = "j F Y") -> str:
    """Write a day by the studio's clock.

    Parameters
    ----------
    when : datetime
        The instant.
    style : str
        As Django writes dates: ``j M`` leaves the year out.
    """
    return date_format(timezone.localtime(when), style)


def whole(text: str) -> str:
    """Leave the nothing behind the point out: 7 rather than 7.0."""
    return text.removesuffix(".0")


@dataclass(frozen=True)
class Shown:
    """How one studio reads numbers."""

    studio: Studio

    def mass(self, mass_g: float) -> str:
        """Write a mass: small ones in grams."""
        size = abs(mass_g)
        if size >= 2 * THOUSAND and self.studio.mass == StudioMass.POUND:
            return f"{rounded(mass_g / G_LB, 0.1)} lb"
        if size >= TEN * THOUSAND:
            return f"{rounded(mass_g / THOUSAND, 0.1)} kg"
        step = 0.1 if size < TEN and self.studio.scale_step_g < 1 else 1.0
        return f"{rounded(mass_g, step)} g"

    @staticmethod
    def weighed(mass_g: float) -> str:
        """Write what a scale says, or is to say: in grams, as it stands, so that sums agree."""
        return f"{written(round(mass_g, 3))} g"

    def volume(self, volume_ml: float) -> str:
        """Write a volume: small ones in millilitres."""
        if abs(volume_ml) < THOUSAND / 20:
            return f"{rounded(volume_ml, 1.0)} ml"
        if self.studio.volume == StudioVolume.US_GALLON:
            return f"{whole(rounded(volume_ml / THOUSAND / L_US_GAL, 0.1))} US gal"
        return f"{whole(rounded(volume_ml / THOUSAND, 0.1))} l"

    def temperature(self, temp_c: float) -> str:
        """Write a temperature."""
        if self.studio.temperature == StudioTemperature.FAHRENHEIT:
            return f"{rounded(temp_c * 1.8 + 32, 1.0)} °F"
        return f"{rounded(temp_c, 1.0)} °C"

    @staticmethod
    def sg(value: float) -> str:
        """Write a specific gravity."""
        return rounded(value, 0.01)

    @staticmethod
    def thickness(value_mm: float) -> str:
        """Write the thickness of a coat."""
        return f"{rounded(value_mm, 0.05)} mm"

    @staticmethod
    def percent(value: float) -> str:
        """Write a percentage."""
        return f"{rounded(value, 0.1)} %"

    @staticmethod
    def span(doubt: Interval | None, step: float, unit: str = "") -> str:
        """Write a doubt as (21–23), or (up to 9) from below nothing; empty where there is none.

        Parameters
        ----------
        doubt : Interval or None
            From where to where.
        step : float
            Smallest step worth showing [unit of the number].
        unit : str
            What stands behind the numbers, where it is not said before them.
        """
        if doubt is None:
            return ""
        low, high = rounded(doubt.low, step), rounded(doubt.high, step)
        if low == high:
            return ""
        tail = f" {unit}" if unit else ""
        if float(low) >= 0.0:
            return f"({low}–{high}{tail})"
        if float(high) >= 0.0:
            return _("(up to %s)") % f"{high}{tail}"
        return _("(%(low)s to %(high)s)") % {"low": low, "high": f"{high}{tail}"}
