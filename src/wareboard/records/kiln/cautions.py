"""Cautions beside a kiln: short, and each deferring to local codes and licensed practice.

Sources
-------
What is usual practice among potters and what codes for kilns ask for: exposure
limits and clearances are left to the local rule, which comes first.
"""

from django.utils.translation import gettext_lazy as _

GAS = _(
    "Gas: bottles outdoors, a shut-off on every burner that nobody watches. Pipes and regulators "
    "are for a licensed fitter, and your local gas code comes first."
)
CARBON_MONOXIDE = _(
    "A kiln in reduction gives off carbon monoxide, which nobody smells. Keep vents open and an "
    "alarm that works where people are, and fire away from living rooms."
)
EYES = _(
    "Never look into the spy-hole with bare eyes: wear glasses made for furnaces. Sunglasses do "
    "not stop the heat rays."
)
HOT = _(
    "A kiln burns for a day after it is off: keep people, gas hoses and anything that burns at "
    "the distance your local code asks for."
)
RELIGHT = _(
    "If the flame goes out, shut the gas and air the kiln before you light it again. Hold to the "
    "burner’s own instructions."
)
OPENING = _(
    "Not before it is below 100 °C inside: cold air cracks hot pots and burns hands. Your own "
    "usual practice and the kiln maker’s manual come first."
)

LIGHTING = (GAS, CARBON_MONOXIDE, RELIGHT)
FIRING = (EYES, CARBON_MONOXIDE, RELIGHT)
ALL = (GAS, CARBON_MONOXIDE, RELIGHT, EYES, HOT, OPENING)
