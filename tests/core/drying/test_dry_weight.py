import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.drying import (
    AIR_NOT_KNOWN,
    Standing,
    air_by_hygrometer,
    air_by_word,
    air_share,
    beyond_form_g,
    dry_from_form,
    dry_from_plastic,
    dry_from_shelf,
    dry_from_tray,
    was_damp,
)
from wareboard.core.errors import WeighingError

weights = st.floats(50, 5_000)


def test_a_pot_warm_from_the_tray_is_its_own_dry_weight():
    answer = dry_from_tray(1800)

    assert answer.result.dry_clay_g == 1800
    assert answer.result.standing == Standing.OWN
    assert answer.result.sd_g == pytest.approx(1.1)


@given(dry_g=weights, rh=st.floats(10, 95))
def test_a_white_dry_pot_is_given_back_without_its_air(dry_g, rh):
    white_dry_g = dry_g * (1 + air_share(rh))

    answer = dry_from_shelf(white_dry_g, air_by_hygrometer(rh))

    assert answer.result.dry_clay_g == pytest.approx(dry_g, rel=1e-12)
    assert answer.result.standing == Standing.OWN


@given(weight_g=weights, rh=st.floats(10, 95))
def test_a_white_dry_pot_is_never_taken_for_heavier_than_it_is(weight_g, rh):
    shelf = dry_from_shelf(weight_g, air_by_hygrometer(rh)).result

    tray = dry_from_tray(weight_g).result

    assert shelf.dry_clay_g < tray.dry_clay_g
    assert shelf.sd_g > tray.sd_g


def test_damper_air_takes_more_off_and_leaves_more_doubt():
    crisp = dry_from_shelf(600, air_by_word("crisp")).result
    fog = dry_from_shelf(600, air_by_word("fog")).result

    assert fog.dry_clay_g < crisp.dry_clay_g
    assert fog.sd_g > crisp.sd_g


def test_air_nobody_wrote_down_is_doubted_most():
    unknown = dry_from_shelf(600, AIR_NOT_KNOWN).result
    read = dry_from_shelf(600, air_by_hygrometer(75)).result

    assert unknown.sd_g > 2.0 * read.sd_g


def test_three_pots_of_a_form_are_doubted_by_five_per_cent_at_least():
    answer = dry_from_form([600.0, 600.0, 600.0])

    assert answer.result.dry_clay_g == 600
    assert answer.result.standing == Standing.FORM
    assert answer.doubt["dry_clay_g"].high == pytest.approx(630, rel=1e-9)


def test_pots_that_differ_more_are_doubted_by_their_own_scatter():
    answer = dry_from_form([500.0, 600.0, 700.0])

    # Standard deviation 100, three pots, the next one: 2.920 x 100 x sqrt(4/3).
    half = answer.doubt["dry_clay_g"].high - 600
    assert half == pytest.approx(2.920 * 100 * (4 / 3) ** 0.5, rel=1e-9)


@pytest.mark.parametrize("pots", [[600.0], [590.0, 610.0]])
def test_one_or_two_pots_of_a_form_are_doubted_by_ten_per_cent(pots):
    answer = dry_from_form(pots)

    assert answer.doubt["dry_clay_g"].high == pytest.approx(660, rel=1e-9)


def test_the_throwing_weight_by_hand():
    # 850 g at 21 % water, 14 % trimmed: 850 x 0.86 x 0.79 = 577.49 g.
    answer = dry_from_plastic(850, 21, kept=0.86)

    assert answer.result.dry_clay_g == pytest.approx(577.49, abs=0.005)
    assert answer.result.standing == Standing.PLASTIC


def test_a_point_of_moisture_is_a_hundredth_of_the_plastic_weight():
    answer = dry_from_plastic(850, 21, moisture_doubt_percent=1.0)

    half = answer.doubt["dry_clay_g"].high - answer.result.dry_clay_g
    assert half == pytest.approx(8.5, rel=1e-9)


def test_trimming_adds_to_the_doubt():
    thrown = dry_from_plastic(850, 21).result
    trimmed = dry_from_plastic(850, 21, kept=0.86).result

    assert trimmed.sd_g / trimmed.dry_clay_g > thrown.sd_g / thrown.dry_clay_g


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: dry_from_tray(0), "dry-clay-g"),
        (lambda: dry_from_tray(600, scale_step_g=0), "scale-g"),
        (lambda: dry_from_shelf(float("nan"), air_by_word("fog")), "dry-clay-g"),
        (lambda: dry_from_shelf(600, air_by_word("fog"), scale_step_g=-1), "scale-g"),
        (lambda: dry_from_form([]), "form-g"),
        (lambda: dry_from_form([600, 0]), "form-g"),
        (lambda: dry_from_plastic(0, 21), "plastic-g"),
        (lambda: dry_from_plastic(850, 0.21), "moisture-percent"),
        (lambda: dry_from_plastic(850, 21, kept=0), "kept"),
        (lambda: dry_from_plastic(850, 21, kept=1.2), "kept"),
        (lambda: dry_from_plastic(850, 21, moisture_doubt_percent=-1), "moisture-doubt-percent"),
    ],
)
def test_an_impossible_dry_weight_is_refused(call, field):
    with pytest.raises(WeighingError) as refused:
        call()

    assert refused.value.field == field


def test_a_pot_that_lost_next_to_nothing_since_leather_hard_was_not_dry():
    assert was_damp(660, 668)
    assert not was_damp(580, 668)


@given(dry_g=weights, water=st.floats(0.06, 0.3))
def test_a_pot_that_was_leather_hard_and_has_dried_since_is_believed(dry_g, water):
    assert not was_damp(dry_g, dry_g * (1 + water) * (1 + 1e-12))


@given(dry_g=weights, lost=st.floats(0.0, 0.05))
def test_leather_hard_clay_is_never_taken_for_dry(dry_g, lost):
    assert was_damp(dry_g, dry_g * (1 + lost))


def test_a_pot_far_heavier_than_the_dry_ones_of_its_form_is_asked_about():
    form = [540, 551, 547, 546]

    assert beyond_form_g(660, form) == pytest.approx(114)
    assert beyond_form_g(570, form) == 0


@given(form=st.lists(weights, min_size=1, max_size=12), more=st.floats(0, 3))
def test_a_heavier_pot_is_never_asked_about_less(form, more):
    heavy = max(form) * (1 + more)

    assert beyond_form_g(heavy * 1.5, form) >= beyond_form_g(heavy, form)


@pytest.mark.parametrize(
    ("call", "field"),
    [
        (lambda: was_damp(0, 668), "dry-clay-g"),
        (lambda: was_damp(660, float("nan")), "leather-hard-g"),
        (lambda: beyond_form_g(0, [600]), "dry-clay-g"),
        (lambda: beyond_form_g(600, []), "form-g"),
    ],
)
def test_an_impossible_claim_is_refused(call, field):
    with pytest.raises(WeighingError) as refused:
        call()

    assert refused.value.field == field
