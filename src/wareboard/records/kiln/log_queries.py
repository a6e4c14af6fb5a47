"""What a log keeps of itself: what may be taken back, and what stood there before."""

from datetime import datetime, timedelta

from django.db.models import QuerySet

from wareboard.records.people.models import Member

from .models import Firing, GoodFiring, LogLine, Moment

IN_A_LOG: dict[str, type[LogLine | Moment | GoodFiring]] = {
    "logline": LogLine,
    "moment": Moment,
    "goodfiring": GoodFiring,
}
"""What may be taken back beside the form of the next line, by its short name."""


def in_a_log(member: Member, kind: str, firing: Firing) -> QuerySet[LogLine | Moment | GoodFiring]:
    """Give what a log holds of one kind, also what was taken back."""
    rows: QuerySet[LogLine | Moment | GoodFiring] = IN_A_LOG[kind]._base_manager.all()
    return rows.filter(firing=firing.pk, studio=member.studio_id)


def last_told(firing: Firing, until: datetime) -> LogLine | None:
    """Give the last line of a log with a temperature up to an instant, told to its minute."""
    minute = until + timedelta(minutes=1)
    told = LogLine.objects.current().filter(firing=firing, temp_c__isnull=False, at__lt=minute)
    last: LogLine | None = told.order_by("at").last()
    return last


def stood_before(moment: Moment) -> Moment | None:
    """Give the moment that one put right; None where it put none right."""
    stood: Moment | None = Moment._base_manager.filter(
        firing=moment.firing_id, kind=moment.kind, undone_at=moment.kept_at
    ).first()
    return stood


def gave_way(moment: Moment) -> bool:
    """Tell whether a moment stepped back for one that put it right, and was not taken back."""
    if moment.undone_at is None:
        return False
    later = Moment._base_manager.filter(firing=moment.firing_id, kind=moment.kind)
    return later.filter(kept_at=moment.undone_at).exists()


def firing_before(firing: Firing) -> Firing | None:
    """Give the firing of the same kiln that was numbered before one."""
    found: Firing | None = (
        _of_its_kiln(firing).filter(number__lt=firing.number).order_by("-number").first()
    )
    return found


def firing_after(firing: Firing) -> Firing | None:
    """Give the firing of the same kiln that was numbered after one."""
    found: Firing | None = (
        _of_its_kiln(firing).filter(number__gt=firing.number).order_by("number").first()
    )
    return found


def _of_its_kiln(firing: Firing) -> QuerySet[Firing]:
    firings: QuerySet[Firing] = Firing.objects.standing().filter(load__kiln=firing.load.kiln_id)
    return firings
