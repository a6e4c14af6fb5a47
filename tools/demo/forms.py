"""Shapes that the demo's pottery makes again and again: outline, wall, usual dry weight.

Lids, handles and lugs are not in the outline but are in the weight.
"""

from dataclasses import dataclass

from demo.ledger import Ledger, when

Outline = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Shape:
    """A form: its name, dry wall [mm], bone-dry weight [g] and outline from foot to rim [cm]."""

    name: str
    wall_mm: float
    dry_g: float
    outline: Outline


SHAPES = {
    "butter-dish": Shape(
        "butter dish, lidded", 7.5, 900, ((5.6, 0), (7.4, 1.2), (8.2, 3.5), (8.4, 6.5))
    ),
    "jug": Shape(
        "jug, 1 l",
        7.5,
        1100,
        ((4.6, 0), (5.9, 2), (6.5, 5.5), (6.0, 10), (4.7, 14), (4.9, 16), (5.4, 17.5)),
    ),
    "pie-dish": Shape("pie dish", 8.5, 1300, ((9.6, 0), (11.0, 1.2), (12.2, 3.5), (13.0, 6.0))),
    "salt-pig": Shape(
        "salt pig", 6.5, 700, ((4.4, 0), (5.7, 2), (6.2, 5), (5.8, 8.5), (4.6, 11.0), (3.9, 12.2))
    ),
    "oil-bottle": Shape(
        "oil bottle",
        6.0,
        650,
        (
            (3.7, 0),
            (4.6, 2),
            (4.9, 6),
            (4.6, 11),
            (3.2, 14.5),
            (1.7, 16.5),
            (1.5, 19.5),
            (1.9, 20.2),
        ),
    ),
    "colander-bowl": Shape(
        "colander bowl", 8.0, 1200, ((4.6, 0), (7.4, 1.6), (10.2, 4.5), (11.6, 7.5), (12.0, 9.8))
    ),
    "egg-baker": Shape("egg baker", 7.0, 450, ((5.2, 0), (6.6, 1.0), (7.2, 2.8), (7.3, 4.6))),
    "honey-jar": Shape(
        "honey jar",
        6.5,
        600,
        ((4.2, 0), (5.2, 1.5), (5.7, 4.5), (5.5, 8), (4.7, 10.2), (4.6, 11.6)),
    ),
    "soup-bowl": Shape(
        "soup bowl, lugs", 7.0, 550, ((3.6, 0), (5.4, 1.4), (7.0, 3.8), (7.8, 6.2), (8.0, 7.4))
    ),
    "planter": Shape("planter", 8.0, 1500, ((6.6, 0), (7.4, 2), (8.6, 8), (9.4, 14), (9.6, 16))),
    "candle-holder": Shape(
        "candle holder", 7.0, 400, ((4.0, 0), (4.6, 1.5), (4.4, 4.5), (3.6, 7), (3.8, 9.5))
    ),
    "casserole": Shape(
        "casserole, lidded", 8.0, 1800, ((8.6, 0), (10.4, 1.6), (11.2, 5), (11.2, 8), (11.0, 9.6))
    ),
    "mug": Shape("mug", 5.0, 280, ((3.2, 0), (4.1, 1.2), (4.3, 4), (4.1, 8), (4.2, 9.6))),
    "beaker": Shape("beaker", 5.0, 225, ((2.9, 0), (3.5, 1), (3.8, 5), (4.1, 9.5))),
    "cereal-bowl": Shape("cereal bowl", 6.0, 330, ((3.4, 0), (5.2, 1.4), (6.8, 3.6), (7.6, 6))),
    "egg-cup": Shape("egg cup", 4.5, 75, ((2.0, 0), (2.1, 1.0), (1.6, 2.2), (2.4, 4), (2.6, 6))),
    "bud-vase": Shape(
        "bud vase", 5.0, 225, ((2.8, 0), (3.7, 2), (3.8, 5), (2.4, 8.5), (1.5, 10.5), (1.8, 12))
    ),
    "garden-pot": Shape("garden pot", 8.0, 820, ((5.2, 0), (5.8, 2), (6.8, 7), (7.6, 12))),
    "test-tile": Shape("test tile", 5.0, 100, ((2.4, 0), (2.6, 1), (2.6, 3.5), (2.6, 6))),
}


def keep_forms(ledger: Ledger) -> None:
    """Write the forms with their outlines."""
    first = when("03-02 11:00")
    for form, shape in SHAPES.items():
        ledger.entry("forms", form, first, name=shape.name, wall_mm=shape.wall_mm)
        ledger.parts(
            "form_points",
            "form",
            form,
            ({"r_cm": float(r), "z_cm": float(z)} for r, z in shape.outline),
        )
