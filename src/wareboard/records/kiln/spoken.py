"""Hours, times and degrees as people beside a kiln say them."""

from datetime import datetime, timedelta

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.records.people.models import StudioTemperature
from wareboard.records.people.shown import Shown, day, rounded

RATE_STEP = 5.0
"""Rates are known to five degrees an hour at best."""


def clock(when: datetime, *, step_min: int = 1, now: datetime | None = None) -> str:
    """Write a time of day, to the nearest step; with its day where that is not today's."""
    local = timezone.localtime(when).replace(second=0, microsecond=0)
    off_min = local.minute % step_min
    local += timedelta(minutes=step_min - off_min if 2 * off_min >= step_min > 1 else -off_min)
    if now is None or timezone.localtime(now).date() == local.date():
        return f"{local:%H:%M}"
    return f"{local:%a %H:%M}"


def on_day(when: datetime, now: datetime) -> str:
    """Write a time that has been: 20:00, 20:00 yesterday, 20:00 on 13 November."""
    at = clock(when)
    days = (timezone.localtime(now).date() - timezone.localtime(when).date()).days
    if days == 0:
        return at
    if days == 1:
        return _("%s yesterday") % at
    return _("%(at)s on %(day)s") % {"at": at, "day": day(when, "j F")}


def same_minute(one: datetime, other: datetime) -> bool:
    """Tell whether two instants are the same to the minute, as a page shows them."""
    return one.replace(second=0, microsecond=0) == other.replace(second=0, microsecond=0)


def long(hours: float) -> str:
    """Write a length of time: 14 h, 8 h 40, 25 minutes."""
    minutes = round(hours * 60)
    if minutes < 2 * 60:
        return ngettext("%d minute", "%d minutes", minutes) % minutes
    whole, rest = divmod(minutes, 60)
    return f"{whole} h {rest:02d}" if rest else f"{whole} h"


def _factor(shown: Shown) -> tuple[float, str]:
    if shown.studio.temperature == StudioTemperature.FAHRENHEIT:
        return 1.8, "°F"
    return 1.0, "°C"


def degrees(apart_c: float, shown: Shown) -> str:
    """Write how far two temperatures are apart."""
    factor, sign = _factor(shown)
    return f"{rounded(abs(apart_c) * factor, 1.0)} {sign}"


def rate(rate_c_h: float, shown: Shown) -> str:
    """Write how fast a kiln climbs or falls."""
    factor, sign = _factor(shown)
    facts = {"rate": rounded(abs(rate_c_h) * factor, RATE_STEP), "sign": sign}
    return _("%(rate)s %(sign)s an hour") % facts


def typed_temperature(temp_c: float, shown: Shown) -> str:
    """Write a temperature as it would be typed into a field, with all its digits."""
    factor, _sign = _factor(shown)
    return f"{temp_c:g}" if factor == 1.0 else f"{temp_c * factor + 32:.1f}"
