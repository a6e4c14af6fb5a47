"""Forms, boards, pots, weighings, coats, decoration, marks, hopes, the air."""

from typing import ClassVar

from django.db import models
from django.db.models import CheckConstraint, Q

from wareboard.records.glazes.models import Bucket, Glaze
from wareboard.records.people.entry import Entry, Measurement, Part
from wareboard.records.people.limits import between, one_of
from wareboard.records.pictures.models import Original
from wareboard.records.stores.models import Lot, Material

from .words import (
    AirWord,
    DecorationKind,
    Dryness,
    Extent,
    HopeKind,
    How,
    MarkKind,
    Side,
    WeighingState,
)


class Form(Entry):
    """A shape that is made again and again."""

    name = models.CharField(max_length=120, help_text="What the potter calls it.")
    wall_mm = models.FloatField(null=True, blank=True, help_text="Thickness of the dry wall [mm].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_form"
        constraints: ClassVar = [between("form", "wall_mm", 0.5, 100)]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class FormPoint(Part):
    """One point of a form's outline, foot to rim, outside."""

    form = models.ForeignKey(
        Form, on_delete=models.CASCADE, related_name="points", help_text="Of which form."
    )
    r_cm = models.FloatField(help_text="Distance from the middle [cm].")
    z_cm = models.FloatField(help_text="Height above the foot [cm].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_form_point"
        constraints: ClassVar = [
            between("form_point", "r_cm", 0, 200),
            between("form_point", "z_cm", 0, 300),
        ]

    def __str__(self) -> str:
        """Give the point."""
        return f"{self.r_cm}, {self.z_cm}"


class Board(Entry):
    """A named plank on which pots stand."""

    name = models.CharField(max_length=80, help_text="What it is called.")
    tare_g = models.FloatField(null=True, blank=True, help_text="The empty plank on the scale [g].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_board"
        constraints: ClassVar = [between("board", "tare_g", 0, 1e6)]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Pot(Entry):
    """One pot, or one test piece."""

    name = models.CharField(
        max_length=120, blank=True, help_text="What it is called; its form where empty."
    )
    form = models.ForeignKey(
        Form,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="pots",
        help_text="Which form.",
    )
    clay = models.ForeignKey(
        Material,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="Which clay body.",
    )
    test_piece = models.BooleanField(default=False, help_text="Whether it is a tile or a test.")
    whose = models.CharField(
        max_length=80, blank=True, help_text="Whose pot it is, where not the pottery's."
    )
    foot_gap_mm = models.FloatField(
        null=True, blank=True, help_text="From the glaze line down to the shelf [mm]."
    )
    note = models.TextField(max_length=2000, blank=True, help_text="Anything else.")

    class Meta:
        """Table, constraints, and the index that lists need."""

        db_table = "wareboard_pot"
        constraints: ClassVar = [between("pot", "foot_gap_mm", 0, 1000)]
        indexes: ClassVar = [models.Index(fields=["-at"], name="pot_newest")]

    def __str__(self) -> str:
        """Give its name."""
        return self.name


class PotPhoto(Entry):
    """A photo of a pot."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="photos", help_text="Which pot."
    )
    original = models.ForeignKey(
        Original, on_delete=models.PROTECT, related_name="+", help_text="Which photo."
    )

    class Meta:
        """Table."""

        db_table = "wareboard_pot_photo"


class Standing(Entry):
    """A pot stands on a board from now on; on none where the board is empty."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="standings", help_text="Which pot."
    )
    board = models.ForeignKey(
        Board,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="standings",
        help_text="Which board.",
    )

    # Worked out for the page of a load: whether the pot may go in.
    waits: bool

    class Meta:
        """Table."""

        db_table = "wareboard_standing"


class BoardWeighing(Measurement):
    """A board weighed with all that stands on it."""

    board = models.ForeignKey(
        Board, on_delete=models.PROTECT, related_name="weighings", help_text="Which board."
    )
    weight_g = models.FloatField(help_text="Plank and pots together [g].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_board_weighing"
        constraints: ClassVar = [between("board_weighing", "weight_g", 1, 1e6)]


class Weighing(Measurement):
    """A pot on the scale."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="weighings", help_text="Which pot."
    )
    weight_g = models.FloatField(help_text="What the scale said [g].")
    state = models.CharField(
        max_length=20, choices=WeighingState, help_text="What state the pot was in."
    )

    # Worked out for the page before lighting: how many stood on the scale together.
    on_pan: int | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_weighing"
        constraints: ClassVar = [
            between("weighing", "weight_g", 0.1, 1e6),
            one_of("weighing", "state", WeighingState),
        ]
        indexes: ClassVar = [models.Index(fields=["-at"], name="weighing_newest")]

    def __str__(self) -> str:
        """Give weight and state."""
        return f"{self.weight_g} g, {self.state}"


class Coat(Measurement):
    """One coat of glaze on a pot, in the order they were put on."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="coats", help_text="On which pot."
    )
    bucket = models.ForeignKey(
        Bucket,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="coats",
        db_index=False,
        help_text="From which bucket.",
    )
    glaze = models.ForeignKey(
        Glaze,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="Which glaze, where the bucket is not known.",
    )
    side = models.CharField(max_length=8, choices=Side, help_text="Which side of the wall.")
    extent = models.CharField(
        max_length=15, choices=Extent, default=Extent.WHOLE, help_text="How far it goes."
    )
    how = models.CharField(
        max_length=8, choices=How, default=How.DIPPED, help_text="How it was put on."
    )
    seconds = models.FloatField(null=True, blank=True, help_text="How long it was in the slop [s].")
    before_g = models.FloatField(null=True, blank=True, help_text="Pot just before [g].")
    after_g = models.FloatField(null=True, blank=True, help_text="Pot just after, dripped off [g].")
    dried_g = models.FloatField(
        null=True,
        blank=True,
        help_text="Pot when as dry as it was just before, where that is so [g].",
    )
    lip_cm = models.FloatField(null=True, blank=True, help_text="For a lip: how deep [cm].")
    beneath = models.CharField(
        max_length=20,
        choices=Dryness,
        blank=True,
        default=Dryness.UNKNOWN,
        help_text="How dry the pot, or the coat beneath, felt.",
    )
    like = models.ForeignKey(
        "Coat",
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="likened",
        help_text="The coat that was weighed in its stead, on a pot of the same board.",
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_coat"
        constraints: ClassVar = [
            one_of("coat", "side", Side),
            one_of("coat", "extent", Extent),
            one_of("coat", "how", How),
            one_of("coat", "beneath", Dryness),
            between("coat", "seconds", 0, 600),
            between("coat", "before_g", 0.1, 1e6),
            between("coat", "after_g", 0.1, 1e6),
            between("coat", "dried_g", 0.1, 1e6),
            between("coat", "lip_cm", 0.1, 100),
            CheckConstraint(
                condition=Q(bucket__isnull=False, glaze__isnull=True)
                | Q(bucket__isnull=True, glaze__isnull=False),
                name="coat_bucket_or_glaze",
            ),
            CheckConstraint(
                condition=Q(before_g__isnull=True)
                | Q(after_g__isnull=True)
                | Q(after_g__gte=models.F("before_g")),
                name="coat_after_not_lighter",
            ),
        ]
        indexes: ClassVar = [
            models.Index(fields=["-at"], name="coat_newest"),
            models.Index(fields=["bucket", "at"], name="coat_from_bucket"),
        ]

    def __str__(self) -> str:
        """Give side and extent."""
        return f"{self.side}, {self.extent}"


class Decoration(Entry):
    """Resist, brush, band, sprinkle, trail, cut or inlay."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="decorations", help_text="On which pot."
    )
    kind = models.CharField(max_length=10, choices=DecorationKind, help_text="What was done.")
    lot = models.ForeignKey(
        Lot,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="With which lot.",
    )
    found = models.BooleanField(default=False, help_text="Whether it was found, not bought.")
    what = models.CharField(max_length=120, blank=True, help_text="With what, in words.")
    fineness = models.CharField(max_length=60, blank=True, help_text="How fine, in words.")
    where = models.CharField(max_length=120, blank=True, help_text="Where on the pot.")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_decoration"
        constraints: ClassVar = [one_of("decoration", "kind", DecorationKind)]


class Mark(Entry):
    """What a hand did to the raw coat."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="marks", help_text="On which pot."
    )
    kind = models.CharField(max_length=10, choices=MarkKind, help_text="What was done.")
    meant = models.BooleanField(null=True, blank=True, help_text="Whether it was meant.")
    where = models.CharField(max_length=120, blank=True, help_text="Where on the pot.")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_mark"
        constraints: ClassVar = [one_of("mark", "kind", MarkKind)]


class Hope(Entry):
    """What is hoped or feared of a pot; asked back at the opening."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="hopes", help_text="Of which pot."
    )
    kind = models.CharField(
        max_length=6, choices=HopeKind, default=HopeKind.HOPED, help_text="Hoped or feared."
    )
    words = models.CharField(max_length=300, blank=True, help_text="In one line.")
    spoken = models.ForeignKey(
        Original,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="As a spoken note.",
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_hope"
        constraints: ClassVar = [
            one_of("hope", "kind", HopeKind),
            CheckConstraint(
                condition=~Q(words="") | Q(spoken__isnull=False), name="hope_says_something"
            ),
        ]


class Air(Entry):
    """The day's air in one tap; the hygrometer where there is one."""

    word = models.CharField(max_length=8, choices=AirWord, help_text="How it feels.")
    rh_percent = models.FloatField(
        null=True, blank=True, help_text="Relative humidity on the hygrometer [%]."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_air"
        constraints: ClassVar = [
            one_of("air", "word", AirWord),
            between("air", "rh_percent", 1, 100),
        ]
        indexes: ClassVar = [models.Index(fields=["-at"], name="air_newest")]
