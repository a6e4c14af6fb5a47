"""Glazes, their recipe versions, batches, buckets and what happened to them."""

from datetime import datetime
from typing import ClassVar

from django.db import models
from django.db.models import CheckConstraint, Q

from wareboard.records.people.entry import Entry, MeasuredLine, Measurement, Part
from wareboard.records.people.limits import between, one_of, unique_while_standing
from wareboard.records.stores.models import Lot, Material


class Glaze(Entry):
    """A glaze by name: what all versions of its recipe have in common."""

    name = models.CharField(max_length=120, help_text="What the potter calls it.")
    character = models.CharField(
        max_length=300, blank=True, help_text="What it is like, in the potter's words."
    )
    swatch = models.CharField(
        max_length=7, default="#a9a79c", help_text="Its colour in drawings, as #rrggbb."
    )
    runs_above_mm = models.FloatField(
        null=True, blank=True, help_text="Dry thickness above which it ran before [mm]."
    )

    # Worked out by queries.glazes_for, where a page asks for it.
    sort_name: str

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_glaze"
        constraints: ClassVar = [between("glaze", "runs_above_mm", 0.01, 20)]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Recipe(Entry):
    """One version of a glaze's recipe; a change makes the next version."""

    glaze = models.ForeignKey(
        Glaze, on_delete=models.PROTECT, related_name="recipes", help_text="Of which glaze."
    )
    version = models.PositiveSmallIntegerField(help_text="Number of the version, from 1.")
    base = models.ForeignKey(
        Glaze,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="children",
        help_text="The base that this recipe adds to, a hundred parts of it.",
    )
    why = models.CharField(max_length=300, blank=True, help_text="Why this version was made.")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_recipe"
        constraints: ClassVar = [
            unique_while_standing("recipe", "glaze", "version"),
            CheckConstraint(
                condition=Q(base__isnull=True) | ~Q(base=models.F("glaze")),
                name="recipe_not_own_base",
            ),
        ]

    def __str__(self) -> str:
        """Give glaze and version."""
        return f"{self.glaze}, version {self.version}"


class RecipeLine(Part):
    """One material of a recipe, in parts as typed."""

    recipe = models.ForeignKey(
        Recipe, on_delete=models.CASCADE, related_name="lines", help_text="Of which recipe."
    )
    material = models.ForeignKey(
        Material, on_delete=models.PROTECT, related_name="+", help_text="Which material."
    )
    parts = models.FloatField(help_text="Parts by weight, as typed.")
    addition = models.BooleanField(
        default=False, help_text="Whether it comes on top of the hundred."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_recipe_line"
        constraints: ClassVar = [between("recipe_line", "parts", 0, 1e6)]

    def __str__(self) -> str:
        """Give material and parts."""
        return f"{self.material} {self.parts}"


class Bucket(Entry):
    """A bucket on the floor, known by the glaze in it."""

    glaze = models.ForeignKey(
        Glaze, on_delete=models.PROTECT, related_name="buckets", help_text="Which glaze."
    )
    name = models.CharField(max_length=80, help_text="What is written on it.")
    bottle_empty_g = models.FloatField(
        null=True, blank=True, help_text="Weight of the empty bottle used to weigh its slop [g]."
    )
    bottle_ml = models.FloatField(
        null=True,
        blank=True,
        help_text="What that bottle holds, by weighing it full of water [ml].",
    )

    # Worked out by queries.buckets_for and buckets_as_they_stand, where a page asks for them.
    last_batch_id: str | None
    stirred_at: datetime | None
    used_at: datetime
    begun_as: str | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_bucket"
        constraints: ClassVar = [
            between("bucket", "bottle_empty_g", 0, 1e5),
            between("bucket", "bottle_ml", 1, 1e5),
        ]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Batch(Entry):
    """A recipe mixed on one day, from these lots."""

    recipe = models.ForeignKey(
        Recipe, on_delete=models.PROTECT, related_name="batches", help_text="Which version."
    )
    number = models.PositiveIntegerField(help_text="Number of the batch of this glaze.")
    drawn_from = models.ForeignKey(
        "Batch",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="drawn",
        help_text="The base batch it was drawn from, with all its lots.",
    )
    drawn_wet_g = models.FloatField(
        null=True, blank=True, help_text="Wet slop of the base that was drawn off, net [g]."
    )
    drawn_sg = models.FloatField(null=True, blank=True, help_text="Specific gravity of that slop.")
    note = models.TextField(max_length=2000, blank=True, help_text="Anything else.")

    # What batch_with_base adds.
    weighed_g: float | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_batch"
        constraints: ClassVar = [
            between("batch", "drawn_wet_g", 0.1, 1e7),
            between("batch", "drawn_sg", 1.001, 3),
        ]

    def __str__(self) -> str:
        """Give glaze and number."""
        return f"{self.recipe.glaze} batch {self.number}"


class BatchLine(MeasuredLine):
    """What went into a batch: the lot and the grams on the scale."""

    batch = models.ForeignKey(
        Batch, on_delete=models.PROTECT, related_name="lines", help_text="Of which batch."
    )
    material = models.ForeignKey(
        Material, on_delete=models.PROTECT, related_name="+", help_text="Which material."
    )
    lot = models.ForeignKey(
        Lot,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="batch_lines",
        help_text="Which bag.",
    )
    weighed_g = models.FloatField(null=True, blank=True, help_text="What the scale said [g].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_batch_line"
        constraints: ClassVar = [between("batch_line", "weighed_g", 0, 1e7)]

    def __str__(self) -> str:
        """Give material and lot."""
        return f"{self.material} {self.lot.label if self.lot else '?'}"


class BucketEventKind(models.TextChoices):
    """What was done."""

    FILLED = "filled", "filled afresh"
    TOPPED_UP = "topped up", "topped up"
    WATER_IN = "water in", "water added"
    WATER_OFF = "water off", "clear water taken off"
    POWDER_IN = "powder in", "powder added"
    DRAWN = "drawn", "slop drawn off"
    EMPTIED = "emptied", "emptied"


class BucketEvent(Measurement):
    """What was done to a bucket: filled, topped up, watered, drawn from."""

    bucket = models.ForeignKey(
        Bucket,
        on_delete=models.PROTECT,
        related_name="events",
        db_index=False,
        help_text="Which bucket.",
    )
    kind = models.CharField(max_length=10, choices=BucketEventKind, help_text="What was done.")
    batch = models.ForeignKey(
        Batch,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="bucket_events",
        help_text="The batch that was poured in.",
    )
    lot = models.ForeignKey(
        Lot,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="The powder that was added.",
    )
    amount_ml = models.FloatField(null=True, blank=True, help_text="Water or slop [ml].")
    amount_g = models.FloatField(
        null=True, blank=True, help_text="Powder, or wet slop by weight [g]."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_bucket_event"
        constraints: ClassVar = [
            one_of("bucket_event", "kind", BucketEventKind),
            between("bucket_event", "amount_ml", 0, 1e7),
            between("bucket_event", "amount_g", 0, 1e7),
            CheckConstraint(
                condition=Q(batch__isnull=False) | ~Q(kind__in=["filled", "topped up"]),
                name="bucket_event_filling_has_batch",
            ),
        ]
        indexes: ClassVar = [models.Index(fields=["bucket", "at"], name="bucket_event_in_order")]

    def __str__(self) -> str:
        """Give bucket and what was done."""
        return f"{self.bucket}: {self.kind}"


class ReadingFlow(models.TextChoices):
    """How the slop hangs; density does not tell."""

    UNKNOWN = "", "not said"
    RUNNY = "runny", "runny"
    USUAL = "as usual", "as usual"
    GELLED = "gelled", "gelled"


class Reading(Measurement):
    """A weighed volume of slop, and how full the bucket was."""

    bucket = models.ForeignKey(
        Bucket,
        on_delete=models.PROTECT,
        related_name="readings",
        db_index=False,
        help_text="Which bucket.",
    )
    full_g = models.FloatField(help_text="Full bottle on the scale [g].")
    empty_g = models.FloatField(help_text="The same bottle empty [g].")
    volume_ml = models.FloatField(help_text="What it holds [ml].")
    in_bucket_l = models.FloatField(
        null=True, blank=True, help_text="Slop in the bucket, by its tide line [l]."
    )
    flow = models.CharField(
        max_length=8,
        choices=ReadingFlow,
        blank=True,
        default=ReadingFlow.UNKNOWN,
        help_text="How it hangs, in words.",
    )

    # Worked out by the shelf's newest_and_good_readings, for pages that ask for it.
    changed_as: str | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_reading"
        constraints: ClassVar = [
            between("reading", "full_g", 0.1, 1e6),
            between("reading", "empty_g", 0, 1e6),
            between("reading", "volume_ml", 1, 1e5),
            between("reading", "in_bucket_l", 0, 1e4),
            one_of("reading", "flow", ReadingFlow),
            CheckConstraint(
                condition=Q(full_g__gt=models.F("empty_g")), name="reading_full_over_empty"
            ),
        ]
        indexes: ClassVar = [models.Index(fields=["bucket", "at"], name="reading_in_order")]

    def __str__(self) -> str:
        """Give bucket and weight."""
        return f"{self.bucket}: {self.full_g} g"
