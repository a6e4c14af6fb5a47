"""How the pots came out that were dipped into one filling of a bucket."""

import pytest

from wareboard.records.glazes.models import BucketEvent, BucketEventKind
from wareboard.records.people.entry import keep
from wareboard.records.shelf.filling import CameOut, worst_of_filling
from wareboard.records.shelf.words import FaultWord

from .conftest import day


def out_of(bucket):
    return worst_of_filling(bucket, BucketEvent.objects.filter(bucket=bucket).order_by("-at"))


def test_three_of_four_pots_out_of_a_bucket_have_pinholes(shelf):
    for _ in range(3):
        shelf.pot([(shelf.new, "outside")], [("outside", "pinhole")])
    shelf.pot([(shelf.new, "outside")], [("whole", None)])

    assert out_of(shelf.new) == CameOut(FaultWord.PINHOLE, 3, 4)


def test_pots_out_of_another_bucket_do_not_count(shelf):
    shelf.pot([(shelf.old, "outside")], [("outside", "pinhole")])
    shelf.pot([(shelf.new, "outside")], [("outside", None)])

    assert out_of(shelf.new) is None


def test_pots_of_what_was_in_the_bucket_before_it_was_filled_do_not_count(shelf):
    shelf.pot([(shelf.new, "outside")], [("outside", "pinhole")])
    batch = shelf.batches["A"]
    filled = BucketEventKind.FILLED
    keep(BucketEvent, shelf.member, bucket=shelf.new, kind=filled, batch=batch, at=day(8))

    assert out_of(shelf.new) is None


def test_a_fault_on_the_other_side_is_not_of_this_bucket(shelf):
    coats = [(shelf.new, "inside"), (shelf.old, "outside")]
    shelf.pot(coats, [("outside", "crawl"), ("inside", None)])

    assert out_of(shelf.new) is None
    assert out_of(shelf.old) == CameOut(FaultWord.CRAWL, 1, 1)


@pytest.mark.parametrize("fault", ["burst", "crack", "warped"])
def test_a_fault_of_the_clay_says_nothing_about_a_bucket(shelf, fault):
    shelf.pot([(shelf.new, "both")], [("whole", fault)])

    assert out_of(shelf.new) is None


def test_a_pot_with_a_fault_of_the_clay_counts_as_judged(shelf):
    shelf.pot([(shelf.new, "both")], [("whole", "crawl")])
    for _ in range(4):
        shelf.pot([(shelf.new, "both")], [("whole", "warped")])

    assert out_of(shelf.new) == CameOut(FaultWord.CRAWL, 1, 5)
