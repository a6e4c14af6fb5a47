"""Numbers as people read them: rounded to what a scale can weigh, in the studio's units.

The record and the core know one unit a quantity; only here does the studio's
choice of pounds, gallons or Fahrenheit come in.
"""

import math
from dataclasses import dataclass, replace
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
SMALL_ML, TINY_ML = 200.0, 50.0
"""Below the first a volume is written in millilitres, from the second on to the nearest ten."""

HALF = 0.5
"""Below so many litres or gallons a twentieth is worth showing."""

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
    """Leave the nothing behind the point out: 7 rather than 7.0, 0.4 rather than 0.40."""
    return text.rstrip("0").rstrip(".") if "." in text else text


@dataclass(frozen=True)
class Unit:
    """In what a number is written.

    Attributes
    ----------
    one : float
        What one of it is in the record [unit of the record].
    step : float
        Smallest step worth showing [this unit].
    name : str
        What stands behind the number.
    """

    one: float
    step: float
    name: str

    def write(self, value: float) -> str:
        """Write a number of the record, without the name of the unit."""
        return rounded(value / self.one, self.step)

    def said(self, value: float) -> float:
        """Give the number of the record that is meant by what is written."""
        return float(self.write(value)) * self.one


@dataclass(frozen=True)
class Shown:
    """How one studio reads numbers."""

    studio: Studio

    def mass(self, mass_g: float, beside: Interval | None = None) -> str:
        """Write a mass: small ones in grams; beside its span in the unit of the span."""
        unit = self._mass_in(_larger(mass_g, beside))
        return f"{unit.write(mass_g)} {unit.name}"

    def mass_span(self, doubt: Interval | None) -> str:
        """Write a span of masses [g] in one unit, that of its larger end: (9.6–11.2 kg)."""
        return _span_in(doubt, self._mass_in(_larger(0.0, doubt)))

    def _mass_in(self, size_g: float) -> Unit:
        if size_g >= 2 * THOUSAND and self.studio.mass == StudioMass.POUND:
            return Unit(G_LB, 0.1, "lb")
        if size_g >= TEN * THOUSAND:
            return Unit(THOUSAND, 0.1, "kg")
        return Unit(1.0, 0.1 if size_g < TEN and self.studio.scale_step_g < 1 else 1.0, "g")

    @staticmethod
    def weighed(mass_g: float) -> str:
        """Write what a scale says, or is to say: in grams, as it stands, so that sums agree."""
        return f"{written(round(mass_g, 3))} g"

    def volume(self, volume_ml: float, beside: Interval | None = None) -> str:
        """Write a volume: small ones in millilitres; beside its span in the unit of the span."""
        unit = self._volume_in(_larger(volume_ml, beside))
        return f"{whole(unit.write(volume_ml))} {unit.name}"

    def volume_span(self, doubt: Interval | None) -> str:
        """Write a span of volumes [ml] in one unit, that of its larger end: (20–130 ml)."""
        return _span_in(doubt, self._volume_in(_larger(0.0, doubt)))

    def volume_said(self, volume_ml: float, beside: Interval | None = None) -> float:
        """Give the volume that is meant where ``volume`` is read and followed [ml]."""
        return self._volume_in(_larger(volume_ml, beside)).said(volume_ml)

    def volume_worked(self, volume_ml: float) -> str:
        """Write a volume as a line of working needs it: in litres or gallons, to four figures."""
        unit = self._volume_in(THOUSAND * L_US_GAL)
        return f"{volume_ml / unit.one:.4g} {unit.name}"

    def _volume_in(self, size_ml: float) -> Unit:
        if size_ml < SMALL_ML:
            return Unit(1.0, TEN if size_ml >= TINY_ML else 1.0, "ml")
        gallons = self.studio.volume == StudioVolume.US_GALLON
        one, name = (THOUSAND * L_US_GAL, "US gal") if gallons else (THOUSAND, "l")
        return Unit(one, 0.05 if size_ml < HALF * one else 0.1, name)

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


def _larger(value: float, beside: Interval | None) -> float:
    """Give the size that decides the unit: of the number, or of the larger end of its span."""
    ends = [] if beside is None else [beside.low, beside.high]
    return max(abs(one) for one in [value, *ends])


def _span_in(doubt: Interval | None, unit: Unit) -> str:
    if doubt is None:
        return ""
    same = replace(doubt, low=doubt.low / unit.one, high=doubt.high / unit.one)
    return Shown.span(same, unit.step, unit.name)
