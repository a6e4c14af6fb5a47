"""The story of a pot: the whole chain, from lot to verdict, as lines in order of time.

Everything is read in a fixed number of queries, however long the story is.
"""

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db.models import CharField, F, FloatField, Value
from django.utils.translation import gettext as _

from wareboard.records.glazes.bridge import Weighed
from wareboard.records.glazes.models import Batch, BatchLine, BucketEvent, BucketEventKind
from wareboard.records.kiln.models import ConeReading, Placing
from wareboard.records.kiln.queries import cones_of_firings, firings_of_pots
from wareboard.records.people.models import Member
from wareboard.records.ware.books import BucketBooks, dips_of
from wareboard.records.ware.models import (
    Coat,
    Decoration,
    Hope,
    Mark,
    Pot,
    PotPhoto,
    Weighing,
)

from .models import Verdict
from .words import FaultWord


@dataclass
class CoatTold:
    """A coat with what was in its bucket.

    Attributes
    ----------
    coat : Coat
        The coat.
    batches : list of Batch
        In the bucket then; bases they were drawn from come last.
    lines : list of BatchLine
        What went into those, with lots.
    powders : list of BucketEvent
        What was stirred in since the bucket was filled.
    reading : Weighed or None
        The bucket's reading in force.
    solid : float or None
        Density of its powder [g/cm³].
    """

    coat: Coat
    batches: list[Batch] = field(default_factory=list)
    lines: list[BatchLine] = field(default_factory=list)
    powders: list[BucketEvent] = field(default_factory=list)
    reading: Weighed | None = None
    solid: float | None = None


@dataclass(frozen=True)
class Small:
    """One of the smaller facts of a pot: weighing, decoration, mark, hope, photo.

    ``was_g`` and ``was_word`` are what a weighing said before it was put right.
    """

    kind: str
    id: str
    at: datetime
    remembered: str
    word: str
    where: str
    weight_g: float | None
    kept_at: datetime
    was_g: float | None = None
    was_word: str | None = None


@dataclass
class VerdictTold:
    """A verdict and the faults it names, in words."""

    verdict: Verdict
    faults: list[str] = field(default_factory=list)


@dataclass
class Story:
    """All that the record knows of one pot."""

    pot: Pot
    coats: list[CoatTold]
    small: list[Small]
    placing: Placing | None
    cones: list[ConeReading]
    verdicts: list[VerdictTold]

    @property
    def photos(self) -> list[str]:
        """Give the originals of its photos."""
        return [one.word for one in self.small if one.kind == "photo"]


def _small(pot: Pot) -> list[Small]:
    """Read weighings, decorations, marks, hopes and photos in one query."""
    nothing, no_word = (Value(None, output_field=f()) for f in (FloatField, CharField))

    def lines(model: Any, kind: str, word: str, where: str = "", **of: Any) -> Any:
        manager = model.objects.current() if model is Weighing else model.objects.standing()
        return manager.filter(pot=pot).values_list(
            Value(kind, output_field=CharField()),
            "id",
            "at",
            "remembered",
            F(word),
            F(where) if where else Value("", output_field=CharField()),
            of.get("weight", nothing),
            "kept_at",
            of.get("was", nothing),
            of.get("was_word", no_word),
        )

    rows = lines(
        Weighing,
        "weighing",
        "state",
        weight=F("weight_g"),
        was=F("corrects__weight_g"),
        was_word=F("corrects__state"),
    ).union(
        lines(Decoration, "decoration", "kind", "where"),
        lines(Mark, "mark", "kind", "where"),
        lines(Hope, "hope", "words", "kind"),
        lines(PotPhoto, "photo", "original_id"),
        all=True,
    )
    return sorted((Small(*row) for row in rows), key=lambda one: (one.at, one.id))


def verdicts_of(pot: Pot) -> list[VerdictTold]:
    """Read the current verdicts of a pot with their faults; one query."""
    rows = (
        Verdict.objects.current()
        .filter(pot=pot)
        .annotate(fault=F("faults__word"), fault_where=F("faults__where"))
        .order_by("at", "pk", "faults__position")
    )
    told: dict[str, VerdictTold] = {}
    for row in rows:
        one = told.setdefault(row.pk, VerdictTold(row))
        if row.fault:
            one.faults.append(f"{FaultWord(row.fault).label} {row.fault_where}".strip())
    return list(told.values())


def tell(member: Member, pot: Pot) -> Story:
    """Gather the story of a pot.

    Parameters
    ----------
    member : Member
        Who asks.
    pot : Pot
        With form and clay at hand.
    """
    coats = list(
        Coat.objects.current()
        .filter(pot=pot)
        .select_related("bucket__glaze", "glaze", "like__pot__form")
        .select_related("corrects__bucket", "corrects__glaze")
        .order_by("at", "kept_at", "pk")
    )
    books = BucketBooks(dips_of(coats))
    told = []
    for coat in coats:
        coat.pot = pot
        one = CoatTold(coat)
        if coat.bucket_id:
            one.batches = books.batches_at(coat.bucket_id, coat.at)
            one.lines = [line for batch in one.batches for line in books.lines[batch.pk]]
            one.powders = [
                event
                for event in books.events_until(coat.bucket_id, coat.at)
                if event.kind == BucketEventKind.POWDER_IN
            ]
            one.reading = books.reading_at(coat.bucket_id, coat.at)
            one.solid = books.solid_at(coat.bucket_id, coat.at)
        told.append(one)
    placing = firings_of_pots(member, [pot.pk]).get(pot.pk)
    cones: list[ConeReading] = []
    if placing is not None and placing.place is not None:
        firing_id = str(placing.firing_id)
        cones = cones_of_firings([firing_id]).get((firing_id, placing.place.level), [])
    return Story(pot, told, _small(pot), placing, cones, verdicts_of(pot))


def summary(story: Story) -> str:
    """Say a pot in one line."""
    parts = []
    for told in story.coats:
        glaze = told.coat.bucket.glaze if told.coat.bucket else told.coat.glaze
        own = [b for b in told.batches if glaze is not None and b.recipe.glaze_id == glaze.pk]
        name = glaze.name if glaze else _("a glaze")
        numbers = " + ".join(str(b.number) for b in own)
        batch = " " + _("(batch %s)") % numbers if own else ""
        parts.append(f"{name} {told.coat.get_side_display()}{batch}")
    return ", ".join(dict.fromkeys(parts))
