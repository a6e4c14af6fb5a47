"""Flame words along the log."""

import pytest

from wareboard.core.firing.flame import FlameLine, hours_with, reduction_start

REDUCING = {"soft", "reducing", "smoky"}
LINES = [
    FlameLine(10.5, 930.0, "smoky"),
    FlameLine(9.0, 830.0, "clear"),
    FlameLine(10.0, 905.0, "soft"),
    FlameLine(11.0, 950.0, "clear"),
    FlameLine(15.0, None, "reducing"),
]


def test_reduction_begins_at_the_earliest_line_with_a_word_for_it():
    assert reduction_start(LINES, REDUCING) == FlameLine(10.0, 905.0, "soft")


def test_a_firing_without_such_a_word_has_no_reduction():
    assert reduction_start(LINES[1:2], REDUCING) is None
    assert reduction_start([], REDUCING) is None


def test_each_word_holds_until_the_next_line():
    # Soft and smoky from 10 to 11, reducing from 15 to the shut-off.
    assert hours_with(LINES, REDUCING, until_hours=16.5) == pytest.approx(2.5, rel=1e-15)
    assert hours_with(LINES, {"clear"}, until_hours=16.5) == pytest.approx(5.0, rel=1e-15)


def test_words_after_the_end_do_not_count():
    assert hours_with(LINES, REDUCING, until_hours=10.75) == pytest.approx(0.75, rel=1e-15)
    assert hours_with(LINES, REDUCING, until_hours=8.0) == 0.0


def test_all_words_together_fill_the_log():
    words = {line.word for line in LINES}

    assert hours_with(LINES, words, until_hours=16.0) == pytest.approx(16.0 - 9.0, rel=1e-15)
