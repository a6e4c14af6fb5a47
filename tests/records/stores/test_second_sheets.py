"""A bag has one sheet of its own: a second one never takes its place unseen."""

import pytest
from django.utils import timezone

from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Lot, Material, Sheet

ADDRESS = "/stores/lots/bag-b/sheet/"
FIRST = {"entry_id": "s-1", "sheet": "K2O 10.6", "standing": "supplier's sheet"}
SECOND = {"entry_id": "s-2", "sheet": "K2O 7.6", "standing": "own burn-off"}


@pytest.fixture
def bag(member):
    spar = keep(Material, member, entry_id="feldspar", name="feldspar")
    return keep(Lot, member, entry_id="bag-b", material=spar, label="B")


def sheet_of(bag):
    bag.refresh_from_db()
    return bag.sheet_id


def undo(signed_in):
    link = signed_in.get("/stores/lots/bag-b/").context["undo"]
    signed_in.post(link["url"])


def today():
    now = timezone.localtime()
    return f"{now.day} {now:%B %Y}"


def test_a_second_sheet_of_a_bag_is_refused_and_the_first_stands(signed_in, bag):
    signed_in.post(ADDRESS, FIRST)

    reply = signed_in.post(ADDRESS, SECOND)

    assert reply.status_code == 422
    assert reply.context["form"].errors["sheet"] == [
        (f"Bag B has a sheet of its own (supplier's sheet, {today()}): put that one right.")
    ]
    assert sheet_of(bag) == "s-1"
    assert [sheet.pk for sheet in Sheet.objects.filter(studio="test-studio")] == ["s-1"]


def test_the_page_of_a_second_sheet_leads_to_where_the_first_is_put_right(signed_in, bag):
    signed_in.post(ADDRESS, FIRST)

    page = signed_in.get(ADDRESS)

    assert page.context["refused"] == (
        f"Bag B has a sheet of its own (supplier's sheet, {today()}): put that one right."
    )
    assert 'href="/stores/sheets/s-1/?next=/stores/lots/bag-b/"' in page.content.decode()


def test_once_the_first_is_taken_back_the_second_is_the_bags_own(signed_in, bag):
    signed_in.post(ADDRESS, FIRST)
    undo(signed_in)

    signed_in.post(ADDRESS, SECOND)

    assert sheet_of(bag) == "s-2"


def test_the_first_sheet_sent_again_is_no_second_one(signed_in, bag):
    replies = [signed_in.post(ADDRESS, FIRST).status_code for _ in range(2)]

    assert replies == [302, 302]
    assert sheet_of(bag) == "s-1"


def test_a_sheet_that_was_taken_back_is_never_linked_again(signed_in, bag):
    signed_in.post(ADDRESS, FIRST)
    undo(signed_in)

    reply = signed_in.post(ADDRESS, FIRST)

    assert reply.status_code == 422
    assert reply.context["form"].errors["sheet"] == [
        "This was taken back. If it is right after all, reload the page."
    ]
    assert sheet_of(bag) is None


def test_a_bag_whose_sheet_was_taken_back_has_none_of_its_own(signed_in, member, bag):
    """As a record that was taken in may have it."""
    sheet = keep(Sheet, member, material=bag.material, standing="supplier's sheet")
    Sheet.objects.filter(pk=sheet.pk).update(undone_at=timezone.now())
    Lot.objects.filter(pk=bag.pk).update(sheet=sheet)

    rows = signed_in.get("/stores/materials/feldspar/").context["lots"]
    signed_in.post(ADDRESS, FIRST)

    assert [row["more"] for row in rows] == [""]
    assert sheet_of(bag) == "s-1"
