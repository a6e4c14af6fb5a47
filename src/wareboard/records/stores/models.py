"""Materials, what their sheets say, the lots that came in, and what is left."""

from datetime import datetime
from typing import ClassVar

from django.db import models
from django.db.models import CheckConstraint, Q

from wareboard.records.people.entry import Entry, Measurement, Part
from wareboard.records.people.limits import between, one_of
from wareboard.records.pictures.models import Original


class MaterialKind(models.TextChoices):
    """What it is in the workshop."""

    GLAZE = "glaze material", "glaze material"
    COLOURANT = "colourant", "colourant"
    CLAY = "clay body", "clay body"
    RESIST = "resist", "resist"
    FOUND = "found", "found"


class Material(Entry):
    """Something a potter buys, digs or burns, under the name he calls it."""

    name = models.CharField(max_length=120, help_text="What the potter calls it.")
    other_names = models.CharField(
        max_length=300, blank=True, help_text="Other names, with commas."
    )
    kind = models.CharField(
        max_length=15,
        choices=MaterialKind,
        default=MaterialKind.GLAZE,
        help_text="What it is in the workshop.",
    )
    library_id = models.CharField(
        max_length=60,
        blank=True,
        help_text="Row of the built-in table that stands in where no sheet is known.",
    )
    shrinkage_percent = models.FloatField(
        null=True, blank=True, help_text="For a clay body: wet to fired, on the wet length [%]."
    )

    # Worked out by queries.materials_for, where a page asks for it.
    sort_name: str

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_material"
        constraints: ClassVar = [
            one_of("material", "kind", MaterialKind),
            between("material", "shrinkage_percent", 0, 40),
        ]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class SheetStanding(models.TextChoices):
    """How far to believe it."""

    CERTIFIED = "certified", "certified"
    PUBLISHED = "published", "published"
    SUPPLIER = "supplier's sheet", "supplier's sheet"
    BURN_OFF = "own burn-off", "own burn-off"
    TYPICAL = "typical", "typical"
    THEORETICAL = "theoretical", "theoretical"


class Sheet(Measurement):
    """One analysis of a material: what it says and how far to believe it."""

    material = models.ForeignKey(
        Material, on_delete=models.PROTECT, related_name="sheets", help_text="Of which material."
    )
    standing = models.CharField(
        max_length=20, choices=SheetStanding, help_text="How far to believe it."
    )
    source = models.CharField(max_length=200, blank=True, help_text="Where it comes from.")
    loss_percent = models.FloatField(
        null=True, blank=True, help_text="Loss on ignition [% by weight]."
    )
    density_g_cm3 = models.FloatField(
        null=True, blank=True, help_text="Density of the dry powder [g/cm³]."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_sheet"
        constraints: ClassVar = [
            one_of("sheet", "standing", SheetStanding),
            between("sheet", "loss_percent", 0, 100),
            between("sheet", "density_g_cm3", 1.01, 20),
        ]

    def __str__(self) -> str:
        """Give material and standing."""
        return f"{self.material}: {self.standing}"


class SheetOxide(Part):
    """One oxide on a sheet."""

    sheet = models.ForeignKey(
        Sheet, on_delete=models.CASCADE, related_name="oxides", help_text="On which sheet."
    )
    oxide = models.CharField(max_length=8, help_text="Formula of the oxide, as SiO2.")
    percent = models.FloatField(help_text="Share of the material as weighed [% by weight].")
    doubt_percent = models.FloatField(
        null=True,
        blank=True,
        help_text="Standard deviation of the share, where the sheet gives one [% by weight].",
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_sheet_oxide"
        constraints: ClassVar = [
            between("sheet_oxide", "percent", 0, 110),
            between("sheet_oxide", "doubt_percent", 0, 100),
        ]

    def __str__(self) -> str:
        """Give oxide and share."""
        return f"{self.oxide} {self.percent}"


class LotContainer(models.TextChoices):
    """What it came in."""

    BAG = "bag", "bag"
    SACK = "sack", "sack"
    JAR = "jar", "jar"
    BIN = "bin", "bin"


class Lot(Entry):
    """One bag, sack or jar that came in."""

    material = models.ForeignKey(
        Material, on_delete=models.PROTECT, related_name="lots", help_text="Of which material."
    )
    label = models.CharField(
        max_length=60, help_text="How this lot is told from the next: A, B, a date."
    )
    container = models.CharField(
        max_length=4, choices=LotContainer, default=LotContainer.BAG, help_text="What it came in."
    )
    supplier = models.CharField(max_length=120, blank=True, help_text="Who sold it.")
    sheet = models.ForeignKey(
        Sheet,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="lots",
        help_text="Its own analysis; where empty it borrows its material's.",
    )
    fineness = models.CharField(max_length=60, blank=True, help_text="How fine, in words.")
    jar_kept = models.BooleanField(default=False, help_text="Whether a jar of it was put aside.")
    note = models.TextField(max_length=2000, blank=True, help_text="Anything else.")
    photo = models.ForeignKey(
        Original,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="Photo of the bag.",
    )

    # Worked out by queries.lots_for, where a page asks for them.
    left_g: float | None
    left_at: datetime | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_lot"
        constraints: ClassVar = [
            one_of("lot", "container", LotContainer),
            CheckConstraint(condition=~Q(label=""), name="lot_has_label"),
        ]

    def __str__(self) -> str:
        """Give material and label."""
        return f"{self.material} {self.label}"


class Count(Measurement):
    """How much of a lot is left."""

    lot = models.ForeignKey(
        Lot, on_delete=models.PROTECT, related_name="counts", help_text="Of which lot."
    )
    left_g = models.FloatField(help_text="What is left [g].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_count"
        constraints: ClassVar = [between("count", "left_g", 0, 1e8)]

    def __str__(self) -> str:
        """Give lot and amount."""
        return f"{self.lot}: {self.left_g} g"
