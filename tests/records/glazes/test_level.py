"""What is in a bucket now: reading in force, litres, and whether it must be weighed again."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.records.glazes.level import LITRES_WHERE_NOT_KNOWN, POWDER_TELLS_G_L, level_of
from wareboard.records.glazes.models import BucketEvent, BucketEventKind, Reading

DAWN = datetime(2026, 10, 3, 8, tzinfo=ZoneInfo("Europe/London"))


def at(hours):
    return DAWN + timedelta(hours=hours)


def reading(hours, litres=None):
    """A full bottle of SG 1.5: 750 g in 500 ml."""
    return Reading(at=at(hours), full_g=750, empty_g=0, volume_ml=500, in_bucket_l=litres)


def event(hours, kind, **facts):
    return BucketEvent(id=f"e-{hours}", at=at(hours), kind=kind, **facts)


def level(readings, events):
    newest = sorted(readings, key=lambda r: r.at, reverse=True)
    return level_of(newest, sorted(events, key=lambda e: e.at, reverse=True), scale_step_g=1.0)


def test_nothing_is_known_of_a_bucket_nobody_wrote_of():
    found = level([], [])

    assert (found.reading, found.since, found.litres, found.empty) == (None, (), None, False)


def test_the_newest_reading_and_its_tide_line_count():
    older, newer = reading(1, litres=9), reading(2, litres=7)

    found = level([older, newer], [])

    assert (found.reading, found.litres) == (newer, 7)


def test_a_tide_line_counts_on_until_the_next():
    found = level([reading(1, litres=9), reading(2)], [])

    assert found.litres == 9


@pytest.mark.parametrize(
    ("kind", "facts", "litres"),
    [
        (BucketEventKind.WATER_IN, {"amount_ml": 400}, 7.4),
        (BucketEventKind.WATER_OFF, {"amount_ml": 400}, 6.6),
        (BucketEventKind.TOPPED_UP, {"amount_ml": 2000}, 9.0),
        (BucketEventKind.DRAWN, {"amount_ml": 1000}, 6.0),
        (BucketEventKind.DRAWN, {"amount_g": 1500}, 6.0),
        (BucketEventKind.DRAWN, {}, 7.0),
        (BucketEventKind.POWDER_IN, {"amount_g": 500}, 7.0),
    ],
)
def test_what_went_in_and_out_since_moves_the_tide_line(kind, facts, litres):
    found = level([reading(1, litres=7)], [event(2, kind, **facts)])

    assert found.litres == pytest.approx(litres)


def test_a_filling_begins_anew_and_old_readings_no_longer_count():
    found = level([reading(1, litres=2)], [event(2, BucketEventKind.FILLED, amount_ml=9900)])

    assert (found.reading, found.litres, found.since) == (None, 9.9, ())


def test_what_was_done_before_the_filling_no_longer_counts():
    events = [
        event(1, BucketEventKind.WATER_IN, amount_ml=500),
        event(2, BucketEventKind.FILLED, amount_ml=9900),
        event(3, BucketEventKind.DRAWN, amount_ml=900),
    ]

    assert level([], events).litres == pytest.approx(9.0)


def test_an_emptied_bucket_is_empty_until_it_is_filled():
    emptied = event(3, BucketEventKind.EMPTIED)
    filled = event(4, BucketEventKind.FILLED)

    assert level([reading(1, litres=2)], [emptied]).empty
    assert level([reading(1, litres=2)], [emptied]).litres is None
    assert not level([], [emptied, filled]).empty


@pytest.mark.parametrize(
    "kind", [BucketEventKind.WATER_IN, BucketEventKind.WATER_OFF, BucketEventKind.TOPPED_UP]
)
def test_what_changes_the_slop_asks_for_a_new_reading(kind):
    stirred = event(2, kind, amount_ml=100)

    assert level([reading(1)], [stirred]).since == (stirred,)
    assert level([reading(1), reading(3)], [stirred]).since == ()


def test_drawing_off_changes_nothing_about_the_slop():
    assert level([reading(1)], [event(2, BucketEventKind.DRAWN, amount_ml=500)]).since == ()


@pytest.mark.parametrize(
    ("litres", "amount_g", "asks"),
    [
        (7.0, 7 * POWDER_TELLS_G_L, False),
        (7.0, 7 * POWDER_TELLS_G_L + 1, True),
        (None, LITRES_WHERE_NOT_KNOWN * POWDER_TELLS_G_L + 1, True),
        (7.0, None, True),
    ],
)
def test_only_more_than_a_pinch_of_powder_asks_for_a_new_reading(litres, amount_g, asks):
    powder = event(2, BucketEventKind.POWDER_IN, amount_g=amount_g)

    assert bool(level([reading(1, litres=litres)], [powder]).since) is asks


def test_what_was_done_since_is_told_in_its_order():
    first = event(2, BucketEventKind.WATER_IN, amount_ml=100)
    then = event(3, BucketEventKind.WATER_OFF, amount_ml=50)

    assert level([reading(1)], [then, first]).since == (first, then)


MOVES = st.lists(
    st.tuples(
        st.sampled_from([BucketEventKind.WATER_IN, BucketEventKind.WATER_OFF]),
        st.floats(0, 5_000),
    ),
    max_size=8,
)


@given(litres=st.floats(0.1, 50), moves=MOVES)
def test_a_bucket_never_holds_less_than_nothing(litres, moves):
    events = [
        event(2 + number, kind, amount_ml=amount) for number, (kind, amount) in enumerate(moves)
    ]

    found = level([reading(1, litres=litres)], events)

    assert found.litres is not None
    assert found.litres >= 0
