"""How thick a coat one dip leaves, before it is hard to believe."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.coat import most_of_one_dip_mm
from wareboard.core.errors import ShapeError

GOOD_MM = st.lists(st.floats(0.01, 100.0), min_size=1, max_size=20)


@given(good_mm=GOOD_MM)
def test_no_good_coat_would_be_asked_about(good_mm):
    assert most_of_one_dip_mm(good_mm) > max(good_mm)


@given(good_mm=GOOD_MM)
def test_three_times_the_thickest_good_coat_always_is(good_mm):
    assert most_of_one_dip_mm(good_mm) <= 3 * max(good_mm)


def test_of_a_glaze_nobody_knows_what_is_thick_on_purpose_is_not_asked_about():
    # Common practice: 1 to 2 mm for glazes that are put on thick.
    assert most_of_one_dip_mm([]) == 2.0


def test_a_coat_that_cannot_be_is_refused():
    with pytest.raises(ShapeError):
        most_of_one_dip_mm([0.5, -0.1])
