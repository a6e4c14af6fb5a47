import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError, ShapeError, WeighingError
from wareboard.core.pot import absorption, shrink, wet_for_fired_mm


@given(
    solid_cm3=st.floats(5, 500),
    open_share=st.floats(0.0, 0.5),
    solid_g_cm3=st.floats(1.5, 4.0),
)
def test_a_body_made_up_of_solid_and_pores_is_given_back(solid_cm3, open_share, solid_g_cm3):
    dry_g = solid_cm3 * solid_g_cm3
    pores_cm3 = solid_cm3 * open_share

    body = absorption(dry_g, dry_g - solid_cm3, dry_g + pores_cm3).result

    whole_cm3 = solid_cm3 + pores_cm3
    assert body.absorption_percent == pytest.approx(100 * pores_cm3 / dry_g, rel=1e-6, abs=1e-9)
    assert body.apparent_porosity_percent == pytest.approx(
        100 * pores_cm3 / whole_cm3, rel=1e-6, abs=1e-9
    )
    assert body.apparent_sg == pytest.approx(solid_g_cm3, rel=1e-6)
    assert body.bulk_density_g_cm3 == pytest.approx(dry_g / whole_cm3, rel=1e-6)


@given(dry_g=st.floats(20, 900), in_water=st.floats(0.3, 0.7), took=st.floats(0, 0.3))
def test_porosity_is_absorption_times_bulk_density(dry_g, in_water, took):
    body = absorption(dry_g, in_water * dry_g, dry_g * (1 + took)).result

    assert body.apparent_porosity_percent == pytest.approx(
        body.absorption_percent * body.bulk_density_g_cm3, rel=1e-9, abs=1e-12
    )


def test_a_gram_scale_hardly_tells_a_tight_mug():
    answer = absorption(300, 180, 303, scale_step_g=1)

    # 3 g of water from two readings of a gram each: 1 % give or take 0.47.
    assert answer.result.absorption_percent == pytest.approx(1.0)
    half = answer.doubt["absorption_percent"].high - 1.0
    assert half == pytest.approx(2**0.5 / 3, rel=0.01)


@given(step=st.floats(0.01, 5), coarser=st.floats(1.1, 10))
def test_a_coarser_scale_never_makes_a_body_surer(step, coarser):
    fine = absorption(300, 180, 310, scale_step_g=step)

    coarse = absorption(300, 180, 310, scale_step_g=step * coarser)

    for name, interval in fine.doubt.items():
        assert coarse.doubt[name].high > interval.high
        assert coarse.doubt[name].low <= interval.low


def test_a_scale_too_coarse_for_a_crumb_still_gives_its_doubt():
    answer = absorption(1.0, 0.6, 1.05, scale_step_g=1)

    assert answer.doubt["absorption_percent"].low == 0.0
    assert answer.doubt["absorption_percent"].high > 100.0


@pytest.mark.parametrize(
    ("numbers", "field"),
    [
        ((0, 180, 310), "dry-g"),
        ((float("nan"), 180, 310), "dry-g"),
        ((300, 0, 310), "suspended-g"),
        ((300, 300, 310), "suspended-g"),
        ((300, 180, 299), "saturated-g"),
        ((300, 180, float("inf")), "saturated-g"),
    ],
)
def test_weighings_that_do_not_fit_each_other_are_refused(numbers, field):
    with pytest.raises(WeighingError) as refused:
        absorption(*numbers)

    assert refused.value.field == field


def test_a_scale_without_a_step_is_refused():
    with pytest.raises(WeighingError) as refused:
        absorption(300, 180, 310, scale_step_g=0)

    assert refused.value.field == "scale-g"


def test_six_per_cent_twice_is_not_twelve():
    answer = shrink(100, 94, 94 * 0.94)

    # 1 - 0.94^2 = 11.64 %, and 100 / 0.8836 = 113.17 by hand.
    assert answer.result.drying_percent == pytest.approx(6)
    assert answer.result.firing_percent == pytest.approx(6)
    assert answer.result.total_percent == pytest.approx(11.64)
    assert wet_for_fired_mm(100, 11.64) == pytest.approx(113.17, abs=0.005)


@given(wet=st.floats(10, 500), drying=st.floats(0, 20), firing=st.floats(0, 20))
def test_what_is_left_multiplies(wet, drying, firing):
    dry = wet * (1 - drying / 100)

    body = shrink(wet, dry, dry * (1 - firing / 100)).result

    left = (1 - body.drying_percent / 100) * (1 - body.firing_percent / 100)
    assert 1 - body.total_percent / 100 == pytest.approx(left, rel=1e-9)


@given(fired=st.floats(5, 500), total=st.floats(0, 30))
def test_wet_for_fired_is_the_reverse_of_shrinking(fired, total):
    wet = wet_for_fired_mm(fired, total)

    assert shrink(wet, wet, fired).result.total_percent == pytest.approx(total, abs=1e-9)


def test_half_a_millimetre_on_a_short_line_is_much_doubt():
    short = shrink(50, 47, 44).doubt["total_percent"]
    long = shrink(500, 470, 440).doubt["total_percent"]

    assert short.high - short.low == pytest.approx(10 * (long.high - long.low), rel=1e-9)


@pytest.mark.parametrize(
    ("numbers", "field"),
    [
        ((0, 94, 88), "wet-mm"),
        ((100, float("nan"), 88), "dry-mm"),
        ((100, 94, -1), "fired-mm"),
        ((94, 100, 88), "dry-mm"),
        ((100, 88, 94), "fired-mm"),
    ],
)
def test_lengths_that_grow_are_refused(numbers, field):
    with pytest.raises(ShapeError) as refused:
        shrink(*numbers)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("numbers", "field"), [((0, 12), "fired-mm"), ((100, -1), "total-percent")]
)
def test_an_impossible_wish_is_refused(numbers, field):
    with pytest.raises(CoreError) as refused:
        wet_for_fired_mm(*numbers)

    assert refused.value.field == field


def test_nothing_is_left_of_a_body_that_shrinks_away():
    with pytest.raises(ShapeError, match="not there any more"):
        wet_for_fired_mm(100, 100)
