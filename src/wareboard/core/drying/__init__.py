"""Water in raw pots: what the room's air explains, and what must leave before lighting.

Nothing here says that a pot is safe. The best it says is go, with the slow
start below 100 degrees.
"""

from wareboard.core.drying.air import (
    AIR_NOT_KNOWN,
    Air,
    AirShare,
    AirWord,
    air_by_hygrometer,
    air_by_word,
    air_explains,
    air_share,
)
from wareboard.core.drying.dry_weight import (
    LEAST_LEATHER_HARD,
    DryWeight,
    Standing,
    beyond_form_g,
    dry_from_form,
    dry_from_plastic,
    dry_from_shelf,
    dry_from_tray,
    was_damp,
)
from wareboard.core.drying.lighting import SLOW_START, BeforeLighting, before_lighting, is_falling
from wareboard.core.drying.load import LoadStatement, load_statement
from wareboard.core.drying.proof import FEWEST_HOURS, Proof
from wareboard.core.drying.signs import PROVED, SLOW_START_C, NextWeighing, Sign

__all__ = [
    "AIR_NOT_KNOWN",
    "FEWEST_HOURS",
    "LEAST_LEATHER_HARD",
    "PROVED",
    "SLOW_START",
    "SLOW_START_C",
    "Air",
    "AirShare",
    "AirWord",
    "BeforeLighting",
    "DryWeight",
    "LoadStatement",
    "NextWeighing",
    "Proof",
    "Sign",
    "Standing",
    "air_by_hygrometer",
    "air_by_word",
    "air_explains",
    "air_share",
    "before_lighting",
    "beyond_form_g",
    "dry_from_form",
    "dry_from_plastic",
    "dry_from_shelf",
    "dry_from_tray",
    "is_falling",
    "load_statement",
    "was_damp",
]
