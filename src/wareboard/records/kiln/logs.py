"""The course of a firing: its lines, the good one behind it, and what cone packs have told.

However long the logs are, everything is read in a fixed number of queries.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from typing import Any

from wareboard.core.answer import Answer
from wareboard.core.errors import CoreError
from wareboard.core.firing.ahead import HourOfCone, hours_to_cone
from wareboard.core.firing.cone import ConeResult, reckon_cone
from wareboard.core.firing.log import FiringLog
from wareboard.core.firing.pack import probe_after_reading
from wareboard.core.firing.reading_doubt import Probe
from wareboard.core.firing.series import ConeSeries
from wareboard.records.people.models import Member

from . import queries
from .bridge import Logged, beside_log, hours_since, logged, probe_of, series_of
from .models import ConeReading, Firing, FuelWeight, GoodFiring, LogLine, Moment
from .words import MomentKind

PACKS = 4
"""How many earlier firings with a cone pack are held against their logs."""


@dataclass(frozen=True)
class Course:
    """A firing as it went so far.

    Attributes
    ----------
    firing : Firing
        Which one.
    lines : sequence of LogLine
        Its current lines in order.
    moments : mapping of str to Moment
        What happened once in it, by kind.
    cones : sequence of ConeReading
        What was read of its cones.
    fuel : sequence of FuelWeight
        Its cylinders on the scale.
    good : Firing or None
        The good one of this kiln, where it is another.
    good_logged : Logged or None
        Its lines.
    good_moments : mapping of str to Moment
        Its moments.
    called : GoodFiring or None
        That this firing is itself the good one.
    probe : Probe
        What packs of earlier firings told about the pyrometer.
    """

    firing: Firing
    lines: Sequence[LogLine]
    moments: Mapping[str, Moment]
    cones: Sequence[ConeReading]
    fuel: Sequence[FuelWeight]
    good: Firing | None
    good_logged: Logged | None
    good_moments: Mapping[str, Moment]
    called: GoodFiring | None
    probe: Probe
    series: ConeSeries = field(repr=False)

    @cached_property
    def logged(self) -> Logged:
        """Its lines as the core reads them."""
        return logged([(line.at, line.temp_c, line.flame) for line in self.lines], self.firing.at)

    @property
    def is_good(self) -> bool:
        """Whether this firing is itself the good one."""
        return self.called is not None

    @property
    def log(self) -> FiringLog | None:
        """Its temperatures."""
        return self.logged.log

    @property
    def good_log(self) -> FiringLog | None:
        """The temperatures of the good one."""
        return self.good_logged.log if self.good_logged else None

    def hours(self, kind: MomentKind) -> float | None:
        """Hours from lighting to a moment [h]; None where it has not happened."""
        moment = self.moments.get(kind)
        return None if moment is None else hours_since(self.firing.at, moment.at)

    def good_hours(self, kind: MomentKind) -> float | None:
        """Give the same of the good one."""
        moment = self.good_moments.get(kind)
        if moment is None or self.good is None:
            return None
        return hours_since(self.good.at, moment.at)

    @cached_property
    def shut_hours(self) -> float | None:
        """Shut-off, as far as the log goes [h]; None while it burns."""
        hours = self.hours(MomentKind.SHUT_OFF)
        if hours is None or self.log is None:
            return hours
        return min(max(hours, float(self.log.hours[0])), self.log.now_hours)

    @cached_property
    def seen_probe(self) -> Probe:
        """The pyrometer, corrected by the last cone seen half way down in this firing."""
        if self.log is None:
            return self.probe
        shifted = self.log.shifted(self.probe.offset_c)
        for reading in sorted(self.cones, key=lambda one: one.at, reverse=True):
            if reading.when_cold:
                continue
            hours = hours_since(self.firing.at, reading.at)
            beside = beside_log(self.series, shifted, reading, hours)
            if beside is not None and beside.tells_c is not None:
                return probe_after_reading(beside, self.probe)
        return self.probe

    @cached_property
    def reading(self) -> Answer[ConeResult] | None:
        """The log in cones, at shut-off or so far, and when cold."""
        if self.log is None:
            return None
        return reckon_cone(
            self.series, self.log, shut_off_hours=self.shut_hours, probe=self.seen_probe
        )

    @cached_property
    def end_cone_hour(self) -> HourOfCone | None:
        """When the end cone of this kiln will be down; None where that cannot be told."""
        if self.log is None or self.shut_hours is not None or not self.firing.load.kiln.end_cone:
            return None
        try:
            return hours_to_cone(
                self.series.table,
                self.log,
                self.firing.load.kiln.end_cone,
                good=self.good_log,
                probe=self.seen_probe,
            )
        except CoreError:
            return None


def _moments_of(firing_ids: Iterable[str]) -> dict[str, dict[str, Moment]]:
    found: dict[str, dict[str, Moment]] = defaultdict(dict)
    for moment in Moment.objects.standing().filter(firing__in=set(firing_ids)).order_by("at"):
        found[moment.firing_id][moment.kind] = moment
    return found


def _cones_around(firing: Firing) -> dict[str, list[ConeReading]]:
    """Give the cones of a firing and of the ones just before it, the last one first."""
    earlier = Firing.objects.standing().filter(load__kiln=firing.load.kiln, at__lt=firing.at)
    newest = list(earlier.order_by("-at").values_list("pk", flat=True)[:PACKS])
    rows = ConeReading.objects.current().filter(firing__in=[firing.pk, *newest])
    found: dict[str, list[ConeReading]] = {pk: [] for pk in [firing.pk, *newest]}
    for row in rows.select_related("place", "firing").order_by("at", "pk"):
        found[row.firing_id].append(row)
    return found


def _logs_of(firings: Mapping[str, datetime]) -> dict[str, Logged]:
    """Read the lines of some firings; one query."""
    rows: dict[str, list[Any]] = defaultdict(list)
    lines = LogLine.objects.current().filter(firing__in=list(firings)).order_by("at")
    for firing_id, *row in lines.values_list("firing_id", "at", "temp_c", "flame"):
        rows[firing_id].append(row)
    return {firing_id: logged(found, firings[firing_id]) for firing_id, found in rows.items()}


def course_of(member: Member, firing: Firing) -> Course:
    """Gather the course of a firing.

    Parameters
    ----------
    member : Member
        Who asks.
    firing : Firing
        With load and kiln at hand.
    """
    kiln = firing.load.kiln
    called = queries.called_good(member, kiln)
    good = called.firing if called else None
    is_good = good is not None and good.pk == firing.pk
    behind = None if is_good else good
    packs = _cones_around(firing)
    own = packs.pop(firing.pk)
    packs = {pk: readings for pk, readings in packs.items() if readings}
    lit = {pk: readings[0].firing.at for pk, readings in packs.items()}
    if behind is not None:
        lit[behind.pk] = behind.at
    others = _logs_of(lit) if lit else {}
    moments = _moments_of([firing.pk, *([behind.pk] if behind else [])])
    series = series_of(kiln)
    logs = {pk: told.log for pk, told in others.items() if told.log is not None}
    return Course(
        firing=firing,
        lines=list(queries.lines_of(firing)),
        moments=moments.get(firing.pk, {}),
        cones=own,
        fuel=list(FuelWeight.objects.current().filter(firing=firing).order_by("at", "kept_at")),
        good=behind,
        good_logged=others.get(behind.pk) if behind else None,
        good_moments=moments.get(behind.pk, {}) if behind else {},
        called=called if is_good else None,
        probe=probe_of(series, logs, packs),
        series=series,
    )
