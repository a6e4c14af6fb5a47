"""What holds for every typed number, not only for those of the list."""

from decimal import Decimal

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from wareboard.core.units import (
    LENGTH_CM,
    LENGTH_MM,
    MASS_G,
    RESOLUTION,
    SLOP_SG,
    TEMP_C,
    VOLUME_L,
    VOLUME_ML,
    Quantity,
)
from wareboard.exchange.typed_number import (
    NumberRefused,
    Reading,
    TypedNumber,
    as_typed,
    plain_column,
    read_number,
    read_typed,
    written,
)

ANY = Quantity("number", "", -1.7976931348623157e308, 1.7976931348623157e308, "any number")


@settings(deadline=None)
@given(st.floats(allow_nan=False, allow_infinity=False))
@example(-0.0)
@example(1e16)
@example(RESOLUTION)
def test_any_number_written_shortest_reads_back_the_same(number: float) -> None:
    text = repr(number)

    if 0 < abs(number) < RESOLUTION:
        with pytest.raises(NumberRefused, match="smaller than can be told from zero"):
            read_number(text, ANY, field="x")
    else:
        assert read_number(text, ANY, field="x") == number
        assert read_number(written(number), ANY, field="x") == number


@settings(deadline=None)
@given(st.decimals(min_value=-10_000_000, max_value=10_000_000, places=5))
def test_decimal_comma_and_decimal_point_are_the_same_number(number: Decimal) -> None:
    with_point = f"{number:f}"

    point = read_typed(with_point, ANY, field="x")
    comma = read_typed(with_point.replace(".", ","), ANY, field="x")

    assert comma == point == TypedNumber(float(number), "")


@settings(deadline=None)
@given(st.text(), st.sampled_from(list(Reading)), st.sampled_from([MASS_G, SLOP_SG, TEMP_C, ANY]))
@example("1\N{VULGAR FRACTION ONE HALF}/2", Reading.AS_TYPED, ANY)
@example("1e9999 kg", Reading.AS_TYPED, MASS_G)
def test_any_text_is_read_or_refused_and_nothing_else(
    text: str, reading: Reading, quantity: Quantity
) -> None:
    try:
        number = read_number(text, quantity, field="x", reading=reading)
    except NumberRefused:
        return

    assert quantity.allows(number)


NUMBER_LIKE = st.text("0123456789.,'-+eE /%g kozlb\u00a0\u00bd", max_size=12)


@settings(deadline=None)
@given(NUMBER_LIKE, st.sampled_from(list(Reading)), st.sampled_from([MASS_G, SLOP_SG, ANY]))
def test_text_like_a_number_is_read_or_refused_and_nothing_else(
    text: str, reading: Reading, quantity: Quantity
) -> None:
    try:
        number = read_number(text, quantity, field="x", reading=reading)
    except NumberRefused:
        return

    assert quantity.allows(number)


@settings(deadline=None)
@given(st.lists(st.one_of(NUMBER_LIKE, st.floats(0, 1e7).map(repr)), max_size=4))
@example(["1e-400", "1"])
@example(["1" * 65])
@example(["0.0", "-0.0"])
def test_a_column_at_once_reads_what_its_cells_read(cells: list[str]) -> None:
    try:
        one_by_one = [read_number(cell, MASS_G, field="x") for cell in cells]
    except NumberRefused:
        one_by_one = None

    assert plain_column(cells, MASS_G) == one_by_one


BEGUN = st.one_of(
    st.decimals(min_value=0, max_value=9_999, places=3).map(float), st.floats(0.001, 9_999)
)


@settings(deadline=None)
@given(BEGUN, st.sampled_from([MASS_G, VOLUME_ML, VOLUME_L, LENGTH_MM, LENGTH_CM]))
@example(8.125, MASS_G)
@example(283.495, MASS_G)
def test_what_a_page_began_with_is_never_asked_about(number: float, quantity: Quantity) -> None:
    number = max(number, 0.001)

    assert read_typed(as_typed(number), quantity, field="x") == TypedNumber(number, "")


def test_nothing_begins_with_nothing() -> None:
    assert as_typed(None) == ""
