import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.coat import coat, coat_mm_from_g_dm2, fired_coat
from wareboard.core.coat.weighed import AS_DRY_BEFORE, SUPPORT_IT
from wareboard.core.errors import CoreError, DensityError, ShapeError, WeighingError
from wareboard.core.slop import dry_fraction

pots = st.floats(50, 5_000)
gains = st.floats(1, 300)


@given(before=pots, gain=gains, sg=st.floats(1.1, 2.0), solid=st.floats(2.3, 4.0))
def test_coat_and_water_add_up_to_what_the_pot_gained(before, gain, sg, solid):
    dip = coat(before, before + gain, sg=sg, solid=solid).result

    assert dip.coat_g + dip.water_g == pytest.approx(gain, rel=1e-9)
    assert dip.water_percent_of_pot == pytest.approx(100 * dip.water_g / before, rel=1e-12)


@given(before=pots, gain=gains, sg=st.floats(1.1, 1.9), more=st.floats(0.001, 0.2))
def test_a_thicker_slop_leaves_more_coat_and_less_water(before, gain, sg, more):
    thin = coat(before, before + gain, sg=sg).result

    thick = coat(before, before + gain, sg=sg + more).result

    assert thick.coat_g > thin.coat_g
    assert thick.water_g < thin.water_g


@given(before=pots, gain=gains, sg=st.floats(1.1, 1.9))
def test_a_pot_as_dry_before_and_after_is_told_the_same_coat_both_ways(before, gain, sg):
    by_sg = coat(before, before + gain, sg=sg).result

    by_weight = coat(before, before + gain, dry_g=before + by_sg.coat_g).result

    assert by_weight.coat_g == pytest.approx(by_sg.coat_g, rel=1e-6)
    assert by_weight.water_g == pytest.approx(by_sg.water_g, rel=1e-6)


def test_three_weighings_by_hand():
    answer = coat(612.0, 655.4, dry_g=634.1)

    assert answer.result.coat_g == pytest.approx(22.1, abs=1e-9)
    assert answer.result.water_g == pytest.approx(21.3, abs=1e-9)
    assert answer.result.water_percent_of_pot == pytest.approx(100 * 21.3 / 612, rel=1e-9)
    assert answer.cautions == (AS_DRY_BEFORE,)


def test_a_damp_pot_is_told_by_its_slop_without_a_caution():
    answer = coat(612, 655, sg=1.50, solid=2.5)

    assert answer.result.coat_g == pytest.approx(43 * 0.5 * 2.5 / (1.5 * 1.5), rel=1e-12)
    assert answer.cautions == ()


def test_the_guesses_are_named_in_the_working():
    answer = coat(612, 655, sg=1.5, area_dm2=4)

    assert answer.working[1] == "Powder of 2.6 g/cm3, dry coat packed to 0.50."


def test_an_odd_packing_is_not_rounded_in_the_working():
    answer = coat(612, 655, sg=1.5, packing=0.525)

    assert answer.working[1] == "Powder of 2.6 g/cm3, dry coat packed to 0.525."


def test_a_millimetre_on_a_square_decimetre_weighs_thirteen_grams():
    # 10 cm3, half of it powder of 2.6.
    assert coat_mm_from_g_dm2(13.0, 2.6, 0.50) == pytest.approx(1.0, rel=1e-12)


def test_forty_grams_over_four_square_decimetres_by_hand():
    # A bulk density of 1.55 g/cm3: 40 / (400 x 1.55) cm = 0.645 mm.
    answer = coat(600, 600 + 40 / dry_fraction(1.5, 2.6), sg=1.5, area_dm2=4, packing=1.55 / 2.6)

    assert answer.result.coat_g_dm2 == pytest.approx(10, rel=1e-9)
    assert answer.result.coat_mm == pytest.approx(10 * 40 / (400 * 1.55), rel=1e-9)


def test_without_the_area_there_is_no_thickness():
    answer = coat(612, 655, sg=1.5)

    assert answer.result.coat_g_dm2 is None
    assert answer.result.coat_mm is None
    assert sorted(answer.doubt) == ["coat_g", "water_g", "water_percent_of_pot"]


@given(gain=gains, step=st.floats(0.01, 5), coarser=st.floats(1.1, 10))
def test_a_coarser_scale_never_makes_a_coat_surer(gain, step, coarser):
    fine = coat(600, 600 + gain, sg=1.5, area_dm2=4, scale_step_g=step)

    coarse = coat(600, 600 + gain, sg=1.5, area_dm2=4, scale_step_g=step * coarser)

    for name, interval in fine.doubt.items():
        assert coarse.doubt[name].low <= interval.low + 1e-9
        assert coarse.doubt[name].high >= interval.high - 1e-9


def test_two_readings_of_a_gram_scale_doubt_a_coat_by_nearly_a_gram_and_a_half():
    answer = coat(600, 605, dry_g=602.5, scale_step_g=1)

    # Two readings of one gram each, at a right angle.
    half = answer.doubt["coat_g"].high - answer.result.coat_g
    assert half == pytest.approx(2**0.5, rel=1e-9)


def test_millimetres_are_less_sure_than_grams():
    answer = coat(612, 655, sg=1.5, area_dm2=4)

    def share(name):
        return answer.doubt[name].high / getattr(answer.result, name) - 1

    assert share("coat_g") < share("coat_g_dm2") < share("coat_mm")


def test_much_water_in_one_dip_is_said():
    answer = coat(400, 480, sg=1.40)

    # 80 g of slop of SG 1.40 hold 43 g of water, 11 % of the pot.
    assert answer.cautions == (f"11 % of the pot's weight in water at one dip: {SUPPORT_IT}",)


def test_a_pot_not_as_dry_before_is_refused_with_that_sentence():
    with pytest.raises(WeighingError) as refused:
        coat(612, 655, dry_g=612)

    assert refused.value.field == "dry-g"
    assert refused.value.say == (
        "The third weighing, 612 g, is not above the first, 612 g: a third weighing tells the "
        "coat only if the pot was as dry before the dip as it is at the third weighing."
    )


@pytest.mark.parametrize(
    ("change", "field", "kind"),
    [
        ({"before_g": 0}, "before-g", WeighingError),
        ({"before_g": float("nan")}, "before-g", WeighingError),
        ({"wet_g": 612}, "wet-g", WeighingError),
        ({"wet_g": 600}, "wet-g", WeighingError),
        ({"wet_g": float("inf")}, "wet-g", WeighingError),
        ({"sg": 150}, "sg", DensityError),
        ({"sg": 1}, "sg", DensityError),
        ({"solid": 1}, "solid", DensityError),
        ({"area_dm2": 0}, "area-dm2", ShapeError),
        ({"packing": 0}, "packing", DensityError),
        ({"packing": 50}, "packing", DensityError),
        ({"scale_step_g": 0}, "scale-g", WeighingError),
        ({"sg": None}, "sg", CoreError),
        ({"dry_g": 634}, "dry-g", CoreError),
        ({"sg": None, "dry_g": 656}, "dry-g", WeighingError),
        ({"sg": None, "dry_g": float("nan")}, "dry-g", WeighingError),
    ],
)
def test_an_impossible_dip_is_refused_and_the_field_named(change, field, kind):
    numbers = {"before_g": 612.0, "wet_g": 655.0, "sg": 1.5} | change

    with pytest.raises(kind) as refused:
        coat(**numbers)

    assert refused.value.field == field


def test_packing_typed_in_per_cent_is_asked_about():
    with pytest.raises(DensityError) as refused:
        coat(612, 655, sg=1.5, packing=50)

    assert refused.value.say == "The packing of the dry coat cannot be 50: do you mean 0.5?"


@given(
    coat_mm=st.floats(0.05, 5),
    loi=st.floats(0, 40),
    solid=st.floats(2.3, 3.5),
    packing=st.floats(0.3, 0.7),
)
def test_a_coat_keeps_its_glass_through_the_fire(coat_mm, loi, solid, packing):
    fired = fired_coat(coat_mm, loi_percent=loi, solid=solid, packing=packing).result

    # Grams on a square decimetre, dry less its loss, and as glass.
    dry_g_dm2 = 10 * coat_mm * packing * solid
    assert 10 * fired.fired_mm * 2.45 == pytest.approx(dry_g_dm2 * (1 - loi / 100), rel=1e-9)


def test_bubbles_make_the_glass_thicker():
    clear = fired_coat(1.0, loi_percent=8).result.fired_mm

    bubbly = fired_coat(1.0, loi_percent=8, bubbles=0.1).result.fired_mm

    assert bubbly == pytest.approx(clear / 0.9, rel=1e-12)


def test_a_fired_coat_lies_within_its_doubt():
    answer = fired_coat(0.5, loi_percent=9)

    assert answer.doubt["fired_mm"].low < answer.result.fired_mm < answer.doubt["fired_mm"].high


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"coat_mm": 0}, "coat-mm"),
        ({"loi_percent": -1}, "loi-percent"),
        ({"loi_percent": 100}, "loi-percent"),
        ({"solid": 1}, "solid"),
        ({"packing": 1.5}, "packing"),
        ({"glass_g_cm3": 0}, "glass-g-cm3"),
        ({"bubbles": 1}, "bubbles"),
        ({"bubbles": float("nan")}, "bubbles"),
    ],
)
def test_an_impossible_fired_coat_is_refused(change, field):
    numbers = {"coat_mm": 0.5, "loi_percent": 8} | change
    coat_mm = numbers.pop("coat_mm")

    with pytest.raises(CoreError) as refused:
        fired_coat(coat_mm, **numbers)

    assert refused.value.field == field
