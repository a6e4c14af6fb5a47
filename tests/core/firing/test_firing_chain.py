"""From the progress of every cone to one reading."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.firing.chain import (
    ConeReading,
    Place,
    by_cone,
    crossed,
    degrees_past_c,
    read_chain,
    reading_at,
)
from wareboard.core.firing.heatwork import progress
from wareboard.core.firing.log import firing_log
from wareboard.core.firing.series import cone_series

TABLE = cone_series().table
END_C = dict(zip(TABLE.cones, TABLE.ordinary_c.tolist(), strict=True))


def after_steady_climb(to_c: float, rate_c_h: float = 60.0) -> np.ndarray:
    return progress(TABLE, firing_log([0.0, (to_c - 20.0) / rate_c_h], [20.0, to_c]))


def between(fraction: float) -> ConeReading:
    return ConeReading(Place.WITHIN, "9", "10", fraction, 1260.0)


@pytest.mark.parametrize("cone", [TABLE.cones[i] for i in TABLE.chain])
def test_a_climb_at_60_an_hour_to_an_end_point_reads_as_that_cone(cone):
    reading = read_chain(TABLE, after_steady_climb(END_C[cone]))

    assert reading.text == f"{cone}+0.00"
    assert reading.equivalent_c == pytest.approx(END_C[cone], abs=1e-6)


@given(to_c=st.floats(590.0, 1364.0))
def test_reading_and_equivalent_temperature_say_the_same(to_c):
    reading = read_chain(TABLE, after_steady_climb(to_c))

    again = reading_at(TABLE, reading.equivalent_c)

    assert again.cone == reading.cone
    assert again.fraction == pytest.approx(reading.fraction, abs=1e-9)
    assert again.equivalent_c == pytest.approx(reading.equivalent_c, abs=1e-9)


@given(to_c=st.floats(1142.0, 1364.0))
def test_the_equivalent_of_a_climb_at_60_an_hour_is_near_its_own_end(to_c):
    reading = read_chain(TABLE, after_steady_climb(to_c))

    # Between two cones the degrees of the one and of the other stretch differ.
    assert reading.equivalent_c == pytest.approx(to_c, abs=3.0)


def test_degrees_past_are_degrees_of_a_climb_at_60_an_hour():
    cone_9 = TABLE.cones.index("9")

    short = degrees_past_c(TABLE, after_steady_climb(1250.0))[cone_9]
    past = degrees_past_c(TABLE, after_steady_climb(1265.0))[cone_9]

    assert (short, past) == (pytest.approx(-10.0, abs=1e-6), pytest.approx(5.0, abs=1e-6))


def test_a_cone_that_has_had_nothing_is_as_far_as_can_be():
    assert degrees_past_c(TABLE, np.zeros(len(TABLE.cones)))[0] == -np.inf


@pytest.mark.parametrize(("reached", "text"), [(0.9989, "8"), (0.999, "9"), (1.0, "9")])
def test_a_cone_is_down_from_999_thousandths(reached, text):
    many = after_steady_climb(1255.0)
    many[TABLE.cones.index("9")] = reached

    assert read_chain(TABLE, many).cone == text


def test_a_cone_just_short_of_down_reads_as_the_cone_not_less():
    many = after_steady_climb(1255.0)
    many[TABLE.cones.index("9")] = 0.9995

    assert read_chain(TABLE, many).text == "9+0.00"


def test_a_reading_is_never_rounded_up_to_a_cone_that_still_stands():
    assert between(0.9999).text == "9+0.99"
    assert between(0.125).text == "9+0.12"
    assert between(0.756).text == "9+0.76"


@pytest.mark.parametrize(
    ("fraction", "words"),
    [
        (0.0, "cone 9"),
        (0.099, "cone 9"),
        (0.1, "between cones 9 and 10, nearer 9"),
        (0.449, "between cones 9 and 10, nearer 9"),
        (0.46, "half way between cones 9 and 10"),
        (0.54, "half way between cones 9 and 10"),
        (0.551, "between cones 9 and 10, nearer 10"),
        (0.9, "between cones 9 and 10, nearer 10"),
        (0.901, "nearly cone 10"),
    ],
)
def test_the_words_say_which_cone_is_nearer(fraction, words):
    assert between(fraction).words == words


def test_below_the_table_there_is_no_reading():
    reading = read_chain(TABLE, after_steady_climb(580.0))

    assert (reading.place, reading.text, reading.equivalent_c) == (Place.BELOW, None, None)
    assert reading.words == "below cone 022, the lowest of the table"


def test_above_the_table_there_is_no_reading():
    reading = read_chain(TABLE, after_steady_climb(1366.0))

    assert (reading.place, reading.text, reading.equivalent_c) == (Place.ABOVE, None, None)
    assert reading.words == "above cone 14, the highest of the table"


@pytest.mark.parametrize(
    ("equivalent_c", "words"),
    [
        (585.9, "below cone 022, the lowest of the table"),
        (586.0, "cone 022"),
        (1365.0, "cone 14"),
        (1365.1, "above cone 14, the highest of the table"),
    ],
)
def test_a_temperature_at_the_end_of_the_table_still_reads(equivalent_c, words):
    assert reading_at(TABLE, equivalent_c).words == words


def test_half_cones_are_no_links_of_the_chain():
    reading = read_chain(TABLE, after_steady_climb(1210.0))

    assert (reading.cone, reading.next_cone) == ("5", "6")


def test_where_neighbours_cross_the_last_cone_down_counts_and_they_are_named():
    # By the charts carried on to 3 °C/h: cone 2 at 1112 - 21.64 ln 5 = 1077, cone 3 at
    # 1115 - 26.69 ln 5 = 1072.
    many = after_steady_climb(1075.0, 3.0)

    assert crossed(TABLE, many) == ("2", "3")
    assert read_chain(TABLE, many).cone == "3"


def test_in_an_ordinary_climb_nothing_crosses():
    assert crossed(TABLE, after_steady_climb(1260.0)) is None


def test_progress_is_told_for_half_cones_too():
    told = by_cone(TABLE, after_steady_climb(1203.0))

    assert list(told) == list(TABLE.cones)
    assert told["5.5"] == pytest.approx(1.0, abs=1e-9)
