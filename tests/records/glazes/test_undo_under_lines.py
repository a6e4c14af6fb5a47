"""What a line of a batch or a recipe names cannot be taken back under it."""

import pytest

from wareboard.records.glazes.models import Batch, BatchLine, Glaze, Recipe, RecipeLine
from wareboard.records.people.entry import EntryRefused, id_under, keep
from wareboard.records.people.undoing import undo
from wareboard.records.stores.models import Lot, Material


@pytest.fixture
def spar(member):
    return keep(Material, member, name="potash feldspar")


@pytest.fixture
def recipe(member, spar):
    line = RecipeLine(material=spar, parts=40)
    glaze = keep(Glaze, member, name="Limpet")
    return keep(Recipe, member, glaze=glaze, version=1, parts=(line,), owner="recipe")


def test_a_bag_that_went_into_a_batch_stays(member, spar, recipe):
    bag = keep(Lot, member, material=spar, label="B")
    line = BatchLine(material=spar, lot=bag, weighed_g=1000)
    batch = keep(Batch, member, recipe=recipe, number=1, parts=(line,), owner="batch")

    with pytest.raises(EntryRefused):
        undo(bag)

    undo(batch)
    undo(bag)
    assert bag.undone_at is not None


def test_a_material_of_a_recipe_stays(spar, recipe):
    with pytest.raises(EntryRefused):
        undo(spar)


def test_a_recipe_with_its_own_lines_can_be_taken_back(recipe):
    undo(recipe)

    assert recipe.undone_at is not None


def test_the_id_of_one_of_many_is_never_too_long():
    long = "206ff75a-cf73-4084-8240-dfa8e3cccc66-r"

    assert len(id_under(long, 10)) <= 40
    assert id_under(long, 10) == id_under(long, 10) != id_under(long, 11)
    assert id_under("limpet", "r") == "limpet-r"
