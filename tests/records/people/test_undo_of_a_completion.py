"""Taking back what completed an older entry: the older one stands, incomplete again."""

from datetime import UTC, datetime

import pytest
from django.utils import timezone

from wareboard.records.glazes.models import Batch, BatchLine, Glaze, Recipe, RecipeLine
from wareboard.records.people.entry import EntryRefused, keep
from wareboard.records.people.undoing import undo
from wareboard.records.stores.models import Lot, Material, Sheet


@pytest.fixture
def bag(member):
    material = keep(Material, member, name="potash feldspar")
    return keep(Lot, member, material=material, label="B")


def sheet_for(member, material):
    return keep(Sheet, member, material=material, standing="supplier's sheet")


def test_a_sheet_that_completed_a_bag_can_be_taken_back(member, bag):
    sheet = sheet_for(member, bag.material)
    bag.sheet = sheet
    bag.save()

    undo(sheet)

    bag.refresh_from_db()
    sheet.refresh_from_db()
    assert (bag.sheet, bag.undone_at) == (None, None)
    assert sheet.undone_at is not None


def test_a_sheet_on_which_a_younger_bag_rests_cannot(member, bag):
    sheet = sheet_for(member, bag.material)
    at = datetime(2026, 11, 12, 9, 30, tzinfo=UTC)
    keep(Lot, member, material=bag.material, label="C", sheet=sheet, at=at)

    with timezone.override("UTC"), pytest.raises(EntryRefused) as refused:
        undo(sheet)

    assert str(refused.value) == "The lot of 12 Nov, 09:30 rests on this: undo that first."

    sheet.refresh_from_db()
    assert sheet.undone_at is None


def test_nothing_is_cleared_where_taking_back_is_refused(member, bag):
    sheet = sheet_for(member, bag.material)
    bag.sheet = sheet
    bag.save()
    keep(Lot, member, material=bag.material, label="C", sheet=sheet)

    with pytest.raises(EntryRefused):
        undo(sheet)

    bag.refresh_from_db()
    assert bag.sheet == sheet


def test_what_must_name_it_is_never_cleared(member, bag):
    with pytest.raises(EntryRefused):
        undo(bag.material)

    bag.refresh_from_db()
    assert bag.material.undone_at is None


def test_what_names_it_in_one_of_its_lines_is_said_by_its_own_kind(member):
    ash = keep(Material, member, name="wood ash")
    glaze = keep(Glaze, member, name="Limpet")
    at = datetime(2026, 11, 12, 9, 30, tzinfo=UTC)
    line = RecipeLine(material=ash, parts=100)
    keep(Recipe, member, glaze=glaze, version=1, parts=(line,), owner="recipe", at=at)

    with timezone.override("UTC"), pytest.raises(EntryRefused) as refused:
        undo(ash)

    assert str(refused.value) == "The recipe of 12 Nov, 09:30 rests on this: undo that first."


def test_a_bag_that_was_weighed_from_is_named_by_what_was_weighed(member, bag):
    line = BatchLine(material=bag.material, lot=bag, weighed_g=100.0)
    glaze = keep(Glaze, member, name="Limpet")
    recipe = keep(Recipe, member, glaze=glaze, version=1)
    at = datetime(2026, 11, 12, 9, 30, tzinfo=UTC)
    keep(Batch, member, recipe=recipe, number=1, parts=(line,), owner="batch", at=at)

    with timezone.override("UTC"), pytest.raises(EntryRefused) as refused:
        undo(bag)

    assert str(refused.value) == "The batch line of 12 Nov, 09:30 rests on this: undo that first."
