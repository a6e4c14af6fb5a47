import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.bounds import WEIGHED_G, within
from wareboard.core.doubt import NORMAL_90, STUDENT_90, around, reach, student_90, together
from wareboard.core.errors import CoreError, WeighingError


def student_share_within(limit, freedom, steps=20_000):
    """Simpson's rule over the density of Student's distribution."""
    scale = math.exp(math.lgamma((freedom + 1) / 2) - math.lgamma(freedom / 2))
    scale /= math.sqrt(freedom * math.pi)
    width = limit / steps

    def density(t):
        return scale * (1 + t * t / freedom) ** (-(freedom + 1) / 2)

    inner = sum((4 if i % 2 else 2) * density(i * width) for i in range(1, steps))
    return 2 * (density(0) + inner + density(limit)) * width / 3


@pytest.mark.parametrize("freedom", range(1, 31))
def test_student_factors_hold_nine_times_in_ten(freedom):
    # A factor is printed to 0.0005; the density there is under 0.12.
    assert student_share_within(STUDENT_90[freedom - 1], freedom) == pytest.approx(0.9, abs=1.2e-4)


def test_the_normal_factor_holds_nine_times_in_ten():
    assert math.erf(NORMAL_90 / math.sqrt(2)) == pytest.approx(0.9, abs=1e-4)


def test_many_degrees_of_freedom_err_to_the_wide_side():
    assert student_90(500) == STUDENT_90[-1]
    assert student_90(500) > NORMAL_90


def test_errors_that_know_nothing_of_each_other_add_as_a_right_angle():
    assert together([3.0, 4.0]) == 5.0
    assert together([]) == 0.0


@given(a=st.floats(-10, 10), b=st.floats(-10, 10))
def test_reach_is_exact_for_a_sum(a, b):
    half = reach(lambda a, b: 2 * a - 3 * b, {"a": a, "b": b}, {"a": 0.5, "b": 0.25})

    assert half == pytest.approx(math.hypot(1.0, 0.75), rel=1e-9)


def test_an_interval_is_cut_where_the_value_cannot_go():
    interval = around(0.2, 0.5, "a guess", lowest=0.0, highest=0.6)

    assert (interval.low, interval.high, interval.basis) == (0.0, 0.6, "a guess")


def test_within_gives_the_value_back():
    assert within(450, WEIGHED_G, field="now-g") == 450.0


def test_within_says_what_would_do():
    with pytest.raises(WeighingError) as refused:
        within(-3, WEIGHED_G, field="now-g", name="weight of the pot")

    assert refused.value.say == (
        "The weight of the pot cannot be -3: grams above 0 and up to 10000000, such as 450 "
        "would do."
    )
    assert refused.value.accepted == "grams above 0 and up to 10000000, such as 450"


def test_within_raises_the_branch_it_was_asked_for():
    with pytest.raises(CoreError) as refused:
        within(math.nan, WEIGHED_G, field="now-g", error=CoreError)

    assert type(refused.value) is CoreError
