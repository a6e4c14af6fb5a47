"""How thick the raw glaze is: one dip on a scale, and the layers where they meet."""

from wareboard.core.coat.fired import FiredCoat, fired_coat
from wareboard.core.coat.layers import (
    Layer,
    LayerWarning,
    Place,
    RunRisk,
    Stack,
    layer_warning,
    stack,
)
from wareboard.core.coat.one_dip import most_of_one_dip_mm
from wareboard.core.coat.weighed import CoatWeighed, coat, coat_mm_from_g_dm2
from wareboard.core.coat.words import CoatWord, OwnBand, coat_words

__all__ = [
    "CoatWeighed",
    "CoatWord",
    "FiredCoat",
    "Layer",
    "LayerWarning",
    "OwnBand",
    "Place",
    "RunRisk",
    "Stack",
    "coat",
    "coat_mm_from_g_dm2",
    "coat_words",
    "fired_coat",
    "layer_warning",
    "most_of_one_dip_mm",
    "stack",
]
