"""The words of the ware room: what can be tapped, and what it is called."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class Side(models.TextChoices):
    """Which side of the wall."""

    INSIDE = "inside", _("inside")
    OUTSIDE = "outside", _("outside")
    BOTH = "both", _("inside and outside")


class Extent(models.TextChoices):
    """How far a coat goes."""

    WHOLE = "whole", _("all of it")
    LIP = "lip", _("the lip")
    BELOW_LIP = "below the lip", _("below the lip")
    FOOT = "foot", _("the foot")


class How(models.TextChoices):
    """How a coat was put on."""

    DIPPED = "dipped", _("dipped")
    POURED = "poured", _("poured")
    BRUSHED = "brushed", _("brushed")
    SPRAYED = "sprayed", _("sprayed")


class Dryness(models.TextChoices):
    """How dry the pot, or the coat beneath, felt."""

    UNKNOWN = "", _("not said")
    SOFT = "soft leather-hard", _("soft leather-hard")
    STIFF = "stiff leather-hard", _("stiff leather-hard")
    TURNING = "just turning pale", _("just turning pale")
    BONE_DRY = "bone dry", _("bone dry")


class WeighingState(models.TextChoices):
    """What state the pot was in when it was weighed."""

    PLASTIC = "plastic", _("freshly thrown")
    LEATHER_HARD = "leather-hard", _("leather-hard")
    SHELF_DRY = "dry on the shelf", _("white-dry on the shelf")
    BONE_DRY = "bone dry", _("bone dry, warm from the tray")
    GLAZED = "glazed", _("glazed, drying")
    BEFORE_PROOF = "before the proof", _("before two hours at about 50 °C")
    AFTER_PROOF = "after the proof", _("after two hours at about 50 °C")
    PAN_BEFORE = "before on a pan", _("with others, before two hours at about 50 °C")
    PAN_AFTER = "after on a pan", _("with others, after two hours at about 50 °C")
    FIRED = "fired", _("fired")


RAW = (
    WeighingState.PLASTIC,
    WeighingState.LEATHER_HARD,
    WeighingState.SHELF_DRY,
    WeighingState.BONE_DRY,
    WeighingState.GLAZED,
    WeighingState.BEFORE_PROOF,
    WeighingState.AFTER_PROOF,
)
"""What a pot itself weighed before its firing."""

ON_A_PAN = (WeighingState.PAN_BEFORE, WeighingState.PAN_AFTER)
"""Where the scale said what several pots weigh together: never a pot's own weight."""


class DecorationKind(models.TextChoices):
    """What was drawn, put on or cut."""

    RESIST = "resist", _("resist")
    BRUSHED = "brushed", _("brushed")
    BANDED = "banded", _("banded")
    SPRINKLED = "sprinkled", _("sprinkled")
    TRAILED = "trailed", _("trailed")
    CUT = "cut", _("cut")
    INLAID = "inlaid", _("inlaid")


class MarkKind(models.TextChoices):
    """What a hand did to the raw coat."""

    RUBBED = "rubbed", _("rubbed down")
    TOUCHED_UP = "touched up", _("touched up")
    KISSED = "kissed", _("kissed another pot")
    BARE = "bare", _("left bare")


class HopeKind(models.TextChoices):
    """Whether something is hoped for or feared."""

    HOPED = "hoped", _("hoped")
    FEARED = "feared", _("feared")


class AirWord(models.TextChoices):
    """How the air feels today."""

    CRISP = "crisp", _("crisp")
    ORDINARY = "ordinary", _("ordinary")
    STICKY = "sticky", _("sticky")
    FOG = "fog", _("fog")


SAID_ALIKE = (
    ("jug", "pitcher"),
    ("biscuit", "bisque"),
    ("matt", "matte"),
    ("grey", "gray"),
    ("colour", "color"),
)
"""Words of the two countries for one thing, so that either finds it."""


def said_alike(text: str) -> tuple[str, ...]:
    """Give a word and what it is called on the other side of the water.

    Parameters
    ----------
    text : str
        What is searched for.
    """
    lowered = text.lower()
    found = [text]
    for pair in SAID_ALIKE:
        for said, other in (pair, pair[::-1]):
            if said in lowered:
                found.append(lowered.replace(said, other))
    return tuple(dict.fromkeys(found))
