"""Taking back what completed an older entry: the older one stands, incomplete again."""

import pytest

from wareboard.records.people.entry import EntryRefused, keep, undo
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
    keep(Lot, member, material=bag.material, label="C", sheet=sheet)

    with pytest.raises(EntryRefused, match="Something later rests on this"):
        undo(sheet)

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
