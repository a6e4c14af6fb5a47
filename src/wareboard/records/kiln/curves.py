"""The curve of a firing over the grey one of the good firing."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from wareboard.charts.firing_curve import Band, Mark, Reading, firing_curve
from wareboard.charts.theme import Light, Spec
from wareboard.core.firing.log import FiringLog
from wareboard.records.people.models import StudioTemperature
from wareboard.records.people.shown import Shown

from .log_says import WIDEST_FORECAST_H
from .logs import Course
from .words import MomentKind

MOST_POINTS = 300
REMEMBERED = 16

drawn_once = lru_cache(maxsize=REMEMBERED)(firing_curve)
"""The same drawing for the same lines: a chart is asked for again and again while it burns."""


@dataclass(frozen=True)
class CurveSaid:
    """The words round a chart.

    Attributes
    ----------
    say : str
        What to see.
    label : str
        The same for who cannot see it.
    """

    say: str
    label: str


def readings_of(course: Course) -> list[Reading]:
    """Give the temperatures of a firing with their hours since lighting [h, °C]."""
    if course.log is not None:
        return points(course.log)
    lit = course.firing.at
    read = [line for line in course.lines if line.temp_c is not None]
    return [((one.at - lit).total_seconds() / 3600, float(one.temp_c or 0.0)) for one in read[-1:]]


def points(log: FiringLog) -> list[Reading]:
    """Give the points of a log, no more of them than a picture shows."""
    step = -(-log.hours.size // MOST_POINTS)
    kept = sorted({*range(0, log.hours.size, step), log.peak, log.hours.size - 1})
    return [(float(log.hours[i]), float(log.temp_c[i])) for i in kept]


def _ahead(course: Course) -> list[Band]:
    """Give the wedge in which the climb should reach the end cone, where its hour is told too."""
    hour, log = course.end_cone_hour, course.log
    if hour is None or log is None or hour.end_c is None or hour.doubt is None:
        return []
    soon, late = hour.doubt.low, hour.doubt.high
    if late - soon > WIDEST_FORECAST_H:
        return []
    rise_c = max(hour.end_c - log.now_c, 0.0)
    return [
        (log.now_hours, log.now_c, log.now_c),
        (log.now_hours + soon, log.now_c + rise_c * soon / late, hour.end_c),
        (log.now_hours + late, hour.end_c, hour.end_c),
    ]


def _good(course: Course) -> list[Reading]:
    """Give the good one: up to its shut-off while this firing burns, else all of it."""
    good = course.good_log
    if good is None:
        return []
    off = course.good_hours(MomentKind.SHUT_OFF)
    end = good.peak_hours if off is None else off
    if course.shut_hours is None and float(good.hours[0]) < end < good.now_hours:
        good = good.until(end)
    return points(good)


def _marks(course: Course) -> list[Mark]:
    log = course.log
    if log is None:
        return []
    began = course.logged.reduction
    if began is None or not float(log.hours[0]) <= began.hours <= log.now_hours:
        return []
    return [(began.hours, _("reduction"))]


def said_of(course: Course, shown: Shown) -> CurveSaid | None:
    """Give the words round the curve; None where there is nothing to draw yet."""
    read = readings_of(course)
    if not read:
        return None
    hours, temp_c = read[-1]
    label = _("Firing %(n)d: %(temp)s after %(hours)d hours") % {
        "n": course.firing.number,
        "temp": shown.temperature(temp_c),
        "hours": round(hours),
    }
    if course.good is None or course.good_log is None:
        return CurveSaid("", label)
    day = date_format(localtime(course.good.at), "j F")
    say = _("Grey: firing %(n)d, %(day)s, the good one.") % {"n": course.good.number, "day": day}
    return CurveSaid(say, f"{label}. {say}")


def curve_of(
    course: Course, shown: Shown, light: Light, *, width_px: int | None, height_px: int
) -> Spec:
    """Draw a firing over the good one.

    Parameters
    ----------
    course : Course
        The firing, with at least one temperature.
    shown : Shown
        How this studio reads numbers.
    light : {'light', 'dark'}
        By day or at night.
    width_px : int or None
        None takes what the page gives.
    height_px : int
        How high it is.
    """
    fahrenheit = shown.studio.temperature == StudioTemperature.FAHRENHEIT

    def own(rows: Sequence[tuple[float, ...]]) -> tuple[Any, ...]:
        if not fahrenheit:
            return tuple(rows)
        return tuple((hours, *(c * 1.8 + 32 for c in temps)) for hours, *temps in rows)

    read = readings_of(course)
    good_name = ""
    if course.good is not None and course.shut_hours is None:
        good_name = date_format(localtime(course.good.at), "j F")
    return drawn_once(
        own(read),
        good=own(_good(course)),
        good_name=good_name,
        now=shown.temperature(read[-1][1]),
        ahead=own(_ahead(course)),
        marks=tuple(_marks(course)),
        light=light,
        hours_title=_("hours since lighting"),
        temp_title=_("temperature [°F]") if fahrenheit else _("temperature [°C]"),
        width_px=width_px,
        height_px=height_px,
    )
