"""When a firing was lit, shut off and opened: kept by a tap, put right by saying when.

What a tap kept is not overwritten: a moment that is put right steps back, and the right one
stands in its place. The lighting is the firing itself, so its time is put right in place, and
what stood there goes into the note of the firing (decision 0005).
"""

from collections.abc import Iterator
from datetime import datetime, timedelta

from django.db import transaction
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from wareboard.records.people.entry import Entry, EntryRefused, check, keep, new_id
from wareboard.records.people.models import Member
from wareboard.records.people.undoing import undo

from . import log_queries, queries
from .models import Firing, Moment
from .spoken import same_minute
from .words import MomentKind

RANK = {
    MomentKind.CANDLE: 0,
    MomentKind.SEALED: 0,
    MomentKind.SHUT_OFF: 1,
    MomentKind.OPENED: 2,
}
"""What cannot have come before what; a door may be sealed before the candle or after it."""

CLOCKS_APART = timedelta(minutes=2)


def _day(when: datetime) -> str:
    return date_format(timezone.localtime(when), "j M, H:i")


def _refuse(this: str, at: datetime, other: str, when: datetime) -> None:
    say = _("“%(this)s” on %(at)s would come after “%(other)s” on %(when)s: look at both times.")
    if at < when:
        say = _(
            "“%(this)s” on %(at)s would come before “%(other)s” on %(when)s: look at both times."
        )
    raise EntryRefused(say % {"this": this, "at": _day(at), "other": other, "when": _day(when)})


def _refuse_if_to_come(this: str, at: datetime) -> None:
    now = timezone.now()
    if at > now + CLOCKS_APART:
        raise EntryRefused(
            _("“%(this)s” on %(at)s has not been yet; accepted is a time up to now, %(now)s.")
            % {"this": this, "at": _day(at), "now": _day(now)}
        )


def _refuse_after_the_next(this: str, firing: Firing, at: datetime) -> None:
    """Refuse what would come when the kiln was lit again already."""
    later = log_queries.firing_after(firing)
    if later is not None and at >= later.at:
        _refuse(this, at, _("firing %d lit") % later.number, later.at)


def refuse_out_of_order(firing: Firing, kind: MomentKind, at: datetime) -> None:
    """Refuse a moment that would come before or after what it cannot.

    Raises
    ------
    EntryRefused
        With one sentence that names both times.
    """
    this = str(kind.label)
    _refuse_if_to_come(this, at)
    if at < firing.at and not same_minute(at, firing.at):
        _refuse(this, at, _("lit"), firing.at)
    for other, moment in queries.moments_of(firing).items():
        rank, its = RANK[kind], RANK[MomentKind(other)]
        if same_minute(at, moment.at):
            continue
        if (its < rank and at < moment.at) or (its > rank and at > moment.at):
            _refuse(this, at, str(MomentKind(other).label), moment.at)
    _refuse_after_the_next(this, firing, at)


@transaction.atomic
def keep_moment(
    member: Member,
    firing: Firing,
    kind: MomentKind,
    *,
    entry_id: str = "",
    at: datetime | None = None,
    remembered: str = "",
) -> Moment:
    """Keep what happens once in a firing; what was kept before stays as it is.

    Raises
    ------
    EntryRefused
        If it cannot have happened then.
    """
    before: Moment | None = Moment.objects.standing().filter(firing=firing, kind=kind).first()
    if before is not None:
        return before
    at = at or timezone.now()
    refuse_out_of_order(firing, MomentKind(kind), at)
    return keep(
        Moment,
        member,
        entry_id=entry_id,
        firing=firing,
        kind=kind,
        at=at,
        remembered=remembered,
    )


@transaction.atomic
def put_moment_right(
    member: Member,
    firing: Firing,
    kind: MomentKind,
    *,
    at: datetime,
    entry_id: str = "",
    remembered: str | None = None,
) -> Moment:
    """Say when something happened in a firing; what stood there steps back and is kept.

    Parameters
    ----------
    member : Member
        Who says it.
    firing : Firing
        In which firing.
    kind : MomentKind
        What happened.
    at : datetime
        When it was.
    entry_id : str
        The id the page made.
    remembered : str, optional
        How it is remembered; as what stands there where it is not said.

    Raises
    ------
    EntryRefused
        If it cannot have happened then, or if the same page was taken back.
    """
    stands: Moment | None = Moment.objects.standing().filter(firing=firing, kind=kind).first()
    if remembered is None:
        remembered = stands.remembered if stands is not None else ""

    def says_it(moment: Moment) -> bool:
        return moment.remembered == remembered and same_minute(moment.at, at)

    sent: Moment | None = Moment._base_manager.filter(
        pk=entry_id, firing=firing, kind=kind, studio=member.studio_id
    ).first()
    again = sent is not None and says_it(sent)
    late = again and sent is not None and log_queries.gave_way(sent)
    if stands is not None and (late or says_it(stands)):
        return stands
    refuse_out_of_order(firing, kind, at)
    if stands is not None:
        stands.undone_at = timezone.now()
        stands.save(update_fields=["undone_at"])
    right = keep(
        Moment,
        member,
        entry_id=entry_id if sent is None or again else new_id(),
        firing=firing,
        kind=kind,
        at=at,
        remembered=remembered,
    )
    if stands is not None:
        stands.undone_at = right.kept_at
        stands.save(update_fields=["undone_at"])
    return right


def did_not_happen(firing: Firing, kind: MomentKind) -> Moment | None:
    """Take away a moment that was tapped by mistake: it steps back and is kept.

    Returns
    -------
    Moment or None
        What stood there; None where nothing did any more.
    """
    stands: Moment | None = Moment.objects.standing().filter(firing=firing, kind=kind).first()
    if stands is not None:
        stands.undone_at = timezone.now()
        stands.save(update_fields=["undone_at"])
    return stands


@transaction.atomic
def take_back(entry: Entry) -> None:
    """Take something of a log back; a moment that was put right stands again as it was."""
    undone = entry.undone_at
    undo(entry)
    if undone is None and isinstance(entry, Moment):
        before = log_queries.stood_before(entry)
        if before is not None:
            before.undone_at = None
            before.save(update_fields=["undone_at"])


def _then(firing: Firing) -> Iterator[tuple[str, datetime]]:
    """Give the first of each kind of thing that comes after lighting."""
    for kind, moment in queries.moments_of(firing).items():
        yield str(MomentKind(kind).label), moment.at
    line = queries.lines_of(firing).first()
    if line is not None:
        yield _("first line of its log"), line.at


@transaction.atomic
def put_lighting_right(firing: Firing, *, at: datetime) -> Firing:
    """Say when a firing was lit; what stood there goes into its note.

    Raises
    ------
    EntryRefused
        If it cannot have been lit then.
    """
    if same_minute(firing.at, at):
        return firing
    this = _("lit")
    _refuse_if_to_come(this, at)
    for other, when in _then(firing):
        if when < at:
            _refuse(this, at, other, when)
    last = log_queries.firing_before(firing)
    if last is not None and last.at >= at:
        _refuse(this, at, _("firing %d lit") % last.number, last.at)
    _refuse_after_the_next(this, firing, at)
    trace = _("Lit was put right; before, it said %s.") % _day(firing.at)
    note = f"{firing.note} {trace}".strip()
    if len(note) <= (Firing._meta.get_field("note").max_length or 0):
        firing.note = note
    firing.at = at
    check(firing)
    firing.save(update_fields=["at", "note"])
    return firing
