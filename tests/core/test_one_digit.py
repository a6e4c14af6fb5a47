"""Numbers that differ from what was written in one digit."""

from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.one_digit import with_one_digit_changed


@given(written=st.integers(1, 99_999))
def test_each_differs_in_one_digit_and_has_as_many(written):
    text = str(written)

    for found in map(str, with_one_digit_changed(written)):
        differ = [one != other for one, other in zip(found, text, strict=True)]
        assert sum(differ) == 1


@given(written=st.integers(1, 99_999))
def test_none_is_left_out(written):
    found = with_one_digit_changed(written)

    # Nine other digits at each place, but no nought in front.
    assert len(set(found)) == 9 * len(str(written)) - 1
