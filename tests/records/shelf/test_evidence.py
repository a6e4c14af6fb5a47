"""What the record holds against a fault: the right firing, the right coat, the right bag."""

from wareboard.records.glazes.actions import add_glaze, mix_batch
from wareboard.records.glazes.models import Batch, BatchLine, BucketEvent
from wareboard.records.kiln.models import ConeReading
from wareboard.records.kiln.queries import cones_of_firings
from wareboard.records.people.entry import keep
from wareboard.records.shelf.attributes import pieces_of as attributes_of
from wareboard.records.shelf.elsewhere import Counts, count_elsewhere
from wareboard.records.shelf.evidence import gather
from wareboard.records.shelf.models import Verdict
from wareboard.records.shelf.words import FaultWord
from wareboard.records.stores.models import Lot

from .conftest import day


def pieces_of(shelf, until=None):
    return gather(shelf.member, shelf.glaze, FaultWord.PINHOLE, until=until).pieces


def test_a_verdict_speaks_of_the_firing_before_it_not_of_a_later_one(shelf):
    shelf.pot([(shelf.new, "inside")], [("inside", "pinhole")], loads=shelf.loads)

    (piece,) = pieces_of(shelf)

    assert piece.placing.firing_number == 1


def test_cones_come_in_the_order_of_the_chart(shelf):
    for cone in ("9", "10", "8", "010"):
        keep(
            ConeReading,
            shelf.member,
            firing=shelf.firings[0],
            place=shelf.place,
            cone=cone,
            clock=3.0,
            at=day(11),
        )

    (cones,) = cones_of_firings([shelf.firings[0].pk]).values()

    assert [reading.cone for reading in cones] == ["010", "8", "9", "10"]


def test_a_verdict_that_was_corrected_later_still_stood_before(shelf):
    pot = shelf.pot([(shelf.new, "inside")], [("inside", "pinhole")])
    wrong = Verdict.objects.get(pot=pot)
    keep(
        Verdict,
        shelf.member,
        pot=pot,
        surface="inside",
        thumb="up",
        at=day(20),
        corrects=wrong,
    )

    before, now = pieces_of(shelf, until=day(12)), pieces_of(shelf)

    assert [[piece.faulty for piece in found] for found in (before, now)] == [[True], [False]]


def test_another_glaze_of_which_the_bags_are_not_known_is_not_counted_as_without(shelf):
    other = add_glaze(shelf.member, name="Heron", character="", swatch="#ffffff")
    unknown = shelf.bucket("unknown", glaze=other)
    shelf.pot([(unknown, "inside")], [("inside", "pinhole")])
    known = shelf.bucket("known", ("filled", "B"), glaze=other)
    shelf.pot([(known, "inside")], [("inside", "pinhole")])

    counts = count_elsewhere(
        shelf.member, ("lot of feldspar", "B"), shelf.glaze, FaultWord.PINHOLE, None
    ).counts[other.pk]

    assert (counts.n_with, counts.faulty_with, counts.n_without) == (1, 1, 0)


def rows_of(shelf, attribute):
    """Give by value of an attribute how many pieces with it are faulty and sound."""
    pieces = attributes_of(pieces_of(shelf))
    return sorted((piece.attributes[attribute], piece.faulty) for piece in pieces)


def test_a_pot_glazed_inside_from_the_old_bucket_and_outside_from_the_new_is_two_pieces(shelf):
    coats = [(shelf.old, "inside"), (shelf.new, "outside")]
    shelf.pot(coats, [("inside", ""), ("outside", "pinhole")])

    pieces = attributes_of(pieces_of(shelf))

    assert rows_of(shelf, "lot of feldspar") == [("A", False), ("B", True)]
    assert [piece.id for piece in pieces] == ["pot-1, inside", "pot-1, outside"]


def test_a_fault_told_of_the_whole_pot_is_not_put_on_either_bucket(shelf):
    coats = [(shelf.old, "inside"), (shelf.new, "outside")]
    shelf.pot(coats, [("inside", ""), ("whole", "pinhole")])

    assert rows_of(shelf, "bucket") == [("old", False)]


def test_a_pot_glazed_all_over_from_one_bucket_is_one_piece(shelf):
    shelf.pot([(shelf.new, "inside"), (shelf.new, "outside")], [("outside", "pinhole")])

    assert rows_of(shelf, "bucket") == [("new", True)]


def test_both_bags_of_a_topped_up_bucket_are_named(shelf):
    shelf.pot([(shelf.mixed, "inside")], [("inside", "pinhole")])
    shelf.pot([(shelf.new, "inside")], [("inside", "")])

    assert rows_of(shelf, "lot of feldspar") == [("A + B", True), ("B", False)]


def test_powder_stirred_in_before_the_dip_is_looked_at(shelf):
    facts = {"bucket": shelf.new, "kind": "powder in", "lot": shelf.lots["A"], "amount_g": 50.0}
    shelf.pot([(shelf.old, "inside")], [("inside", "")])
    shelf.pot([(shelf.new, "inside")], [("inside", "pinhole")])

    keep(BucketEvent, shelf.member, **facts, at=day(4))
    before = rows_of(shelf, "powder stirred in")

    assert before == [("feldspar, lot A", True), ("nothing", False)]


def test_a_piece_whose_batch_is_only_remembered_counts_as_remembered(shelf):
    shelf.pot([(shelf.old, "inside")], [("inside", "")])
    shelf.pot([(shelf.new, "inside")], [("inside", "pinhole")])

    Batch.objects.filter(pk=shelf.batches["B"].pk).update(remembered="I think")

    assert [piece.remembered for piece in pieces_of(shelf)] == [False, True]


def mixed_again(shelf, lot, name):
    """Mix a batch with a bag and fill a bucket with it."""
    lines = [BatchLine(material=shelf.feldspar, lot=lot, weighed_g=1000)]
    shelf.batches[name] = mix_batch(shelf.member, shelf.batches["A"].recipe, at=day(2), lines=lines)
    return shelf.bucket(name, ("filled", name))


def test_two_bags_with_the_same_label_are_told_apart_by_the_day_they_were_bought(shelf):
    again = keep(Lot, shelf.member, material=shelf.feldspar, label="A", at=day(1))
    shelf.pot([(shelf.old, "inside")], [("inside", "")])
    shelf.pot([(mixed_again(shelf, again, "again"), "inside")], [("inside", "pinhole")])
    shelf.pot([(shelf.new, "inside")], [("inside", "")])

    assert rows_of(shelf, "lot of feldspar") == [
        ("A, bought 1 Sep 2026", False),
        ("A, bought 2 Sep 2026", True),
        ("B", False),
    ]


def test_two_bags_with_the_same_label_bought_on_one_day_are_numbered(shelf):
    again = keep(Lot, shelf.member, material=shelf.feldspar, label="A", at=day(0))
    shelf.pot([(shelf.old, "inside")], [("inside", "")])
    shelf.pot([(mixed_again(shelf, again, "again"), "inside")], [("inside", "pinhole")])

    assert rows_of(shelf, "lot of feldspar") == [
        ("A, bought 1 Sep 2026 (1)", False),
        ("A, bought 1 Sep 2026 (2)", True),
    ]


def test_the_other_glazes_are_asked_about_the_very_bag_not_about_its_label(shelf):
    again = keep(Lot, shelf.member, material=shelf.feldspar, label="A", at=day(1))
    other = add_glaze(shelf.member, name="Heron", character="", swatch="#ffffff")
    shelf.pot([(shelf.bucket("first", ("filled", "A"), glaze=other), "inside")], [("inside", "")])
    mixed_again(shelf, again, "again")
    later = shelf.bucket("second", ("filled", "again"), glaze=other)
    shelf.pot([(later, "inside")], [("inside", "pinhole")])
    bag = ("lot of feldspar", "A, bought 2 Sep 2026")

    counts = count_elsewhere(shelf.member, bag, shelf.glaze, FaultWord.PINHOLE, None)

    assert counts.counts[other.pk] == Counts(faulty_with=1, n_with=1, n_without=1)
