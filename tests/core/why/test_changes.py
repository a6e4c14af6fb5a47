"""What can be said from counts alone, and what cannot."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.why import (
    Change,
    Leaning,
    Piece,
    Reason,
    Strand,
    count_changes,
    find_change,
    one_time_in,
    side_by_side,
)
from wareboard.core.why.verdict import chance_of_split

STRANDS = {
    "batch": Strand.MIX,
    "lot of feldspar": Strand.MIX,
    "shelf": Strand.PLACE,
    "firing": Strand.FIRE,
}


def piece(name: str, *, faulty: bool, **attributes: str) -> Piece:
    renamed = {key.replace("_", " "): value for key, value in attributes.items()}
    return Piece(id=name, faulty=faulty, attributes=renamed)


def finding_of(pieces: list[Piece]):
    return find_change(pieces, count_changes(pieces, STRANDS))


OLD_AND_NEW = [
    piece("a", faulty=False, batch="3", lot_of_feldspar="A", shelf="middle", firing="1"),
    piece("b", faulty=False, batch="3", lot_of_feldspar="A", shelf="bottom", firing="2"),
    piece("c", faulty=False, batch="3", lot_of_feldspar="A", shelf="bottom", firing="4"),
    piece("d", faulty=True, batch="4", lot_of_feldspar="B", shelf="bottom", firing="3"),
    piece("e", faulty=True, batch="4", lot_of_feldspar="B", shelf="middle", firing="3"),
    piece("f", faulty=True, batch="4", lot_of_feldspar="B", shelf="middle", firing="4"),
]


def test_each_corner_of_the_table_is_counted():
    (shelf,) = [
        c
        for c in count_changes(OLD_AND_NEW, STRANDS)
        if (c.attribute, c.value) == ("shelf", "middle")
    ]

    assert (shelf.faulty_with, shelf.sound_with, shelf.faulty_without, shelf.sound_without) == (
        2,
        1,
        1,
        2,
    )
    assert shelf.for_ == ("b", "c", "e", "f")
    assert shelf.against == ("a", "d")


def test_what_splits_the_pieces_identically_is_named_together():
    changes = {(c.attribute, c.value): c for c in count_changes(OLD_AND_NEW, STRANDS)}

    assert changes["batch", "4"].same_as == (("lot of feldspar", "B"),)
    assert changes["firing", "3"].same_as == ()


def test_the_batch_that_alone_fits_all_pieces_is_likely():
    finding = finding_of(OLD_AND_NEW)

    assert finding.leaning is Leaning.LIKELY
    assert [(c.attribute, c.value) for c in finding.fitting] == [
        ("batch", "4"),
        ("lot of feldspar", "B"),
    ]
    assert finding.chance == pytest.approx(1 / 20)


def test_a_new_batch_and_a_late_fire_on_the_same_day_cannot_be_told_apart():
    before_the_pair = [p for p in OLD_AND_NEW if p.attributes["firing"] != "4"]

    finding = finding_of(before_the_pair)

    assert finding.leaning is Leaning.CANNOT_TELL
    assert finding.reason is Reason.SEVERAL
    assert finding.strands == (Strand.MIX, Strand.FIRE)


def test_one_good_and_one_bad_pot_tell_nothing_even_where_only_one_thing_changed():
    pair = [
        piece("a", faulty=False, batch="3", shelf="middle"),
        piece("b", faulty=True, batch="4", shelf="middle"),
    ]

    finding = finding_of(pair)

    assert finding.reason is Reason.TOO_FEW


@pytest.mark.parametrize(("faulty", "reason"), [(True, Reason.NO_SOUND), (False, Reason.NO_FAULTY)])
def test_pieces_that_all_came_out_alike_have_nothing_to_be_held_against(faulty, reason):
    finding = finding_of([piece(name, faulty=faulty, batch="3") for name in "abc"])

    assert finding.reason is reason


def test_a_fault_in_both_batches_fits_no_single_change():
    mixed = [
        *OLD_AND_NEW,
        piece("g", faulty=True, batch="3", lot_of_feldspar="A", shelf="top", firing="5"),
    ]

    finding = finding_of(mixed)

    assert finding.reason is Reason.NONE_FITS
    assert finding.chance == 1.0


def test_a_change_that_is_not_known_of_every_piece_is_no_answer():
    forgotten = [*OLD_AND_NEW[:5], piece("f", faulty=True, shelf="middle", firing="4")]

    finding = finding_of(forgotten)

    assert finding.reason is Reason.NONE_FITS


def test_a_remembered_piece_weighs_less_than_a_recorded_one():
    recorded = piece("g", faulty=False, batch="4")
    remembered = Piece(id="g", faulty=False, attributes={"batch": "4"}, remembered=True)

    def separation(last: Piece) -> float:
        changes = count_changes([*OLD_AND_NEW, last], {"batch": Strand.MIX})
        return next(c.separation for c in changes if c.value == "4")

    assert separation(recorded) == pytest.approx(1 - 1 / 4)
    assert separation(remembered) == pytest.approx(1 - 0.5 / 3.5)


def test_nothing_judged_separates_nothing():
    assert count_changes([], STRANDS) == ()
    assert finding_of([]).reason is Reason.NO_FAULTY


pieces = st.lists(
    st.builds(
        Piece,
        id=st.uuids().map(str),
        faulty=st.booleans(),
        attributes=st.dictionaries(st.sampled_from(sorted(STRANDS)), st.sampled_from("ABC")),
        remembered=st.booleans(),
    ),
    max_size=12,
    unique_by=lambda p: p.id,
)


@given(pieces)
def test_every_piece_that_is_known_stands_in_one_corner_and_speaks_once(found):
    for change in count_changes(found, STRANDS):
        known = [p.id for p in found if change.attribute in p.attributes]

        assert change.known == len(known)
        assert sorted(change.for_ + change.against) == sorted(known)
        assert -1 <= change.separation <= 1


@given(pieces, st.randoms(use_true_random=False))
def test_the_order_in_which_pots_are_looked_at_changes_nothing(found, random):
    shuffled = random.sample(found, k=len(found))

    def facts(change: Change) -> tuple[object, ...]:
        return (change.attribute, change.value, change.for_, change.against, set(change.same_as))

    assert [facts(c) for c in count_changes(found, STRANDS)] == [
        facts(c) for c in count_changes(shuffled, STRANDS)
    ]


@given(pieces)
def test_likely_is_said_only_where_every_piece_agrees(found):
    finding = finding_of(found)

    if finding.leaning is Leaning.LIKELY:
        assert all(change.against == () for change in finding.fitting)
        assert len(finding.strands) == 1


def test_the_chance_of_a_split_is_one_in_the_ways_to_choose():
    assert chance_of_split(3, 3) == pytest.approx(1 / 20)
    assert chance_of_split(4, 4) == pytest.approx(1 / 70)


@pytest.mark.parametrize(
    ("chance", "times"),
    [(1.0, 1), (0.6, 1), (6 / 20, 3), (1 / 20, 20), (3 / 70, 20), (1 / 252, 200), (1e-9, 1000)],
)
def test_a_chance_is_said_as_one_time_in_so_many_and_never_rounded_up(chance, times):
    assert one_time_in(chance) == times


def test_what_rests_on_remembered_pieces_is_not_called_likely():
    half = [*OLD_AND_NEW[:4], *(replace(p, remembered=True) for p in OLD_AND_NEW[4:])]

    finding = finding_of(half)

    assert (finding.leaning, finding.reason) == (Leaning.CANNOT_TELL, Reason.REMEMBERED)
    assert finding.remembered == 2


def test_remembered_pieces_beside_enough_recorded_ones_add_nothing_to_the_chance():
    more = [replace(p, id=p.id * 2, remembered=True) for p in OLD_AND_NEW]

    finding = finding_of([*OLD_AND_NEW, *more])

    assert finding.leaning is Leaning.LIKELY
    assert finding.chance == finding_of(OLD_AND_NEW).chance


def test_the_chance_of_any_is_the_share_of_all_ways_in_which_one_of_the_groups_is_faulty():
    names = "abcdef"
    finding = finding_of(OLD_AND_NEW)
    groups = {
        c.split.having
        for c in count_changes(OLD_AND_NEW, STRANDS)
        if len(c.split.having) == finding.faulty
    }

    ways = [frozenset(way) for way in combinations(names, finding.faulty)]

    hit = sum(way in groups for way in ways)
    assert finding.tried == len(groups)
    assert finding.chance_of_any == pytest.approx(hit / len(ways))


def test_a_pair_is_one_of_each_in_the_same_firing_and_place():
    near = replace(OLD_AND_NEW[2], attributes={**OLD_AND_NEW[2].attributes, "shelf": "middle"})
    pair = [*OLD_AND_NEW[:2], near, *OLD_AND_NEW[3:]]

    assert side_by_side(OLD_AND_NEW, ("firing", "shelf")) is None
    assert side_by_side(pair, ("firing", "shelf")) == ("4", "middle")


def test_pieces_of_which_the_place_is_not_known_are_no_pair():
    assert side_by_side(OLD_AND_NEW, ("firing", "nowhere")) is None
