"""The words of the kiln room."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class Level(models.TextChoices):
    """Which shelf."""

    TOP = "top", _("top")
    MIDDLE = "middle", _("middle")
    BOTTOM = "bottom", _("bottom")


class Fuel(models.TextChoices):
    """What the kiln burns."""

    PROPANE = "propane", _("propane")
    NATURAL_GAS = "natural gas", _("natural gas")
    ELECTRIC = "electric", _("electricity")
    WOOD = "wood", _("wood")
    OIL = "oil", _("oil")


class Flame(models.TextChoices):
    """How the flame looks at spy-hole and flue."""

    UNKNOWN = "", _("not said")
    CLEAR = "clear", _("clear")
    SOFT = "soft", _("soft")
    LICKING = "licking", _("licking")
    FULL = "full", _("full")
    SMOKY = "smoky", _("smoky")


REDUCING: frozenset[str] = frozenset({Flame.LICKING, Flame.FULL, Flame.SMOKY})


class MomentKind(models.TextChoices):
    """What happened once in a firing."""

    CANDLE = "candle", _("candle lit")
    SEALED = "sealed", _("door sealed")
    SHUT_OFF = "shut off", _("shut off")
    OPENED = "opened", _("opened")


class ConeSeries(models.TextChoices):
    """Which cones stand in the pack."""

    SELF_SUPPORTING = "self-supporting", _("self-supporting")
    LARGE = "large", _("large")
    IRON_FREE = "iron-free self-supporting", _("iron-free, self-supporting")
    IRON_FREE_LARGE = "iron-free large", _("iron-free, large")
