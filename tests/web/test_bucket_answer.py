"""What a reading means: arithmetic that can be done again, and a doubt that hides nothing."""

import re

import pytest

from wareboard.records.glazes.bridge import Liked, liked_density
from wareboard.records.glazes.models import Reading
from wareboard.records.people.models import Studio
from wareboard.records.people.shown import Shown
from wareboard.web.pages.bucket_answer import answer_for

ARITHMETIC = re.compile(
    r"([\d.]+) g − ([\d.]+) g bottle = ([\d.]+) g in ([\d.]+) ml: ([\d.]+), wanted ([\d.]+)\. "
    r"([\d.]+) l × ([\d.]+) ÷ ([\d.]+) = ([\d.]+) l"
)


def weighed(full_g, **facts):
    """A bottle of 500 ml that weighs 200 g empty."""
    return Reading(full_g=full_g, empty_g=200.0, volume_ml=500.0, **facts)


def asked(full_g, liked, litres=6.0, **choices):
    """What the page answers."""
    return answer_for(weighed(full_g), liked, litres, Shown(Studio(**choices)))


@pytest.mark.parametrize("litres", [6.0, 0.35, 8.625])
@pytest.mark.parametrize("full_g", [912.0, 951.4])
def test_the_working_is_arithmetic_that_can_be_done_again(full_g, litres):
    answer = asked(full_g, Liked(1.4564, 5, 0.003), litres)

    full, empty, slop, ml, sg, want, volume, change, over, water = map(
        float, ARITHMETIC.fullmatch(answer.working).groups()
    )
    assert slop == pytest.approx(full - empty)
    assert sg == pytest.approx(slop / ml, abs=5e-4)
    assert change == pytest.approx(abs(sg - want))
    assert over == pytest.approx(want - 1)
    assert water == pytest.approx(volume * change / over, rel=1e-3)


def test_a_bucket_that_may_want_no_water_at_all_is_right():
    # A bottle of 500 ml is good to 0.005: 1.470 less 1.456 is more than that, but the good pots
    # lay as far apart as 0.024.
    answer = asked(935.0, Liked(1.456, 6, 0.014))

    assert answer.say == "Right. No water."
    assert answer.deed is None
    assert answer.working.endswith(
        ": 1.470, wanted 1.456. Nearer than 0.015 the two cannot be told apart."
    )


@pytest.mark.parametrize(
    ("full_g", "say", "done"),
    [
        (945.0, "A little thick. Add 0.4 l of water.", "Done: 0.4 l of water in"),
        (912.0, "A little thin. Take off 0.4 l of clear water.", "Done: 0.4 l taken off"),
    ],
)
def test_water_to_add_or_take_off_lies_within_its_span_and_is_kept_as_said(full_g, say, done):
    answer = asked(full_g, Liked(1.456, 6, 0.004))

    low, high = re.fullmatch(r"\(([\d.]+)–([\d.]+) l\)", answer.doubt).groups()
    assert (answer.say, answer.deed.say, answer.deed.amount_l) == (say, done, "0.4")
    assert 0 < float(low) <= 0.4 < float(high)


def test_the_ends_of_little_water_stand_in_one_unit():
    answer = asked(935.0, Liked(1.456, 6, 0.004), 1.5)

    assert answer.say == "A little thick. Add 50 ml of water."
    assert answer.doubt.endswith(" ml)")
    assert answer.deed.say == "Done: 50 ml of water in"


def test_readings_of_good_pots_that_lie_far_apart_are_a_doubtful_aim():
    near = liked_density([weighed(930.0), weighed(931.0), weighed(929.0)], scale_step_g=1.0)
    far = liked_density([weighed(910.0), weighed(930.0), weighed(950.0)], scale_step_g=1.0)
    two = liked_density([weighed(920.0), weighed(940.0)], scale_step_g=1.0)

    # Of three that lie 0.04 apart Student's factor is 2.920: 2.920 x 0.04 / sqrt(3).
    assert far.half == pytest.approx(2.920 * 0.04 / 3**0.5)
    assert two.half == pytest.approx(0.02)
    # Three that agree are not known better than a bottle of 500 ml can be read.
    assert near.half == pytest.approx(liked_density([weighed(930.0)], scale_step_g=1.0).half)


def test_a_studio_of_gallons_does_the_sum_in_gallons():
    answer = asked(945.0, Liked(1.456, 6, 0.004), 7.57, volume="us gallon")

    # 7.57 l are two gallons, and 2 x 0.034 / 0.456 is 0.149.
    assert answer.working.endswith(" 2 US gal × 0.034 ÷ 0.456 = 0.1491 US gal")
