"""Numbers as people read them: rounded as it is taught in school."""

import pytest

from wareboard.core.answer import Interval
from wareboard.records.people.shown import Shown, rounded


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        (0.25, 0.1, "0.3"),
        (0.35, 0.1, "0.4"),
        (2.5, 1.0, "3"),
        (64.5, 1.0, "65"),
        (1.005, 0.01, "1.01"),
        (2.675, 0.01, "2.68"),
        (3.5488, 0.1, "3.5"),
        (3.5556, 0.1, "3.6"),
        (0.875, 0.05, "0.90"),
        (0.87, 0.05, "0.85"),
        (0.1 + 0.2 - 0.05, 0.1, "0.3"),
        (-2.5, 1.0, "-3"),
        (-0.02, 0.1, "0.0"),
        (1235.0, 10.0, "1240"),
        (1e9, 1.0, "1000000000"),
    ],
)
def test_half_a_step_goes_up_and_a_number_keeps_the_digits_of_its_step(value, step, text):
    assert rounded(value, step) == text


@pytest.mark.parametrize(
    ("mass_g", "text"),
    [(4800.0, "4800 g"), (12345.0, "12345 g"), (0.25, "0.25 g"), (65.9 - 57.3, "8.6 g")],
)
def test_what_a_scale_says_is_written_as_it_stands(mass_g, text):
    assert Shown.weighed(mass_g) == text


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (21.0, 23.0, "(21–23 g)"),
        (-3.0, 9.0, "(up to 9 g)"),
        (-0.4, 9.0, "(0–9 g)"),
        (-5.0, -2.0, "(-5 to -2 g)"),
        (4.1, 4.3, ""),
    ],
)
def test_a_doubt_that_begins_below_nothing_says_only_where_it_ends(low, high, text):
    assert Shown.span(Interval(low, high, "scale"), 1.0, "g") == text
