"""Glazes of the demo, their recipes, and the batches with the bags they came from."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from demo.ledger import Ledger, when
from demo.stores import COLOURANTS, FELDSPAR_DENSITY_G_CM3, GLAZE_MATERIALS
from wareboard.core.slop import dose
from wareboard.refdata import materials

# glaze, swatch, where it runs, character
GLAZES: tuple[tuple[str, str, str, float | None, str], ...] = (
    ("rill", "Rill", "#a9a79c", None, "clear, glossy, for the inside; the base of two others"),
    ("rosehip", "Rosehip", "#8e3b32", None,
     "copper red; wants early, steady, light reduction, a thick coat and no fast cooling"),
    ("samphire", "Samphire", "#7f8f6a", None, "soft leaf green, opaque"),
    ("limpet", "Limpet", "#8d9a90", None, "satin stone-grey, quiet"),
    ("rowan", "Rowan", "#c07f4b", None, "warm orange; soluble soda, stiff"),
    ("hedgelay", "Hedgelay", "#7d7645", 0.7, "olive from hedge ash, runs and streaks"),
)  # fmt: skip

RECIPES: dict[str, dict[str, float]] = {
    "rill-1": {
        "potash-feldspar": 40, "whiting": 16, "silica": 18, "ball-clay": 22, "talc": 4,
    },
    "rill-2": {
        "potash-feldspar": 32, "nepheline-syenite": 12, "whiting": 17, "talc": 4,
        "ball-clay": 22, "silica": 18,
    },
    "rosehip-1": {"copper-carbonate": 0.6, "tin-oxide": 1.2},
    "samphire-1": {"chrome-oxide": 0.3, "rutile": 2.0},
    "limpet-1": {
        "potash-feldspar": 42, "dolomite": 14, "talc": 8, "whiting": 4, "ball-clay": 24,
        "silica": 8,
    },
    "limpet-2": {
        "potash-feldspar": 32, "nepheline-syenite": 13, "dolomite": 15, "talc": 8, "whiting": 4,
        "ball-clay": 24, "silica": 8,
    },
    "rowan-1": {
        "nepheline-syenite": 46, "soda-feldspar": 14, "ball-clay": 26, "kaolin": 10, "soda-ash": 4,
    },
    "hedgelay-1": {"hedge-ash": 38, "soda-feldspar": 26, "ball-clay": 24, "silica": 12},
}  # fmt: skip
BASE_OF = {"rosehip-1": "rill", "samphire-1": "rill"}
BALANCED = "Feldspar bag B is weaker in potash: nepheline syenite makes up for it. To be tried."
WHY = {"rill-2": BALANCED, "limpet-2": BALANCED}
RECIPE_DAY = {"rill-2": "11-02 20:00", "limpet-2": "11-02 20:10"}
FIRST_RECIPE_DAY = "03-02 10:00"

SAME_BAGS = (
    "Only the feldspar is from a new bag. Dolomite, talc, whiting, ball clay and silica are from "
    "the same bags as batch 3."
)


@dataclass(frozen=True)
class Mixed:
    """A batch weighed out dry: recipe, number, day, grams in all, bags that are not the first."""

    batch: str
    recipe: str
    number: int
    day: str
    dry_g: float
    bags: dict[str, str] = field(default_factory=dict)
    note: str = ""


A = {"potash-feldspar": "potash-feldspar-a"}
B = {"potash-feldspar": "potash-feldspar-b"}
MIXED = (
    Mixed("limpet-batch-3", "limpet-1", 3, "08-10 10:00", 8_000, A),
    Mixed("hedgelay-batch-2", "hedgelay-1", 2, "08-12 10:00", 5_000, {"hedge-ash": "hedge-ash-2"}),
    Mixed("rowan-batch-7", "rowan-1", 7, "09-01 10:00", 7_000),
    Mixed("rill-batch-5", "rill-1", 5, "09-02 10:00", 14_000, A, "The last of feldspar bag A."),
    Mixed("limpet-batch-4", "limpet-1", 4, "10-04 10:00", 8_000, B, SAME_BAGS),
    Mixed("rill-batch-6", "rill-1", 6, "10-06 10:00", 10_000, B,
          "Feldspar from the new bag, all else from the same bags as batch 5."),
    Mixed("hedgelay-batch-3", "hedgelay-1", 3, "10-16 10:00", 5_000,
          {"hedge-ash": "hedge-ash-3"}),
    Mixed("limpet-batch-5", "limpet-1", 5, "11-11 09:00", 200, A,
          "For tiles: feldspar from the saved jar of bag A."),
    Mixed("limpet-batch-6", "limpet-1", 6, "11-11 09:30", 200, B, "For tiles: feldspar bag B."),
    Mixed("limpet-batch-7", "limpet-2", 7, "11-11 10:00", 208, B, "For tiles: re-balanced."),
    Mixed("rill-batch-7", "rill-1", 7, "11-11 10:30", 200, A,
          "For tiles: feldspar from the saved jar of bag A."),
    Mixed("rill-batch-8", "rill-1", 8, "11-11 11:00", 200, B, "For tiles: feldspar bag B."),
    Mixed("rill-batch-9", "rill-2", 9, "11-11 11:30", 210, B, "For tiles: re-balanced."),
)  # fmt: skip
SMALL_BATCH_G = 500
"""Batches below this are weighed to a tenth of a gram."""


@dataclass(frozen=True)
class Drawn:
    """A batch drawn wet from a base, with colour added."""

    batch: str
    recipe: str
    number: int
    day: str
    base: str
    wet_g: float
    sg: float


DRAWN = (
    Drawn("rosehip-batch-2", "rosehip-1", 2, "09-09 14:00", "rill-batch-5", 8_400.0, 1.46),
    Drawn("samphire-batch-1", "samphire-1", 1, "09-09 15:00", "rill-batch-5", 5_600.0, 1.46),
)


def keep_glazes(ledger: Ledger) -> None:
    """Write glazes, recipe versions and batches."""
    first = when(FIRST_RECIPE_DAY)
    for glaze, name, swatch, runs_above_mm, character in GLAZES:
        ledger.entry(
            "glazes",
            glaze,
            first,
            name=name,
            swatch=swatch,
            runs_above_mm=runs_above_mm,
            character=character,
        )
    for recipe, parts in RECIPES.items():
        glaze, version = recipe.rsplit("-", 1)
        base = BASE_OF.get(recipe)
        ledger.entry(
            "recipes",
            recipe,
            when(RECIPE_DAY.get(recipe, FIRST_RECIPE_DAY)),
            glaze=glaze,
            version=int(version),
            base=base,
            why=WHY.get(recipe, ""),
        )
        ledger.parts(
            "recipe_lines",
            "recipe",
            recipe,
            (
                {"material": material, "parts": float(part), "addition": base is not None}
                for material, part in parts.items()
            ),
        )
    for mixed in MIXED:
        _weigh_out(ledger, mixed)
    for drawn in DRAWN:
        _draw_off(ledger, drawn)


def _weigh_out(ledger: Ledger, mixed: Mixed) -> None:
    parts = RECIPES[mixed.recipe]
    digits = 1 if mixed.dry_g < SMALL_BATCH_G else 0
    ledger.entry(
        "batches",
        mixed.batch,
        when(mixed.day),
        recipe=mixed.recipe,
        number=mixed.number,
        note=mixed.note,
    )
    _lines(
        ledger,
        mixed.batch,
        mixed.day,
        (
            {
                "material": material,
                "lot": mixed.bags.get(material, f"{material}-1"),
                "weighed_g": float(round(mixed.dry_g * part / sum(parts.values()), digits)),
            }
            for material, part in parts.items()
        ),
    )


def _draw_off(ledger: Ledger, drawn: Drawn) -> None:
    solid = solid_density_g_cm3(drawn.base)
    ledger.entry(
        "batches",
        drawn.batch,
        when(drawn.day),
        recipe=drawn.recipe,
        number=drawn.number,
        drawn_from=drawn.base,
        drawn_wet_g=drawn.wet_g,
        drawn_sg=drawn.sg,
    )
    _lines(
        ledger,
        drawn.batch,
        drawn.day,
        (
            {
                "material": material,
                "lot": f"{material}-1",
                "weighed_g": round(dose(drawn.wet_g, drawn.sg, solid, percent).result.add_g, 1),
            }
            for material, percent in RECIPES[drawn.recipe].items()
        ),
    )


def _lines(ledger: Ledger, batch: str, day: str, lines: Iterable[Mapping[str, Any]]) -> None:
    """Add what went into a batch: each line was weighed, and is an entry of its own."""
    for number, line in enumerate(lines, start=1):
        own = {"position": number, "batch": batch, **line}
        ledger.entry("batch_lines", f"{batch}-{number:03d}", when(day), **own)


def solid_density_g_cm3(batch: str) -> float:
    """Density of a batch's powder [g/cm³]: the volumes of its powders add up."""
    drawn = next((d for d in DRAWN if d.batch == batch), None)
    if drawn is None:
        parts = RECIPES[next(m.recipe for m in MIXED if m.batch == batch)]
        volume = sum(part / _density_g_cm3(material) for material, part in parts.items())
        return sum(parts.values()) / volume
    added = RECIPES[drawn.recipe]
    volume = 100 / solid_density_g_cm3(drawn.base)
    volume += sum(part / _density_g_cm3(material) for material, part in added.items())
    return (100 + sum(added.values())) / volume


def _density_g_cm3(material: str) -> float:
    if material == "potash-feldspar":
        return FELDSPAR_DENSITY_G_CM3
    if material in GLAZE_MATERIALS:
        return GLAZE_MATERIALS[material][2]
    density = materials.material(COLOURANTS[material][1]).density_g_cm3
    if density is None:
        raise ValueError(f"the library has no density of {material}")
    return density
