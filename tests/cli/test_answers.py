"""Numbers for people: no finer than their doubt, no exponent."""

import pytest

from wareboard.cli.answers import about, plain, rounded
from wareboard.core.answer import Interval


@pytest.mark.parametrize(
    ("value", "low", "high", "words"),
    [
        (22.3, 21.2, 23.3, "about 22 g (21–23)"),
        (22.34, 22.29, 22.39, "about 22.34 g (22.29–22.39)"),
        (3656.25, 3564.0, 3749.0, "about 3660 g (3560–3750)"),
        (0.2123, 0.18, 0.245, "about 0.21 g (0.18–0.24)"),
        (777.0, -200.0, 1750.0, "about 800 g (-200 to 1800)"),
    ],
)
def test_a_number_is_shown_no_finer_than_its_doubt(
    value: float, low: float, high: float, words: str
) -> None:
    assert about(value, Interval(low, high, "scale"), "g") == words


def test_a_number_without_doubt_has_four_digits_at_most() -> None:
    assert about(12.34567, None, "g") == "12.35 g"


def test_a_doubt_of_nothing_is_no_doubt() -> None:
    assert about(5.0, Interval(5.0, 5.0, "counted")) == "5"


def test_what_cannot_be_told_is_said() -> None:
    assert about(None, None, "mm") == "not to be told"


@pytest.mark.parametrize(
    ("value", "words"),
    [(0.0, "0"), (-0.0, "0"), (1e7, "10000000"), (0.00012345, "0.0001234"), (-2.5, "-2.5")],
)
def test_rounded_numbers_have_no_exponent(value: float, words: str) -> None:
    assert rounded(value) == words


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_json_cannot_hold_becomes_null(value: float) -> None:
    assert plain({"a": [value, 1.0], "b": ("x", None)}) == {"a": [None, 1.0], "b": ["x", None]}
