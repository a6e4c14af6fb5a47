"""Verdicts by surface, and the faults they name."""

from typing import ClassVar

from django.db import models

from wareboard.records.people.entry import Entry, Measurement, Part
from wareboard.records.people.limits import between, one_of
from wareboard.records.pictures.models import Original
from wareboard.records.ware.models import Hope, Pot

from .words import FaultWord, Surface, Thumb


class Verdict(Measurement):
    """How one surface of a pot came out."""

    pot = models.ForeignKey(
        Pot, on_delete=models.PROTECT, related_name="verdicts", help_text="Which pot."
    )
    surface = models.CharField(max_length=8, choices=Surface, help_text="Which surface.")
    thumb = models.CharField(max_length=8, choices=Thumb, help_text="Good, so-so or bad.")
    words = models.CharField(max_length=300, blank=True, help_text="What it is like, in words.")
    photo = models.ForeignKey(
        Original,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        help_text="Photo of it.",
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_verdict"
        constraints: ClassVar = [
            one_of("verdict", "surface", Surface),
            one_of("verdict", "thumb", Thumb),
        ]
        indexes: ClassVar = [models.Index(fields=["-at"], name="verdict_newest")]

    def __str__(self) -> str:
        """Give surface and thumb."""
        return f"{self.surface}: {self.thumb}"


class Fault(Part):
    """One fault that a verdict names."""

    verdict = models.ForeignKey(
        Verdict, on_delete=models.CASCADE, related_name="faults", help_text="Of which verdict."
    )
    word = models.CharField(max_length=12, choices=FaultWord, help_text="Which fault.")
    where = models.CharField(max_length=120, blank=True, help_text="Where on the pot.")
    amount_mm = models.FloatField(null=True, blank=True, help_text="How far or how large [mm].")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_fault"
        constraints: ClassVar = [
            one_of("fault", "word", FaultWord),
            between("fault", "amount_mm", 0, 1000),
        ]

    def __str__(self) -> str:
        """Give the word."""
        return self.word


class HopeAnswer(Entry):
    """What became of a hope or a fear."""

    hope = models.ForeignKey(
        Hope, on_delete=models.PROTECT, related_name="answers", help_text="Which hope or fear."
    )
    came_true = models.BooleanField(help_text="Whether it came true.")

    class Meta:
        """Table."""

        db_table = "wareboard_hope_answer"
