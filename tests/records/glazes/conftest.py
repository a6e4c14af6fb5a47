"""Two glazes of three powders, one resting on the other."""

import pytest

from wareboard.records.glazes.models import Glaze, Recipe, RecipeLine
from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Lot, Material, Sheet


@pytest.fixture
def stores(member):
    """Three powders of density 2.5, each with an old and a new bag."""
    found = {}
    for name in ("feldspar", "whiting", "tin oxide"):
        material = keep(Material, member, entry_id=f"my-{name[:3]}", name=name)
        keep(Sheet, member, material=material, standing="supplier's sheet", density_g_cm3=2.5)
        for label in ("A", "B"):
            keep(
                Lot, member, entry_id=f"{name[:3]}-{label.lower()}", material=material, label=label
            )
        found[name] = material
    return found


def recipe_of(member, glaze, parts, base=None):
    lines = tuple(
        RecipeLine(material=material, parts=part, addition=base is not None)
        for material, part in parts
    )
    return keep(Recipe, member, glaze=glaze, version=1, base=base, parts=lines, owner="recipe")


@pytest.fixture
def rill(member, stores):
    glaze = keep(Glaze, member, entry_id="my-rill", name="Rill")
    recipe_of(member, glaze, [(stores["feldspar"], 60), (stores["whiting"], 40)])
    return glaze


@pytest.fixture
def rose(member, stores, rill):
    glaze = keep(Glaze, member, entry_id="my-rose", name="Rosehip")
    recipe_of(member, glaze, [(stores["tin oxide"], 0.5)], base=rill)
    return glaze
