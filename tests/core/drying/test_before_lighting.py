import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.drying import (
    Air,
    DryWeight,
    NextWeighing,
    Proof,
    Sign,
    Standing,
    air_by_hygrometer,
    air_by_word,
    before_lighting,
    is_falling,
)
from wareboard.core.drying.lighting import DRIER_AIR, SLOW_START
from wareboard.core.errors import WeighingError

NEARNESS = [Sign.GO, Sign.WAIT, Sign.STOP]
"""From go outwards."""

FOG = air_by_hygrometer(87)
ESTIMATES = [Standing.FORM, Standing.PLASTIC]

humidities = st.floats(20, 98).map(air_by_hygrometer)
clays = st.floats(50, 5_000)
steps = st.floats(0.01, 5)


def own(dry_g, sd_g=0.11):
    return DryWeight(dry_g, sd_g, Standing.OWN)


def test_the_casserole_is_a_stop():
    # Bone dry 1800 g, 96 g over it, air of 87 %: 32.0 g explained, 64 g left, 3.6 %.
    answer = before_lighting(1896, own(1800), air=FOG)

    assert answer.result.sign == Sign.STOP
    assert answer.result.over_dry_g == 96
    assert answer.result.air_g == pytest.approx(32.0, abs=0.05)
    assert answer.result.over_air_g == pytest.approx(64.0, abs=0.05)
    assert answer.result.over_percent == pytest.approx(3.6, abs=0.05)
    assert answer.result.next_weighing == NextWeighing.LATER
    assert answer.result.reasons[0] == (
        "It weighs 96 g over its own bone-dry weight and its coat; this air explains 32 g, "
        "64 g are left, 3.6 % of the clay."
    )
    assert answer.result.reasons[1] == "More than 3 % over: too wet to light."


@pytest.mark.parametrize(
    ("over_air_percent", "sign"),
    [
        (-1.0, Sign.GO),
        (0.0, Sign.GO),
        (1.9, Sign.GO),
        (2.1, Sign.WAIT),
        (2.9, Sign.WAIT),
        (3.1, Sign.STOP),
        (20.0, Sign.STOP),
    ],
)
def test_own_dry_weight_goes_waits_and_stops_at_two_and_three_per_cent(over_air_percent, sign):
    air_g = before_lighting(1000, own(1000), air=FOG).result.air_g

    answer = before_lighting(
        1000 + air_g + 10 * over_air_percent, own(1000), air=FOG, scale_step_g=0.1
    )

    assert answer.result.sign == sign


def test_go_reads_with_the_slow_start_and_never_safe():
    answer = before_lighting(1000, own(1000), air=None, scale_step_g=0.1)

    assert answer.result.sign.reads == "go, with the slow start below 95 \N{DEGREE SIGN}C"
    assert answer.result.next_weighing == NextWeighing.NONE
    assert answer.cautions == (SLOW_START,)
    said = " ".join([answer.result.sign.reads, *answer.result.reasons, *answer.cautions])
    assert said.lower().count("safe") == 0


@pytest.mark.parametrize("sign", [Sign.WAIT, Sign.STOP, Sign.CANNOT_TELL])
def test_other_signs_read_as_they_are(sign):
    assert sign.reads == sign.value


def test_the_dry_coat_is_not_taken_for_water():
    bare = before_lighting(1025, own(1000), air=None, scale_step_g=0.1)
    coated = before_lighting(1025, own(1000), air=None, scale_step_g=0.1, coat_g=20)

    assert bare.result.sign == Sign.WAIT
    assert coated.result.sign == Sign.GO
    assert coated.result.over_dry_g == pytest.approx(5)


def test_a_coat_that_is_hardly_known_counts_against_the_pot():
    sure = before_lighting(1025, own(1000), air=None, scale_step_g=0.1, coat_g=20)
    unsure = before_lighting(1025, own(1000), air=None, scale_step_g=0.1, coat_g=20, coat_sd_g=8)

    assert sure.result.sign == Sign.GO
    assert unsure.result.sign == Sign.WAIT


def test_two_weighings_on_one_scale_count_as_3_7_of_its_errors():
    # A limit of 20 g: 20 - 3.7 = 16.3 g over may go, more may not.
    dry = own(1000, sd_g=1.1)

    under = before_lighting(1016.3, dry, air=None, scale_step_g=1)
    over = before_lighting(1016.5, dry, air=None, scale_step_g=1)

    assert under.result.sign == Sign.GO
    assert over.result.sign == Sign.WAIT
    assert over.result.next_weighing == NextWeighing.PROOF


def test_air_nobody_knows_explains_nothing():
    known = before_lighting(1030, own(1000), air=FOG, scale_step_g=0.1)
    unknown = before_lighting(1030, own(1000), air=None, scale_step_g=0.1)

    assert known.result.sign == Sign.GO
    assert unknown.result.sign == Sign.WAIT
    assert unknown.result.air_g == 0.0
    assert unknown.doubt["air_g"].high == 0.0


def test_a_go_that_rests_on_damp_air_says_so():
    answer = before_lighting(1036, own(1000), air=air_by_word("fog"), scale_step_g=0.1)

    assert answer.result.sign == Sign.GO
    assert answer.cautions == (SLOW_START, DRIER_AIR)


def test_a_falling_board_is_never_a_go():
    steady = before_lighting(1005, own(1000), air=FOG)
    falling = before_lighting(1005, own(1000), air=FOG, still_falling=True)

    assert steady.result.sign == Sign.GO
    assert falling.result.sign == Sign.WAIT
    assert falling.result.next_weighing == NextWeighing.LATER


def test_a_pot_lighter_than_its_own_dry_weight_is_the_wrong_pot():
    answer = before_lighting(985, own(1000), air=FOG)

    assert answer.result.sign == Sign.CANNOT_TELL
    assert answer.result.next_weighing == NextWeighing.AGAIN
    assert answer.result.reasons[0] == (
        "It weighs 15 g under its own bone-dry weight and its coat; this air explains 18 g, "
        "nothing is left."
    )


@given(
    dry_g=clays,
    over=st.floats(-0.0099, 0.3),
    more=st.floats(0.0, 0.3),
    air=humidities,
    step=steps,
    falling=st.booleans(),
)
def test_a_heavier_pot_is_never_nearer_to_go(dry_g, over, more, air, step, falling):
    def sign(share):
        answer = before_lighting(
            dry_g * (1 + share), own(dry_g), air=air, scale_step_g=step, still_falling=falling
        )
        return answer.result.sign

    assert NEARNESS.index(sign(over + more)) >= NEARNESS.index(sign(over))


@given(dry_g=clays, over=st.floats(-0.05, 0.3), more=st.floats(0.0, 0.3), sd=st.floats(0.01, 0.1))
def test_a_heavier_pot_of_estimated_dry_weight_is_never_nearer_to_go(dry_g, over, more, sd):
    dry = DryWeight(dry_g, sd * dry_g, Standing.FORM)

    light = before_lighting(dry_g * (1 + over), dry, air=FOG).result.sign
    heavy = before_lighting(dry_g * (1 + over + more), dry, air=FOG).result.sign

    assert NEARNESS.index(heavy) >= NEARNESS.index(light)


@given(
    dry_g=clays,
    over=st.floats(-0.3, 0.3),
    air=st.one_of(st.none(), humidities),
    step=steps,
    sd=st.floats(0, 0.1),
    standing=st.sampled_from(ESTIMATES),
    falling=st.booleans(),
)
def test_an_estimated_dry_weight_says_wait_or_stop_and_never_go(
    dry_g, over, air, step, sd, standing, falling
):
    answer = before_lighting(
        dry_g * (1 + over),
        DryWeight(dry_g, sd * dry_g, standing),
        air=air,
        scale_step_g=step,
        still_falling=falling,
    )

    assert answer.result.sign in {Sign.WAIT, Sign.STOP}


@given(now_g=clays, air=st.one_of(st.none(), humidities), step=steps, falling=st.booleans())
def test_without_any_dry_weight_nothing_can_be_told(now_g, air, step, falling):
    answer = before_lighting(now_g, None, air=air, scale_step_g=step, still_falling=falling)

    assert answer.result.sign == Sign.CANNOT_TELL
    assert answer.result.over_dry_g is None
    assert answer.result.over_percent is None
    assert answer.doubt == {}


@given(
    dry_g=clays,
    over=st.floats(-0.02, 0.1),
    air=humidities,
    step=steps,
    coarser=st.floats(1.0, 20.0),
    sd=st.floats(0, 10),
    wider=st.floats(1.0, 20.0),
)
def test_weighing_errors_only_ever_make_it_harder_to_go(dry_g, over, air, step, coarser, sd, wider):
    now_g = dry_g * (1 + over)
    fine = before_lighting(now_g, own(dry_g, sd), air=air, scale_step_g=step).result.sign

    coarse = before_lighting(
        now_g, own(dry_g, sd * wider), air=air, scale_step_g=step * coarser
    ).result.sign

    assert not (coarse is Sign.GO and fine is not Sign.GO)
    assert (coarse is Sign.STOP) == (fine is Sign.STOP)


@given(dry_g=clays, over=st.floats(0, 0.1), damp=humidities, drier=st.floats(0.2, 1.0))
def test_drier_air_is_never_nearer_to_go(dry_g, over, damp, drier):
    rh = damp.rh_percent * drier
    dry_air = Air(rh, rh, rh, "drier")
    now_g = dry_g * (1 + over)

    in_damp = before_lighting(now_g, own(dry_g), air=damp).result.sign
    in_dry = before_lighting(now_g, own(dry_g), air=dry_air).result.sign

    assert NEARNESS.index(in_dry) >= NEARNESS.index(in_damp)


def test_an_estimate_stops_only_when_even_a_light_pot_would():
    dry = DryWeight(1000, 30, Standing.FORM)

    # 3 % and 1.645 x 30 g, the scale's own error beside: 79.4 g.
    maybe = before_lighting(1079, dry, air=None, scale_step_g=0.1)
    surely = before_lighting(1080, dry, air=None, scale_step_g=0.1)

    assert maybe.result.sign == Sign.WAIT
    assert surely.result.sign == Sign.STOP
    assert surely.result.reasons[1] == (
        "More than 3 % over, even if it was a light pot of its kind: too wet to light."
    )


def test_an_estimate_that_looks_wet_asks_for_time_and_one_that_looks_dry_for_a_proof():
    dry = DryWeight(1000, 60, Standing.PLASTIC)

    wet = before_lighting(1060, dry, air=None)
    near = before_lighting(1005, dry, air=None)

    assert wet.result.next_weighing == NextWeighing.LATER
    assert near.result.next_weighing == NextWeighing.PROOF
    assert near.result.reasons[1] == (
        "Only an estimated dry weight says so, and that never says go."
    )


@pytest.mark.parametrize(
    ("now_g", "step_g", "weighing"),
    [
        (900, 1.0, NextWeighing.PROOF),
        (300, 1.0, NextWeighing.PROOF_TOGETHER),
        (300, 0.1, NextWeighing.PROOF),
    ],
)
def test_small_pots_are_proved_together_on_a_coarse_scale(now_g, step_g, weighing):
    answer = before_lighting(now_g, None, air=FOG, scale_step_g=step_g)

    assert answer.result.next_weighing == weighing


def test_doubt_holds_the_answer_and_widens_with_the_air():
    by_word = before_lighting(1896, own(1800), air=air_by_word("sticky"))
    by_hygrometer = before_lighting(1896, own(1800), air=air_by_hygrometer(80))

    for answer in (by_word, by_hygrometer):
        for name, interval in answer.doubt.items():
            assert interval.low <= getattr(answer.result, name) <= interval.high
    assert by_word.doubt["over_air_g"].high > by_hygrometer.doubt["over_air_g"].high


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"now_g": 0}, "now-g"),
        ({"now_g": float("nan")}, "now-g"),
        ({"coat_g": -1}, "coat-g"),
        ({"coat_sd_g": -1}, "coat-sd-g"),
        ({"scale_step_g": 0}, "scale-g"),
        ({"dry": own(0)}, "dry-clay-g"),
        ({"dry": own(1000, -1)}, "dry-clay-sd-g"),
    ],
)
def test_an_impossible_pot_is_refused(change, field):
    given_numbers = {"now_g": 1896.0, "dry": own(1800), "air": FOG} | change
    now_g, dry = given_numbers.pop("now_g"), given_numbers.pop("dry")

    with pytest.raises(WeighingError) as refused:
        before_lighting(now_g, dry, **given_numbers)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("earlier", "later", "falls"), [(1010, 1000, True), (1001, 1000, False), (1000, 1010, False)]
)
def test_a_board_falls_when_it_loses_more_than_a_step(earlier, later, falls):
    assert is_falling(earlier, later) is falls


@pytest.mark.parametrize(
    ("numbers", "field"),
    [((0, 1000, 1), "earlier-g"), ((1000, 0, 1), "later-g"), ((1000, 990, 0), "scale-g")],
)
def test_an_impossible_fall_is_refused(numbers, field):
    earlier, later, step = numbers

    with pytest.raises(WeighingError) as refused:
        is_falling(earlier, later, scale_step_g=step)

    assert refused.value.field == field


def test_a_weight_is_not_held_against_itself():
    answer = before_lighting(900, own(900), air=FOG, held_against_itself=True)

    assert answer.result.sign == Sign.CANNOT_TELL
    assert answer.result.next_weighing == NextWeighing.PROOF
    assert answer.result.reasons[1] == (
        "Its dry weight is this very weighing: nothing else says that it was dry."
    )


def test_a_passed_proof_counts_also_where_the_dry_weight_is_this_very_weighing():
    proof = Proof(before_g=900, after_g=899)

    answer = before_lighting(899, own(899), air=FOG, proof=proof, held_against_itself=True)

    assert answer.result.sign == Sign.GO
