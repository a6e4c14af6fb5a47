"""Kilns and places, loads and placings, firings with lines, cones and gas."""

from datetime import datetime
from typing import ClassVar

from django.db import models
from django.db.models import CheckConstraint, Q

from wareboard.records.people.entry import Entry, Measurement
from wareboard.records.people.limits import between, one_of, unique_while_standing
from wareboard.records.pictures.models import Original
from wareboard.records.ware.models import Pot

from .words import ConeSeries, Flame, Fuel, Level, MomentKind


class Kiln(Entry):
    """A kiln."""

    name = models.CharField(max_length=120, help_text="What it is called.")
    volume_l = models.FloatField(null=True, blank=True, help_text="Room inside [l].")
    fuel = models.CharField(
        max_length=12, choices=Fuel, default=Fuel.PROPANE, help_text="What it burns."
    )
    cones = models.CharField(
        max_length=30,
        choices=ConeSeries,
        default=ConeSeries.SELF_SUPPORTING,
        help_text="Which cones stand in it.",
    )
    end_cone = models.CharField(
        max_length=4, blank=True, help_text="The cone it is usually fired to."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_kiln"
        constraints: ClassVar = [
            between("kiln", "volume_l", 0.1, 1e6),
            one_of("kiln", "fuel", Fuel),
            one_of("kiln", "cones", ConeSeries),
        ]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Place(Entry):
    """A place in a kiln, as fine as the potter tells them apart."""

    kiln = models.ForeignKey(
        Kiln, on_delete=models.PROTECT, related_name="places", help_text="In which kiln."
    )
    level = models.CharField(max_length=6, choices=Level, help_text="Which shelf.")
    name = models.CharField(
        max_length=60, blank=True, help_text="Where on the shelf; empty for all of it."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_place"
        constraints: ClassVar = [
            one_of("place", "level", Level),
            unique_while_standing("place", "kiln", "level", "name"),
        ]

    def __str__(self) -> str:
        """Give level and name."""
        return f"{self.level} {self.name}".strip()


class Load(Entry):
    """What goes into the kiln together."""

    kiln = models.ForeignKey(
        Kiln, on_delete=models.PROTECT, related_name="loads", help_text="In which kiln."
    )
    name = models.CharField(
        max_length=80, blank=True, help_text="What it is called: Friday's load."
    )

    # Worked out by queries.loads_for, where a page asks for them.
    pots: int | None
    firing_id: str | None
    lit_at: datetime | None

    class Meta:
        """Table."""

        db_table = "wareboard_load"

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Placing(Entry):
    """A pot stands at a place in a load."""

    load = models.ForeignKey(
        Load, on_delete=models.PROTECT, related_name="placings", help_text="In which load."
    )
    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="placings", help_text="Which pot."
    )
    place = models.ForeignKey(
        Place,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="placings",
        help_text="Where.",
    )

    # Worked out by queries.firings_of_pots, where a page asks for them.
    firing_id: str
    firing_number: int
    lit_at: datetime
    reduction_c: float | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_placing"
        constraints: ClassVar = [unique_while_standing("placing", "load", "pot")]


class Firing(Entry):
    """One firing of a load; it happened when it was lit."""

    load = models.ForeignKey(
        Load, on_delete=models.PROTECT, related_name="firings", help_text="Of which load."
    )
    number = models.PositiveIntegerField(help_text="Number of the firing in this kiln.")
    weather = models.CharField(max_length=120, blank=True, help_text="Wind and weather, in words.")
    note = models.TextField(max_length=2000, blank=True, help_text="Anything else.")

    # Worked out by queries.timed_firings, where a page asks for them.
    shut_at: datetime | None
    opened_at: datetime | None

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_firing"
        constraints: ClassVar = [unique_while_standing("firing", "load")]
        indexes: ClassVar = [models.Index(fields=["-at"], name="firing_newest")]

    def __str__(self) -> str:
        """Give the number."""
        return f"firing {self.number}"


class GoodFiring(Entry):
    """From now on this is the good firing, the grey line behind every log."""

    firing = models.ForeignKey(
        Firing, on_delete=models.PROTECT, related_name="called_good", help_text="Which firing."
    )

    class Meta:
        """Table."""

        db_table = "wareboard_good_firing"


class Moment(Entry):
    """What happens once in a firing: candle, sealed, shut off, opened."""

    firing = models.ForeignKey(
        Firing, on_delete=models.PROTECT, related_name="moments", help_text="In which firing."
    )
    kind = models.CharField(max_length=10, choices=MomentKind, help_text="What happened.")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_moment"
        constraints: ClassVar = [
            one_of("moment", "kind", MomentKind),
            unique_while_standing("moment", "firing", "kind"),
        ]


class LogLine(Measurement):
    """One line of the firing log."""

    firing = models.ForeignKey(
        Firing,
        on_delete=models.PROTECT,
        related_name="lines",
        db_index=False,
        help_text="Of which firing.",
    )
    temp_c = models.FloatField(null=True, blank=True, help_text="Pyrometer [°C].")
    pressure_kpa = models.FloatField(
        null=True, blank=True, help_text="Gas pressure at the regulator [kPa]."
    )
    damper = models.FloatField(
        null=True, blank=True, help_text="Damper, in the kiln's own marks: open is more."
    )
    flame = models.CharField(
        max_length=8,
        choices=Flame,
        blank=True,
        default=Flame.UNKNOWN,
        help_text="How the flame looks.",
    )
    note = models.CharField(max_length=300, blank=True, help_text="Anything else.")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_log_line"
        constraints: ClassVar = [
            between("log_line", "temp_c", -60, 2000),
            between("log_line", "pressure_kpa", 0, 1000),
            between("log_line", "damper", 0, 1000),
            one_of("log_line", "flame", Flame),
        ]
        indexes: ClassVar = [models.Index(fields=["firing", "at"], name="log_line_in_order")]


class ConeReading(Measurement):
    """How one cone of a pack stood, as a clock hand sees it."""

    firing = models.ForeignKey(
        Firing, on_delete=models.PROTECT, related_name="cones", help_text="In which firing."
    )
    place = models.ForeignKey(
        Place,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="cones",
        help_text="Where the pack stood.",
    )
    cone = models.CharField(max_length=4, help_text="Which cone: 9, 010.")
    clock = models.FloatField(
        help_text="Where the tip pointed, as the hour on a clock: 12 is upright, 6 is flat."
    )
    when_cold = models.BooleanField(
        default=True, help_text="Read in the cold kiln, not through the spy-hole."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_cone_reading"
        constraints: ClassVar = [between("cone_reading", "clock", 0, 12)]


class FuelWeight(Measurement):
    """A gas cylinder on the scale."""

    firing = models.ForeignKey(
        Firing, on_delete=models.PROTECT, related_name="fuel_weights", help_text="In which firing."
    )
    cylinder = models.CharField(max_length=40, blank=True, help_text="Which cylinder.")
    gross_kg = models.FloatField(help_text="Cylinder with what is in it [kg].")
    tare_kg = models.FloatField(null=True, blank=True, help_text="The same cylinder empty [kg].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_fuel_weight"
        constraints: ClassVar = [
            between("fuel_weight", "gross_kg", 0.1, 5000),
            between("fuel_weight", "tare_kg", 0, 5000),
            CheckConstraint(
                condition=Q(tare_kg__isnull=True) | Q(gross_kg__gte=models.F("tare_kg")),
                name="fuel_weight_gross_over_tare",
            ),
        ]


class ShelfPhoto(Entry):
    """A photo of a shelf before anything was touched."""

    firing = models.ForeignKey(
        Firing, on_delete=models.PROTECT, related_name="shelf_photos", help_text="In which firing."
    )
    level = models.CharField(max_length=6, choices=Level, help_text="Which shelf.")
    original = models.ForeignKey(
        Original, on_delete=models.PROTECT, related_name="+", help_text="Which photo."
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_shelf_photo"
        constraints: ClassVar = [one_of("shelf_photo", "level", Level)]
