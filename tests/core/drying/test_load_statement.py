import math

import pytest

from wareboard.core.drying import (
    DryWeight,
    Sign,
    Standing,
    air_by_hygrometer,
    before_lighting,
    load_statement,
)
from wareboard.core.drying.lighting import SLOW_START

FOG = air_by_hygrometer(87)


def pot(now_g, dry_g=1000.0, standing=Standing.OWN):
    return before_lighting(now_g, DryWeight(dry_g, 0.5, standing), air=FOG)


GO = pot(1005)
WAIT = pot(1043)
STOP = pot(1096)
UNKNOWN = before_lighting(700, None, air=FOG)


def test_a_load_is_counted_by_sign_and_its_grams_added():
    answer = load_statement([GO, STOP, WAIT, STOP, UNKNOWN])

    load = answer.result
    assert (load.go, load.wait, load.stop, load.cannot_tell) == (1, 1, 2, 1)
    assert load.weighed == 4
    assert load.over_dry_g == pytest.approx(5 + 43 + 96 + 96)
    assert load.over_air_g == pytest.approx(load.over_dry_g - 4 * GO.result.air_g)
    assert load.say == (
        "2 pots are too wet to light, 1 pot should wait, 1 pot cannot be told, of 5 in this load."
    )
    assert answer.cautions == (SLOW_START, "1 pot is not in the grams: no dry weight.")


def test_doubts_of_dry_weights_add_at_a_right_angle_and_that_of_the_air_straight():
    one = STOP.doubt
    answer = load_statement([STOP, STOP, STOP, STOP])

    over_dry = answer.doubt["over_dry_g"].high - answer.result.over_dry_g
    over_air = answer.doubt["over_air_g"].high - answer.result.over_air_g
    assert over_dry == pytest.approx(math.sqrt(4) * (one["over_dry_g"].high - 96), rel=1e-9)
    assert over_air == pytest.approx(
        4 * (one["over_air_g"].high - STOP.result.over_air_g), rel=1e-9
    )


@pytest.mark.parametrize(
    ("pots", "say"),
    [
        ([], "No pot in this load yet."),
        ([GO], "The pot is a go, with the slow start below 95 \N{DEGREE SIGN}C."),
        ([GO, GO], "All 2 pots are a go, with the slow start below 95 \N{DEGREE SIGN}C."),
        ([STOP], "1 pot is too wet to light, of 1 in this load."),
        ([GO, WAIT, WAIT], "2 pots should wait, of 3 in this load."),
        ([UNKNOWN, UNKNOWN], "2 pots cannot be told, of 2 in this load."),
    ],
)
def test_a_load_is_said_in_one_sentence(pots, say):
    assert load_statement(pots).result.say == say


def test_an_empty_load_has_no_grams_and_no_doubt():
    answer = load_statement([])

    assert answer.result.over_dry_g == 0
    assert answer.doubt == {}
    assert answer.cautions == (SLOW_START,)


def test_pots_left_out_of_the_grams_are_counted():
    answer = load_statement([UNKNOWN, UNKNOWN, GO])

    assert UNKNOWN.result.sign == Sign.CANNOT_TELL
    assert answer.cautions == (SLOW_START, "2 pots are not in the grams: no dry weight.")
