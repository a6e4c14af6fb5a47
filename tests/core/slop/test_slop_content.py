import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError, DensityError, WeighingError
from wareboard.core.slop import check_sg, check_solid, dose, dry_fraction, sg_from_dry, slop

solids = st.floats(1.5, 6.0)
shares = st.floats(0.01, 0.95)
litres = st.floats(0.01, 200.0)


def sg_between(solid, share):
    return 1.0 + share * (solid - 1.0)


@given(solid=solids, share=shares, volume=litres)
def test_powder_and_water_add_up_to_the_weight_of_the_slop(solid, share, volume):
    sg = sg_between(solid, share)

    content = slop(sg, solid, volume).result

    assert content.dry_g + content.water_g == pytest.approx(1000.0 * sg * volume, rel=1e-12)


@given(solid=solids, share=shares, volume=litres)
def test_volumes_of_powder_and_water_add_up_to_the_volume_of_the_slop(solid, share, volume):
    content = slop(sg_between(solid, share), solid, volume).result

    powder_ml = content.dry_g / solid
    assert powder_ml + content.water_g == pytest.approx(1000.0 * volume, rel=1e-9)
    assert content.solid_volume_fraction * 1000.0 * volume == pytest.approx(powder_ml, rel=1e-9)


@given(powder_g=st.floats(1, 5_000), water_g=st.floats(100, 5_000), solid=st.floats(1.5, 6.0))
def test_dry_weight_is_what_went_into_the_bucket(powder_g, water_g, solid):
    volume_ml = powder_g / solid + water_g
    sg = (powder_g + water_g) / volume_ml

    content = slop(sg, solid, volume_ml / 1000.0).result

    assert content.dry_g == pytest.approx(powder_g, rel=1e-6, abs=1e-6)
    assert content.water_g == pytest.approx(water_g, rel=1e-6, abs=1e-6)


@given(solid=solids, share=shares, volume=litres)
def test_sg_from_dry_is_the_reverse_of_slop(solid, share, volume):
    sg = sg_between(solid, share)

    back = sg_from_dry(slop(sg, solid, volume).result.dry_g, volume, solid)

    assert back == pytest.approx(sg, rel=1e-12)


def test_powder_and_water_by_weight_have_the_density_of_what_they_fill():
    # Given by clayartcenter.net/glaze-mixing: 80 oz of powder and 48 oz of water. At 2.5
    # the powder fills as much as 32 oz of water: 128 oz where 80 oz of water would be.
    sg = sg_from_dry(80.0, (80.0 / 2.5 + 48.0) / 1000.0, 2.5)

    assert sg == pytest.approx(128.0 / 80.0, rel=1e-12)


@given(solid=solids, share=shares, volume=litres)
def test_taking_all_the_volume_for_water_loses_the_powder_s_own_volume(solid, share, volume):
    sg = sg_between(solid, share)

    # The mistake of P. Smith's post of 2004 (potters' mailing list, subject72185).
    taken_g = 1000.0 * volume * (sg - 1.0)

    dry_g = slop(sg, solid, volume).result.dry_g
    assert taken_g / dry_g == pytest.approx(1.0 - 1.0 / solid, rel=1e-9)


@given(dry_g=st.floats(1, 20_000), volume=st.floats(0.01, 20), solid=solids)
def test_a_slop_lies_between_water_and_its_powder(dry_g, volume, solid):
    if dry_g >= 999.0 * volume * solid:
        dry_g = 500.0 * volume * solid

    sg = sg_from_dry(dry_g, volume, solid)

    assert 1.0 < sg < solid


@given(solid=solids, share=st.floats(0.01, 0.94), step=st.floats(1e-6, 0.01))
def test_a_heavier_slop_holds_more_powder_and_less_water(solid, share, step):
    thin = slop(sg_between(solid, share), solid).result

    thick = slop(sg_between(solid, share + step), solid).result

    assert thick.dry_g > thin.dry_g
    assert thick.water_g < thin.water_g
    assert thick.dry_fraction > thin.dry_fraction


@given(solid=solids, share=shares)
def test_the_answer_lies_within_its_own_doubt(solid, share):
    answer = slop(sg_between(solid, share), solid)

    for name, interval in answer.doubt.items():
        value = getattr(answer.result, name)
        assert interval.low <= value + 1e-9
        assert value - 1e-9 <= interval.high
        assert interval.low >= 0.0


def test_b15_slip_of_sg_1_75_holds_the_dry_weight_worked_by_hand():
    content = slop(1.75, 2.60).result

    # 750 x 2.6 / 1.6 by hand.
    assert content.dry_g == pytest.approx(1218.75, rel=1e-12)
    assert content.dry_fraction == pytest.approx(1218.75 / 1750.0, rel=1e-12)


def test_an_sg_read_a_hundredth_too_high_reckons_a_fiftieth_too_much_powder():
    right = slop(1.45, 2.6).result.dry_g

    wrong = slop(1.46, 2.6).result.dry_g

    # 0.01 / 0.45: the reason why every answer here carries the doubt of its SG.
    assert wrong / right == pytest.approx(1.0 + 0.01 / 0.45, rel=1e-12)


def test_doubt_of_the_dry_weight_follows_from_the_sg_alone_where_the_powder_is_sure():
    answer = slop(1.45, 2.6, sg_doubt=0.01, solid_doubt=0.0)

    half = answer.doubt["dry_g"].high - answer.result.dry_g
    assert half == pytest.approx(1000.0 * 0.01 * 2.6 / 1.6, rel=1e-9)


def test_doubt_is_cut_where_there_is_nothing_left():
    answer = slop(1.001, 2.6)

    assert answer.doubt["dry_g"].low == 0.0
    assert answer.doubt["dry_fraction"].low == 0.0


@pytest.mark.parametrize(
    ("typed", "meant"), [(145, "1.45"), (14.5, "1.45"), (1450, "1.45"), (162, "1.62")]
)
def test_a_lost_point_is_refused_and_the_likely_sg_named(typed, meant):
    with pytest.raises(DensityError) as refused:
        slop(typed, 2.6)

    assert refused.value.field == "sg"
    assert refused.value.seen == typed
    assert refused.value.say == (
        f"The specific gravity of the slop cannot be {typed:g}: do you mean {meant}?"
    )


@pytest.mark.parametrize("sg", [1.0, 0.9, 0.0, -1.45, float("nan"), float("inf"), float("-inf")])
def test_an_sg_that_no_slop_has_is_refused(sg):
    with pytest.raises(DensityError) as refused:
        slop(sg, 2.6)

    assert refused.value.field == "sg"


@pytest.mark.parametrize("sg", [2.6, 2.7, 9.9])
def test_a_slop_as_heavy_as_its_powder_is_refused(sg):
    with pytest.raises(DensityError, match="as heavy as its own powder") as refused:
        slop(sg, 2.6)

    assert refused.value.field == "sg"


@pytest.mark.parametrize("solid", [1.0, 0.5, -2.6, 260.0, float("nan")])
def test_a_powder_that_cannot_be_is_refused(solid):
    with pytest.raises(DensityError) as refused:
        slop(1.45, solid)

    assert refused.value.field == "solid"


@pytest.mark.parametrize("volume", [0.0, -1.0, float("nan"), float("inf")])
def test_a_volume_that_cannot_be_is_refused(volume):
    with pytest.raises(DensityError) as refused:
        slop(1.45, 2.6, volume)

    assert refused.value.field == "litres"


def test_powder_that_does_not_go_into_the_volume_is_refused():
    with pytest.raises(DensityError, match="even without any water") as refused:
        sg_from_dry(2600.0, 1.0, 2.6)

    assert refused.value.field == "dry-g"


def test_checks_give_the_value_back():
    assert check_sg(1.45) == 1.45
    assert check_sg(1.45, 2.6) == 1.45
    assert check_solid(2.6) == 2.6


@given(wet_g=st.floats(10, 50_000), solid=solids, share=shares, percent=st.floats(0.01, 50.0))
def test_an_addition_to_the_base_is_its_per_cent_of_the_dry_weight(wet_g, solid, share, percent):
    sg = sg_between(solid, share)

    answer = dose(wet_g, sg, solid, percent).result

    assert answer.dry_g == pytest.approx(wet_g * dry_fraction(sg, solid), rel=1e-12)
    assert 100.0 * answer.add_g / answer.dry_g == pytest.approx(percent, rel=1e-9)


@given(wet_g=st.floats(10, 50_000), solid=solids, share=shares, percent=st.floats(0.01, 90.0))
def test_an_addition_of_the_finished_weight_is_its_per_cent_of_the_whole(
    wet_g, solid, share, percent
):
    answer = dose(wet_g, sg_between(solid, share), solid, percent, of="finished").result

    whole = answer.dry_g + answer.add_g
    assert 100.0 * answer.add_g / whole == pytest.approx(percent, rel=1e-9)


@given(percent=st.floats(0.01, 90.0))
def test_base_and_finished_are_two_names_of_one_weight(percent):
    finished = dose(7250, 1.45, 2.6, percent, of="finished").result

    on_base = dose(7250, 1.45, 2.6, 100.0 * percent / (100.0 - percent)).result

    assert on_base.add_g == pytest.approx(finished.add_g, rel=1e-9)


def test_two_per_cent_into_five_litres_by_hand():
    base = dose(7250, 1.45, 2.6, 2).result
    finished = dose(7250, 1.45, 2.6, 2, of="finished").result

    # 5 l hold 5000 x 0.45 x 2.6 / 1.6 = 3656.25 g dry; a fiftieth, and 2/98 of it.
    assert base.dry_g == pytest.approx(3656.25, rel=1e-12)
    assert base.add_g == pytest.approx(73.125, rel=1e-12)
    assert finished.add_g == pytest.approx(3656.25 * 2 / 98, rel=1e-12)


def test_doubt_of_a_dose_is_the_doubt_of_its_dry_weight():
    answer = dose(7250, 1.45, 2.6, 2)

    dry, add = answer.doubt["dry_g"], answer.doubt["add_g"]
    assert add.low == pytest.approx(0.02 * dry.low, rel=1e-9)
    assert add.high == pytest.approx(0.02 * dry.high, rel=1e-9)


def test_a_bucket_that_was_not_weighed_adds_its_doubt_to_the_dose():
    answer = dose(7250, 1.45, 2.6, 2, sg_doubt=0.0, wet_doubt_g=362.5)

    # Only the weight is in doubt, by a twentieth: so is the addition.
    add_g, doubt = answer.result.add_g, answer.doubt["add_g"]
    assert doubt.low == pytest.approx(0.95 * add_g, rel=1e-9)
    assert doubt.high == pytest.approx(1.05 * add_g, rel=1e-9)
    assert doubt.basis == "SG good to 0, weight of the slop to 362 g"


def test_a_powder_of_uncertain_density_adds_its_doubt_to_the_dose():
    answer = dose(7250, 1.45, 2.6, 2, sg_doubt=0.0, solid_doubt=0.1)

    doubt = answer.doubt["dry_g"]
    lightest, heaviest = (dose(7250, 1.45, solid, 2).result.dry_g for solid in (2.7, 2.5))
    assert doubt.high - doubt.low == pytest.approx(heaviest - lightest, rel=1e-9)
    assert doubt.basis == "SG good to 0, density of the powder to 0.1"


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"wet_g": 0.0}, "wet-g"),
        ({"wet_g": float("nan")}, "wet-g"),
        ({"percent": -1.0}, "percent"),
        ({"percent": 100.0, "of": "finished"}, "percent"),
        ({"sg": 145.0}, "sg"),
        ({"solid": 1.0}, "solid"),
        ({"of": "wet"}, "of"),
    ],
)
def test_an_impossible_dose_is_refused_and_the_field_named(change, field):
    given_numbers = {"wet_g": 8400.0, "sg": 1.46, "solid": 2.5, "percent": 0.5} | change

    with pytest.raises(CoreError) as refused:
        dose(**given_numbers)

    assert refused.value.field == field


def test_a_weight_is_a_weighing_error_and_a_density_a_density_error():
    with pytest.raises(WeighingError):
        dose(-1.0, 1.46, 2.5, 0.5)
    with pytest.raises(DensityError):
        dose(100.0, 0.5, 2.5, 0.5)
