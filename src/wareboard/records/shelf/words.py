"""The words of the shelf: how it came out, and what is wrong with it."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class Surface(models.TextChoices):
    """What was judged."""

    INSIDE = "inside", _("inside")
    OUTSIDE = "outside", _("outside")
    WHOLE = "whole", _("the whole pot")


class Thumb(models.TextChoices):
    """Good, so-so or bad."""

    UP = "up", _("good")
    SIDEWAYS = "sideways", _("so-so")
    DOWN = "down", _("bad")


class FaultWord(models.TextChoices):
    """Faults, in words of the trade."""

    PINHOLE = "pinhole", _("pinholes")
    CRATER = "crater", _("craters")
    BLISTER = "blister", _("blisters")
    CRAWL = "crawl", _("crawled")
    RUN = "run", _("ran")
    STUCK = "stuck", _("stuck to the shelf")
    CRAZE = "craze", _("crazed")
    SHIVER = "shiver", _("shivered")
    CLOUDY = "cloudy", _("cloudy")
    STONY = "stony", _("stony")
    PALE = "pale", _("pale")
    DULL = "dull", _("dull")
    DRY = "dry", _("dry")
    SPECKS = "specks", _("specks")
    SCUM = "scum", _("scum")
    UNDERFIRED = "underfired", _("underfired")
    OVERFIRED = "overfired", _("overfired")
    CRACK = "crack", _("cracked")
    DUNT = "dunt", _("dunted")
    BLOAT = "bloat", _("bloated")
    BLACK_CORE = "black core", _("black core")
    BURST = "burst", _("burst")
    WARPED = "warped", _("warped")


OF_THE_CLAY = {
    FaultWord.CRACK,
    FaultWord.DUNT,
    FaultWord.BLOAT,
    FaultWord.BLACK_CORE,
    FaultWord.BURST,
    FaultWord.WARPED,
}
"""Faults that say nothing about what is in a bucket."""
