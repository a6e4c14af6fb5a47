import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError, DensityError
from wareboard.core.slop import (
    SlopWord,
    density_from_bottle,
    dry_oz_per_imperial_pint,
    full_bottle,
    how_thick,
    pint_oz_from_sg,
    sg_from_pint_oz,
    sg_from_twaddell,
    slop,
    twaddell_from_sg,
)

OZ_G = 28.349523125

sgs = st.floats(1.01, 2.4)


@given(sg=sgs, volume_ml=st.floats(50, 2_000), empty_g=st.floats(1, 300))
def test_a_full_bottle_gives_back_the_sg_of_what_is_in_it(sg, volume_ml, empty_g):
    answer = density_from_bottle(empty_g + sg * volume_ml, empty_g, volume_ml)

    assert answer.result.sg == pytest.approx(sg, rel=1e-9)


def test_a_gram_in_half_a_litre_is_two_thousandths_of_sg():
    answer = density_from_bottle(725, 0, 500, scale_step_g=1, volume_error_ml=0)

    assert answer.doubt["sg"].high - answer.result.sg == pytest.approx(1 / 500, rel=1e-9)


def test_a_millilitre_in_a_hundred_costs_seven_times_as_much():
    bottle = density_from_bottle(725, 0, 500, scale_step_g=1, volume_error_ml=0)

    cylinder = density_from_bottle(145, 0, 100, scale_step_g=0.001, volume_error_ml=1)

    half = cylinder.doubt["sg"].high - cylinder.result.sg
    assert half == pytest.approx(0.0145, rel=1e-3)
    assert half > 7.0 * (bottle.doubt["sg"].high - bottle.result.sg)


def test_two_weighings_doubt_more_than_one_on_a_scale_set_to_zero():
    zeroed = density_from_bottle(725, 0, 500, volume_error_ml=0)
    weighed = density_from_bottle(755, 30, 500, volume_error_ml=0)

    assert weighed.result.sg == zeroed.result.sg
    assert weighed.doubt["sg"].high > zeroed.doubt["sg"].high


@given(step=st.floats(0.01, 5), coarser=st.floats(1.1, 10))
def test_a_coarser_scale_never_makes_the_answer_surer(step, coarser):
    fine = density_from_bottle(725, 30, 480, scale_step_g=step)

    coarse = density_from_bottle(725, 30, 480, scale_step_g=step * coarser)

    assert coarse.doubt["sg"].high > fine.doubt["sg"].high


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"full_g": 0}, "full-g"),
        ({"full_g": float("nan")}, "full-g"),
        ({"full_g": 30}, "full-g"),
        ({"full_g": 500}, "full-g"),
        ({"full_g": 50_000}, "full-g"),
        ({"empty_g": -1}, "empty-g"),
        ({"volume_ml": 0}, "volume-ml"),
        ({"scale_step_g": -1}, "scale-g"),
        ({"volume_error_ml": -1}, "volume-error-ml"),
    ],
)
def test_an_impossible_bottle_is_refused_and_the_field_named(change, field):
    numbers = {"full_g": 755.0, "empty_g": 30.0, "volume_ml": 500.0} | change

    with pytest.raises(CoreError) as refused:
        density_from_bottle(**numbers)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("sg", "word"),
    [
        (1.40, SlopWord.THIN),
        (1.445, SlopWord.RIGHT),
        (1.45, SlopWord.RIGHT),
        (1.455, SlopWord.RIGHT),
        (1.52, SlopWord.THICK),
    ],
)
def test_a_slop_is_thin_right_or_thick_against_the_one_that_was_liked(sg, word):
    answer = how_thick(sg, 1.45)

    assert answer.result.word == word
    assert answer.result.sg_over == pytest.approx(sg - 1.45)


@given(sg=sgs, liked=sgs, doubt=st.floats(0.0, 0.2))
def test_more_doubt_never_turns_right_into_thin_or_thick(sg, liked, doubt):
    sure = how_thick(sg, liked, doubt).result.word

    unsure = how_thick(sg, liked, min(2.0 * doubt, 0.99)).result.word

    assert unsure in {sure, SlopWord.RIGHT}


@pytest.mark.parametrize(
    ("sg", "liked", "doubt", "field"),
    [
        (145, 1.45, 0.01, "sg"),
        (1.45, 145, 0.01, "liked-sg"),
        (1.45, 1.45, -0.01, "doubt"),
        (1.45, 1.45, 1.0, "doubt"),
        (1.45, 1.45, float("nan"), "doubt"),
    ],
)
def test_an_impossible_comparison_is_refused(sg, liked, doubt, field):
    with pytest.raises(DensityError) as refused:
        how_thick(sg, liked, doubt)

    assert refused.value.field == field


@given(sg=st.floats(1.001, 9.9), pint=st.sampled_from(["imperial", "us"]))
def test_pint_weight_and_sg_turn_into_each_other(sg, pint):
    assert sg_from_pint_oz(pint_oz_from_sg(sg, pint), pint) == pytest.approx(sg, rel=1e-12)


@given(sg=st.floats(1.001, 9.9))
def test_twaddell_and_sg_turn_into_each_other(sg):
    assert sg_from_twaddell(twaddell_from_sg(sg)) == pytest.approx(sg, rel=1e-12)


@given(pint_oz=st.floats(21, 45), solid=st.floats(2.3, 6.0))
def test_the_pint_form_and_the_litre_form_give_the_same_powder(pint_oz, solid):
    pint_of_twenty_ounces_l = 20 * OZ_G / 1000

    by_litre_g = slop(sg_from_pint_oz(pint_oz), solid, pint_of_twenty_ounces_l).result.dry_g

    assert dry_oz_per_imperial_pint(pint_oz, solid) * OZ_G == pytest.approx(by_litre_g, rel=1e-9)


def test_a_pint_of_twenty_ounces_is_the_metric_pint_to_a_quarter_per_cent():
    imperial_pint_ml = 568.26125
    us_pint_ml = 473.176473

    assert imperial_pint_ml / OZ_G == pytest.approx(20, rel=0.0025)
    assert us_pint_ml / OZ_G == pytest.approx(16.69, rel=1e-4)


@pytest.mark.parametrize("ounces", [0, 20, -28, 300, float("nan")])
def test_a_pint_that_no_slop_weighs_is_refused(ounces):
    with pytest.raises(DensityError) as refused:
        sg_from_pint_oz(ounces)

    assert refused.value.field == "pint-oz"


def test_a_pint_heavier_than_its_powder_is_refused():
    with pytest.raises(DensityError) as refused:
        dry_oz_per_imperial_pint(60, 2.6)

    assert refused.value.field == "pint-oz"


@pytest.mark.parametrize("degrees", [-90, 1801, float("nan")])
def test_a_twaddell_reading_that_cannot_be_is_refused(degrees):
    with pytest.raises(DensityError) as refused:
        sg_from_twaddell(degrees)

    assert refused.value.field == "twaddell"


@pytest.mark.parametrize(("solid", "dry_oz"), [(2.6, 13.0), (2.5, 13.0 + 1 / 3)])
def test_a_28_ounce_pint_by_hand(solid, dry_oz):
    # 8 oz over water, times 2.6 / 1.6 and times 5 / 3.
    assert dry_oz_per_imperial_pint(28, solid) == pytest.approx(dry_oz, rel=1e-12)
    assert sg_from_pint_oz(28) == pytest.approx(1.40, rel=1e-12)


def test_the_same_weight_is_another_slop_across_the_sea():
    assert sg_from_pint_oz(24, "us") == pytest.approx(24 / 16.69, rel=1e-12)
    assert sg_from_pint_oz(24, "us") > sg_from_pint_oz(24, "imperial") + 0.2


def test_ninety_degrees_twaddell_are_1_45():
    # The scale has 200 degrees for each whole of SG (common practice, from memory).
    assert sg_from_twaddell(90) == pytest.approx(1.45, rel=1e-12)


@given(sg=st.floats(1.01, 2.99), volume_ml=st.floats(50, 2_000), empty_g=st.floats(0, 300))
def test_a_bottle_full_of_any_slop_may_weigh_what_it_weighs(sg, volume_ml, empty_g):
    full = full_bottle(empty_g, volume_ml)

    assert full.allows(empty_g + sg * volume_ml)
    assert not full.allows(empty_g + volume_ml)
    assert full.likely_slips(empty_g + sg * volume_ml) == ()


@pytest.mark.parametrize("typed", [0.77, 77, 7_700, 77_000])
def test_a_lost_point_and_kilograms_lead_back_to_the_full_bottle(typed):
    meant = [meant for _slip, meant in full_bottle(212, 365).likely_slips(typed)]

    assert meant == [pytest.approx(770)]
