"""Recipes with their bases written out, and rings that must not hang the page."""

import pytest

from wareboard.core.errors import CompositionError
from wareboard.records.glazes.models import Glaze, Recipe, RecipeLine
from wareboard.records.glazes.recipe_book import RecipeBook
from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Material


@pytest.fixture
def write(member):
    """Keep a version of a glaze's recipe; materials by their row of the built-in table."""

    def keep_it(name, parts, base=None, version=1, **facts):
        glaze = Glaze.objects.filter(studio=member.studio, name=name).first() or keep(
            Glaze, member, name=name
        )
        lines = []
        for row, part in parts.items():
            material = Material.objects.filter(studio=member.studio, library_id=row).first()
            material = material or keep(Material, member, name=row, library_id=row)
            lines.append(RecipeLine(material=material, parts=part))
        return keep(
            Recipe,
            member,
            glaze=glaze,
            version=version,
            base=base,
            parts=tuple(lines),
            owner="recipe",
            **facts,
        )

    return keep_it


def written(book, recipe):
    return {powder.material.library_id: powder.parts for powder in book.powders(recipe)}


def test_a_recipe_without_a_base_stands_as_it_was_typed(write):
    recipe = write("Rill", {"feldspar_potash_ideal": 40, "calcite_ideal": 16})

    assert written(RecipeBook([recipe]), recipe) == {
        "feldspar_potash_ideal": 40,
        "calcite_ideal": 16,
    }


def test_a_child_holds_a_hundred_of_its_base_and_its_own_on_top(write):
    base = write("Rill", {"feldspar_potash_ideal": 150, "calcite_ideal": 50})
    child = write("Rosehip", {"tin_oxide": 1.2}, base=base.glaze)

    book = RecipeBook([child])

    assert written(book, child) == {
        "feldspar_potash_ideal": 75,
        "calcite_ideal": 25,
        "tin_oxide": 1.2,
    }
    assert [powder.addition for powder in book.powders(child)] == [False, False, True]


def test_a_change_of_the_base_shows_in_its_children(write):
    base = write("Rill", {"feldspar_potash_ideal": 100})
    write("Rill", {"calcite_ideal": 100}, version=2)
    child = write("Rosehip", {"tin_oxide": 1.2}, base=base.glaze)

    assert written(RecipeBook([child]), child) == {"calcite_ideal": 100, "tin_oxide": 1.2}


def test_a_grandchild_holds_all_of_it(write):
    base = write("Rill", {"feldspar_potash_ideal": 100})
    child = write("Rosehip", {"tin_oxide": 25}, base=base.glaze)
    grandchild = write("Wild rose", {"rutile_typical": 2}, base=child.glaze)

    assert written(RecipeBook([grandchild]), grandchild) == {
        "feldspar_potash_ideal": 80,
        "tin_oxide": 20,
        "rutile_typical": 2,
    }


def test_a_ring_of_bases_is_a_sentence_and_no_endless_walk(write):
    first = write("Rill", {"feldspar_potash_ideal": 100})
    second = write("Rosehip", {"tin_oxide": 1}, base=first.glaze)
    ring = write("Rill", {"calcite_ideal": 1}, base=second.glaze, version=2)

    book = RecipeBook([ring])

    with pytest.raises(CompositionError, match="Rill rests on itself by way of its base"):
        book.powders(ring)
    assert [material.library_id for material in book.materials(ring)] == ["calcite_ideal"]


def test_a_family_is_read_in_three_queries_and_one_for_each_further_base(
    write, django_assert_num_queries
):
    base = write("Rill", {"feldspar_potash_ideal": 100})
    child = write("Rosehip", {"tin_oxide": 25}, base=base.glaze)
    grandchild = write("Wild rose", {"rutile_typical": 2}, base=child.glaze)

    with django_assert_num_queries(2):  # no sheet, so no oxides to read
        RecipeBook([child]).solid(child)
    with django_assert_num_queries(3):
        RecipeBook([grandchild]).solid(grandchild)
