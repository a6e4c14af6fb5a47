"""What is in a bucket: how heavy, how much of it powder, how many pots it does.

Specific gravity (SG) is weight against the weight of as much water; water is
1 g/ml. Everything here rests on Brongniart's formula and on one full bottle
on a scale.
"""

from wareboard.core.slop.bucket import (
    PotsLeft,
    Powder,
    Water,
    litres_in_bucket,
    pots_left,
    powder,
    water,
    water_for_batch,
)
from wareboard.core.slop.content import (
    Dose,
    SlopContent,
    check_sg,
    check_solid,
    dose,
    dry_fraction,
    sg_from_dry,
    slop,
)
from wareboard.core.slop.density import (
    BottleDensity,
    SlopWord,
    Thickness,
    density_from_bottle,
    dry_oz_per_imperial_pint,
    full_bottle,
    how_thick,
    pint_oz_from_sg,
    sg_from_pint_oz,
    sg_from_twaddell,
    twaddell_from_sg,
)

__all__ = [
    "BottleDensity",
    "Dose",
    "PotsLeft",
    "Powder",
    "SlopContent",
    "SlopWord",
    "Thickness",
    "Water",
    "check_sg",
    "check_solid",
    "density_from_bottle",
    "dose",
    "dry_fraction",
    "dry_oz_per_imperial_pint",
    "full_bottle",
    "how_thick",
    "litres_in_bucket",
    "pint_oz_from_sg",
    "pots_left",
    "powder",
    "sg_from_dry",
    "sg_from_pint_oz",
    "sg_from_twaddell",
    "slop",
    "twaddell_from_sg",
    "water",
    "water_for_batch",
]
