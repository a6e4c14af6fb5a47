"""Long lists, a page at a time."""

import pytest

from wareboard.records.people.entry import keep
from wareboard.records.people.paging import cut
from wareboard.records.stores.models import Material
from wareboard.records.stores.queries import materials_for

NAMES = ["ash", "Ball clay", "china clay", "dolomite", "feldspar", "feldspar", "flint"]


@pytest.fixture
def stores(member):
    for number, name in enumerate(NAMES):
        keep(Material, member, entry_id=f"material-{number}", name=name)
    return materials_for(member)


def pages(rows, size, **options):
    found, after = [], ""
    while True:
        page = cut(rows, by="sort_name", after=after, size=size, **options)
        found.append([row.name for row in page.rows])
        if not page.more:
            return found
        after = page.more


def test_pages_follow_each_other_without_a_gap_or_a_repeat(stores):
    assert pages(stores, 3) == [NAMES[:3], NAMES[3:6], NAMES[6:]]


def test_newest_first_runs_the_other_way(stores):
    assert pages(stores, 4, newest_first=True) == [NAMES[:2:-1], NAMES[2::-1]]


def test_a_page_that_holds_the_last_row_says_that_nothing_follows(stores):
    assert cut(stores, by="sort_name", size=len(NAMES)).more == ""


def test_an_unknown_row_to_go_on_from_begins_at_the_beginning(stores):
    assert cut(stores, by="sort_name", after="nobody", size=2).rows[0].name == "ash"


def test_a_later_page_costs_two_queries_however_far_down(stores, django_assert_num_queries):
    after = cut(stores, by="sort_name", size=5).more

    with django_assert_num_queries(2):
        assert [row.name for row in cut(stores, by="sort_name", after=after).rows] == NAMES[5:]


@pytest.mark.parametrize("size", range(1, 9))
def test_every_size_of_page_gives_every_row_once(stores, size):
    assert [name for page in pages(stores, size) for name in page] == NAMES
