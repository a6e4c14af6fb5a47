"""What may have been meant by a number that a thumb got wrong."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.slips import meant_by, with_one_digit_changed


@pytest.mark.parametrize(
    ("written", "slip", "meant"),
    [(115, 0, 1150), (150, 1, 1150), (1510, 2, 1150), (1023, 3, 103), (8870, 3, 870)],
)
def test_each_slip_of_the_thumb_leads_back_to_what_was_meant(written, slip, meant):
    assert meant in meant_by(written)[slip]


@given(written=st.integers(0, 99_999))
def test_what_was_written_is_no_slip_of_itself(written):
    assert all(written not in kind for kind in meant_by(written))


@given(meant=st.integers(100, 99_999), at=st.integers(0, 3), digit=st.integers(1, 9))
def test_a_digit_too_many_is_found_wherever_it_slipped_in(meant, at, digit):
    text = str(meant)
    place = min(at, len(text))

    written = int(text[:place] + str(digit) + text[place:])

    assert meant in meant_by(written)[3]


@given(meant=st.integers(100, 99_999), at=st.integers(0, 3))
def test_two_neighbours_swapped_twice_stand_as_they_did(meant, at):
    text = str(meant)
    place = min(at, len(text) - 2)
    swapped = text[:place] + text[place + 1] + text[place] + text[place + 2 :]

    found = meant_by(int(swapped))[2]

    assert meant in found or swapped == text or swapped.startswith("0")


def test_a_single_digit_has_no_neighbour_and_none_too_many():
    assert meant_by(7) == ((70,), (17,), (), ())


@given(written=st.integers(1, 99_999))
def test_with_one_digit_changed_each_differs_in_one_and_has_as_many(written):
    text = str(written)

    for found in map(str, with_one_digit_changed(written)):
        differ = [one != other for one, other in zip(found, text, strict=True)]
        assert sum(differ) == 1


@given(written=st.integers(1, 99_999))
def test_with_one_digit_changed_none_is_left_out(written):
    found = with_one_digit_changed(written)

    # Nine other digits at each place, but no nought in front.
    assert len(set(found)) == 9 * len(str(written)) - 1
