"""What a dry coat melts to.

The powder of the coat becomes a layer of glass that has lost its gases and
closed its pores: about half as thick.

Sources
-------
[Sankey]_ measured one coat dry and fired. Packing and density of the glass
are general.

.. [Sankey] J. Sankey, "Pottery tips", johnsankey.ca/ptips.html.
"""

import math
from dataclasses import dataclass, replace

from wareboard.core.answer import Answer
from wareboard.core.bounds import within
from wareboard.core.coat.weighed import (
    PACKING_DOUBT,
    PACKING_WHERE_NOT_KNOWN,
    SOLID_G_CM3_WHERE_NOT_KNOWN,
)
from wareboard.core.coat.words import check_coat_mm
from wareboard.core.doubt import around, together
from wareboard.core.errors import DensityError
from wareboard.core.slop.content import check_solid
from wareboard.core.units import LOI_PERCENT, PACKING, SOLID_G_CM3

GLASS_G_CM3 = 2.45
"""Density of a stoneware glass without bubbles (general)."""

GLASS_DOUBT = 0.10
"""Half width of that density (general) [g/cm3]."""

_LOI = replace(LOI_PERCENT, lowest=0.0, highest=99.0, words="per cent from 0 to 99, such as 9")


@dataclass(frozen=True)
class FiredCoat:
    """A dry coat after the fire.

    Attributes
    ----------
    fired_mm : float
        Thickness of the glass, if nothing ran and nothing soaked in [mm].
    ratio : float
        Fired over dry thickness.
    """

    fired_mm: float
    ratio: float


def fired_coat(
    coat_mm: float,
    *,
    loi_percent: float,
    solid: float = SOLID_G_CM3_WHERE_NOT_KNOWN,
    packing: float = PACKING_WHERE_NOT_KNOWN,
    glass_g_cm3: float = GLASS_G_CM3,
    bubbles: float = 0.0,
) -> Answer[FiredCoat]:
    """Thickness of the glass a dry coat melts to.

    Parameters
    ----------
    coat_mm : float
        Dry coat [mm].
    loi_percent : float
        What the glaze loses in the fire [% of its dry weight].
    solid : float
        Density of the powder [g/cm3].
    packing : float
        Share of the dry coat's volume that is powder [ratio].
    glass_g_cm3 : float
        Density of the glass [g/cm3].
    bubbles : float
        Share of the fired layer's volume that is gas [ratio].

    Returns
    -------
    Answer of FiredCoat
        Thickness and the ratio of fired to dry.

    Raises
    ------
    DensityError
        If a density, the packing, the loss or the bubbles cannot be.
    ShapeError
        If the coat cannot be.

    Notes
    -----
    ``fired / dry = packing d (1 - loss) / (d_glass (1 - bubbles))``; [Sankey]_
    measured 0.41 mm dry and 0.20 mm fired. Nothing runs and nothing soaks in.
    """
    check_coat_mm(coat_mm)
    within(loi_percent, _LOI, field="loi-percent", error=DensityError)
    check_solid(solid)
    within(packing, PACKING, field="packing", error=DensityError)
    within(
        glass_g_cm3,
        SOLID_G_CM3,
        field="glass-g-cm3",
        name="density of the glass",
        error=DensityError,
    )
    if not (math.isfinite(bubbles) and 0.0 <= bubbles < 1.0):
        raise DensityError(
            f"The share of bubbles cannot be {bubbles:g}: a number from 0 to below 1 would do.",
            field="bubbles",
            seen=bubbles,
            accepted="a number from 0 to below 1, such as 0.1",
        )
    ratio = packing * solid * (1.0 - loi_percent / 100.0) / (glass_g_cm3 * (1.0 - bubbles))
    share = together([PACKING_DOUBT / packing, GLASS_DOUBT / glass_g_cm3])
    basis = f"packing to {PACKING_DOUBT:g}, glass to {GLASS_DOUBT:g} g/cm3"
    return Answer(
        FiredCoat(coat_mm * ratio, ratio),
        doubt={
            "fired_mm": around(coat_mm * ratio, coat_mm * ratio * share, basis, lowest=0.0),
            "ratio": around(ratio, ratio * share, basis, lowest=0.0),
        },
        working=(
            f"{packing:g} x {solid:g} x (1 - {loi_percent:g} %) / {glass_g_cm3:g} = {ratio:.2f}.",
        ),
        cautions=("Reckoned as if nothing ran and nothing soaked into the wall.",),
        sources=("sankey",),
    )
