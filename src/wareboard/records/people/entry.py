"""What every entry has: its own id, when it happened, who kept it.

The id comes from whoever makes the entry, so that sending it twice stores it
once. No measurement is overwritten: an entry is undone by a time stamp, a measurement
is put right by a second one. Some facts are filled in later, in place: decision 0005.
"""

import re
from functools import cache
from typing import Any, Self, TypeVar
from uuid import NAMESPACE_OID, uuid4, uuid5

from django.core.exceptions import ValidationError
from django.core.validators import RegexValidator
from django.db import models, transaction
from django.db.models import F, Func, Q
from django.utils import timezone
from django.utils.translation import gettext as _

from .limits import range_of
from .models import Member, Studio

ID_LENGTH = 40
ID_PATTERN = re.compile(r"\A[a-z0-9][a-z0-9-]{0,39}\Z")
# What may differ when the same entry comes a second time: also the numbers that are given to it.
RESENT_OTHERWISE = frozenset({"at", "corrects", "together", "number", "version"})

check_id = RegexValidator(
    ID_PATTERN, message="An id has small letters, digits and dashes, at most 40 of them."
)


class EntryRefused(Exception):
    """An entry that cannot be kept or undone; the text is one sentence."""


class EntryQuerySet(models.QuerySet[Any]):
    """Entries as a member may see them."""

    def standing(self) -> Self:
        """Leave out what was undone."""
        return self.filter(undone_at__isnull=True)

    def seen_by(self, member: Member) -> Self:
        """Leave what this member's studio holds and did not undo."""
        return self.filter(studio=member.studio_id).standing()


class MeasurementQuerySet(EntryQuerySet):
    """Measurements, of which some correct others."""

    def current(self) -> Self:
        """Leave out what a later measurement corrects; asked row by row, not of the whole table."""
        return self.filter(Q(undone_at__isnull=True), Uncorrected(self.model))


class Uncorrected(Func):
    """Whether no later row that stands corrects one.

    A page asks it up to twenty times. It says what ``~Exists`` of a query would say, which
    takes four times as long to be put into words.
    """

    template = (
        'NOT EXISTS(SELECT 1 FROM "%(table)s" later'
        " WHERE later.corrects_id = %(expressions)s AND later.undone_at IS NULL)"
    )
    output_field = models.BooleanField()

    def __init__(self, model: type[models.Model]) -> None:
        super().__init__(F("pk"), table=model._meta.db_table)


class Entry(models.Model):
    """One fact, kept once."""

    id = models.CharField(
        primary_key=True,
        max_length=ID_LENGTH,
        validators=[check_id],
        help_text="Made by whoever entered it; never changes.",
    )
    # A record holds one studio or few: an index on it would find every row, and be taken for a
    # good one where a better stands beside it.
    studio = models.ForeignKey(Studio, on_delete=models.PROTECT, related_name="+", db_index=False)
    at = models.DateTimeField(help_text="When it happened.")
    kept_at = models.DateTimeField(help_text="When it was taken into the record.")
    by = models.ForeignKey(
        Member,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        db_index=False,
        help_text="Who entered it.",
    )
    remembered = models.CharField(
        max_length=60,
        blank=True,
        help_text="Empty for a fact; else how it is remembered: 'I think', 'about spring'.",
    )
    together = models.CharField(
        max_length=ID_LENGTH,
        blank=True,
        db_index=True,
        help_text="The same for all that one tap entered; it is taken back together.",
    )
    undone_at = models.DateTimeField(
        null=True, blank=True, help_text="When it was taken back; empty while it stands."
    )

    objects = EntryQuerySet.as_manager()

    class Meta:
        """Shared by all rooms."""

        abstract = True

    def _get_FIELD_display(self, field: Any) -> str:  # noqa: N802 - Django's own name for it
        """Give the word of a choice; Django would make its table of words anew for every row."""
        value = getattr(self, field.attname)
        return str(words_of(field).get(value, value))


class Measurement(Entry):
    """Something read off an instrument or a pot; may correct an earlier one."""

    corrects = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="corrected_by",
        help_text="The earlier one that this one puts right.",
    )

    objects = MeasurementQuerySet.as_manager()  # type: ignore[misc] # a manager that knows more

    class Meta:
        """Shared by all rooms."""

        abstract = True


class Part(models.Model):
    """A line of an entry: it stands and falls with it."""

    id = models.CharField(primary_key=True, max_length=ID_LENGTH + 10)
    position = models.PositiveSmallIntegerField(help_text="Place in the list, from 1.")

    class Meta:
        """Shared by all rooms."""

        abstract = True


class MeasuredLine(Measurement):
    """A line of an entry that was read off a scale: kept with it, and put right by itself."""

    position = models.PositiveSmallIntegerField(help_text="Place in the list, from 1.")

    class Meta:
        """Shared by all rooms."""

        abstract = True

    def kept_with(self, entry: Entry) -> None:
        """Take from an entry what is the same for all its lines."""
        for name in ("studio_id", "by_id", "at", "kept_at", "remembered", "together"):
            setattr(self, name, getattr(entry, name))


Line = Part | MeasuredLine
Kept = TypeVar("Kept", bound=Entry)


@cache
def words_of(field: Any) -> dict[Any, Any]:
    """Give the words of a field's choices, not translated yet."""
    return dict(field.flatchoices)


def new_id() -> str:
    """Make an id for an entry that came without one."""
    return str(uuid4())


def id_under(entry_id: str, tail: object) -> str:
    """Make the id of one of several entries that one tap makes; the same each time."""
    whole = f"{entry_id}-{tail}"
    return whole if len(whole) <= ID_LENGTH else str(uuid5(NAMESPACE_OID, whole))


def nth(entry_id: str, number: int) -> str:
    """Make the id of one of several alike entries of one tap; they sort as they are numbered."""
    return id_under(entry_id, f"{number:02d}")


def _kept_before(model: type[Kept], member: Member, entry_id: str) -> Kept | None:
    """Give the entry that holds an id, if it is this studio's."""
    found = model._base_manager.filter(pk=entry_id).first()
    if found is not None and found.studio_id != member.studio_id:
        raise EntryRefused(_("This entry came with an id that is taken. Reload the page."))
    return found


def _plain(value: Any) -> Any:
    """Give a value as it is stored: of a row, its id."""
    return value.pk if isinstance(value, models.Model) else value


def _line_of(part: Line, owner: str) -> list[tuple[str, Any]]:
    """Give what a line says, without its id, its place and what it has of its entry."""
    left_out = {"position", owner, *(field.name for field in Measurement._meta.local_fields)}
    fields = [field for field in part._meta.concrete_fields if field.name not in left_out]
    return [(field.attname, getattr(part, field.attname)) for field in fields]


def _says_the_same(
    found: Entry, facts: dict[str, Any], parts: tuple[Line, ...], owner: str
) -> bool:
    """Tell whether a resent entry says what is kept; when it came does not count."""
    columns = {field.name: field.attname for field in found._meta.concrete_fields}
    same = all(
        getattr(found, columns[name]) == _plain(value)
        for name, value in facts.items()
        if value is not None and name not in RESENT_OTHERWISE
    )
    if not same or not parts:
        return same
    kept = type(parts[0])._base_manager.filter(**{owner: found.pk}).order_by("position")
    first = [part for part in kept if getattr(part, "corrects_id", None) is None]
    return [_line_of(part, owner) for part in first] == [_line_of(part, owner) for part in parts]


def _id_of_the_second(
    entry_id: str, facts: dict[str, Any], parts: tuple[Line, ...], owner: str
) -> str:
    """Make the id of another entry that came with a used one; the same each time it is sent."""
    said = sorted(
        (name, repr(_plain(value))) for name, value in facts.items() if name not in RESENT_OTHERWISE
    )
    lines = [_line_of(part, owner) for part in parts]
    return str(
        uuid5(NAMESPACE_OID, f"{entry_id} {said} {lines}" if lines else f"{entry_id} {said}")
    )


def check(row: models.Model) -> None:
    """Refuse a row that its table would not hold.

    Raises
    ------
    EntryRefused
        With one sentence: what, which value, and what would do.
    """
    try:
        row.full_clean(validate_unique=False, validate_constraints=True)
    except ValidationError as error:
        raise EntryRefused(_out_of_range(row) or " ".join(error.messages)) from error


def _out_of_range(row: models.Model) -> str:
    """Say which number of a row is out of its range; empty where none is."""
    for field in row._meta.concrete_fields:
        limits = range_of(type(row), field.name)
        value = getattr(row, field.attname)
        if limits is None or value is None or limits[0] <= value <= limits[1]:
            continue
        say = _("%(what)s: %(value)s cannot be kept; accepted is %(low)s to %(high)s.")
        return say % {
            "what": str(field.help_text).rstrip("."),
            "value": f"{value:.10g}",
            "low": f"{limits[0]:.10g}",
            "high": f"{limits[1]:.10g}",
        }
    return ""


@transaction.atomic
def keep(
    model: type[Kept],
    member: Member,
    *,
    entry_id: str = "",
    parts: tuple[Line, ...] = (),
    owner: str = "",
    **facts: Any,
) -> Kept:
    """Keep an entry once.

    Parameters
    ----------
    model : type
        Which kind of entry.
    member : Member
        Who keeps it; decides the studio.
    entry_id : str
        The id the client made; a new one where it is empty. An id that this
        studio holds already gives back what is stored, unchanged. An old form
        that is sent again with other numbers in it is another entry, and is
        kept once too.
    parts : tuple of Part or MeasuredLine
        Unsaved lines of the entry; their ids follow from its id.
    owner : str
        The field by which a line names its entry.
    **facts : Any
        The fields. ``at`` is now where it is not given.

    Raises
    ------
    EntryRefused
        If the id is none or belongs to something else, if the same entry was
        taken back, or if a field is not as the model asks.
    """
    entry_id = entry_id or new_id()
    if not ID_PATTERN.match(entry_id):
        raise EntryRefused(_("This entry came with an id that cannot be used. Reload the page."))
    found = _kept_before(model, member, entry_id)
    if found is not None and not _says_the_same(found, facts, parts, owner):
        entry_id = _id_of_the_second(entry_id, facts, parts, owner)
        found = _kept_before(model, member, entry_id)
    if found is not None and found.undone_at is not None:
        raise EntryRefused(_("This was taken back. If it is right after all, reload the page."))
    if found is not None:
        return found
    now = timezone.now()
    facts = {"at": now, **{name: value for name, value in facts.items() if value is not None}}
    if any(isinstance(part, MeasuredLine) for part in parts):
        facts["together"] = facts.get("together") or entry_id
    entry = model(id=entry_id, studio_id=member.studio_id, by=member, kept_at=now, **facts)
    check(entry)
    entry.save(force_insert=True)
    for number, part in enumerate(parts, start=1):
        part.id = id_under(entry_id, f"{number:03d}")
        part.position = number
        setattr(part, owner, entry)
        if isinstance(part, MeasuredLine):
            part.kept_with(entry)
        check(part)
        part.save(force_insert=True)
    return entry
