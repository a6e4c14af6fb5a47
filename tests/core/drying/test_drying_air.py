import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.drying import (
    AIR_NOT_KNOWN,
    Air,
    AirWord,
    air_by_hygrometer,
    air_by_word,
    air_explains,
    air_share,
)
from wareboard.core.errors import WeighingError

humidities = st.floats(5.0, 98.0)


def test_half_saturated_air_keeps_the_share_the_rule_is_named_by():
    # r / (1 - r) is 1 there, whatever its power.
    assert air_share(50.0) == pytest.approx(0.008, rel=1e-12)


@given(low=humidities, high=humidities)
def test_damper_air_never_explains_less(low, high):
    low, high = sorted((low, high))

    assert air_share(low) <= air_share(high)


@given(rh=humidities)
def test_air_and_its_mirror_multiply_to_the_share_of_half_saturated_air(rh):
    mirrored = 100.0 - rh

    # (r / (1 - r)) and ((1 - r) / r) have one and the same power.
    assert air_share(rh) * air_share(mirrored) == pytest.approx(0.008**2, rel=1e-9)


def test_the_casserole_in_fog_by_hand():
    answer = air_explains(1800, air_by_hygrometer(87))

    # 1800 x 0.008 x (0.87 / 0.13)^0.42 with a hand calculator: 32.0 g, 1.78 %.
    assert answer.result.air_g == pytest.approx(32.0, abs=0.05)
    assert answer.result.air_percent == pytest.approx(1.78, abs=0.005)
    assert answer.cautions == ()


def test_above_what_was_tried_air_counts_as_the_dampest_tried():
    answer = air_explains(1000, air_by_hygrometer(99.5))

    assert answer.result.air_g == pytest.approx(1000 * air_share(98.0), rel=1e-12)
    assert answer.cautions == ("Air above 98 % is counted as 98 %.",)


@pytest.mark.parametrize(
    ("word", "rh", "low", "high"),
    [
        ("crisp", 50, 42, 58),
        ("ordinary", 65, 57, 73),
        (AirWord.STICKY, 80, 72, 88),
        ("fog", 92, 84, 100),
    ],
)
def test_a_word_stands_for_a_humidity_within_eight_per_cent(word, rh, low, high):
    air = air_by_word(word)

    assert (air.rh_percent, air.low_percent, air.high_percent) == (rh, low, high)
    assert air.basis == f"by feel, {word}"


@given(rh=st.floats(5, 100))
def test_a_hygrometer_is_believed_within_four_per_cent(rh):
    air = air_by_hygrometer(rh)

    assert air.rh_percent == rh
    assert air.low_percent == rh - 4.0
    assert air.high_percent == min(rh + 4.0, 100.0)


@given(rh=st.floats(5, 100), dry_g=st.floats(20, 5_000))
def test_what_the_air_explains_lies_within_its_doubt(rh, dry_g):
    answer = air_explains(dry_g, air_by_hygrometer(rh))

    doubt = answer.doubt["air_g"]
    assert 0.0 <= doubt.low < answer.result.air_g < doubt.high


def test_the_clay_alone_doubts_by_its_factor():
    answer = air_explains(1000, Air(80.0, 80.0, 80.0, "known exactly"))

    assert answer.doubt["air_g"].low == pytest.approx(answer.result.air_g / 1.6, rel=1e-9)
    assert answer.doubt["air_g"].high == pytest.approx(answer.result.air_g * 1.6, rel=1e-9)


def test_a_word_doubts_more_than_a_hygrometer():
    felt = air_explains(1000, air_by_word("sticky")).doubt["air_g"]
    read = air_explains(1000, air_by_hygrometer(80)).doubt["air_g"]

    assert felt.low < read.low
    assert felt.high > read.high


def test_air_nobody_wrote_down_may_have_been_anything_from_dry_to_fog():
    assert AIR_NOT_KNOWN.low_percent < air_by_word("crisp").rh_percent
    assert AIR_NOT_KNOWN.high_percent > air_by_word("fog").rh_percent


@pytest.mark.parametrize("rh", [-1, 4, 101, float("nan"), float("inf")])
def test_a_reading_that_cannot_be_is_refused(rh):
    with pytest.raises(WeighingError) as refused:
        air_by_hygrometer(rh)

    assert refused.value.field == "rh-percent"


def test_a_humidity_typed_as_a_share_is_asked_about():
    with pytest.raises(WeighingError) as refused:
        air_by_hygrometer(0.87)

    assert refused.value.say == "The relative humidity cannot be 0.87: do you mean 87?"


def test_an_unknown_word_is_refused_with_the_four_that_would_do():
    with pytest.raises(WeighingError) as refused:
        air_by_word("muggy")

    assert refused.value.accepted == "crisp, ordinary, sticky or fog"


@pytest.mark.parametrize(
    ("rh", "low", "high"),
    [(80, 85, 90), (80, 70, 75), (80, 0, 90), (80, 70, 101), (float("nan"), 70, 90)],
)
def test_air_outside_its_own_interval_is_refused(rh, low, high):
    with pytest.raises(WeighingError):
        Air(rh, low, high, "typed")


def test_the_air_explains_nothing_of_no_pot():
    with pytest.raises(WeighingError) as refused:
        air_explains(0, air_by_word("fog"))

    assert refused.value.field == "dry-clay-g"
