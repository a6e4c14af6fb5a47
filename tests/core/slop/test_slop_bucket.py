import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError, DensityError
from wareboard.core.slop import (
    litres_in_bucket,
    pots_left,
    powder,
    sg_from_dry,
    slop,
    water,
    water_for_batch,
)

sgs = st.floats(1.02, 2.2)
volumes = st.floats(0.1, 100)


@given(volume=volumes, sg=sgs, want=sgs)
def test_after_the_water_the_bucket_has_the_sg_wanted(volume, sg, want):
    added_l = water(volume, sg, want).result.water_ml / 1000.0
    assume(volume + added_l > 1e-6)

    reached = (volume * sg + added_l) / (volume + added_l)

    assert reached == pytest.approx(want, rel=1e-9)


@given(volume=volumes, sg=sgs, want=sgs)
def test_water_added_and_taken_off_again_leaves_the_bucket_as_it_was(volume, sg, want):
    there_ml = water(volume, sg, want).result.water_ml
    between_l = volume + there_ml / 1000.0
    assume(between_l > 1e-3)

    back_ml = water(between_l, want, sg).result.water_ml

    assert back_ml == pytest.approx(-there_ml, rel=1e-6, abs=1e-6)


@given(volume=volumes, sg=sgs, want=sgs, solid=st.floats(2.3, 6.0))
def test_water_leaves_the_powder_in_the_bucket(volume, sg, want, solid):
    after_l = volume + water(volume, sg, want).result.water_ml / 1000.0
    assume(after_l > 1e-3)

    before_g = slop(sg, solid, volume).result.dry_g

    assert slop(want, solid, after_l).result.dry_g == pytest.approx(before_g, rel=1e-9)


@given(volume=volumes, sg=sgs, want=st.floats(1.02, 2.0), step=st.floats(0.001, 0.2))
def test_a_thinner_wish_takes_more_water(volume, sg, want, step):
    thick = water(volume, sg, want + step).result.water_ml

    thin = water(volume, sg, want).result.water_ml

    assert thin > thick


def test_a_bucket_that_is_right_needs_no_water():
    answer = water(5, 1.45, 1.45)

    assert answer.result.water_ml == 0.0
    assert answer.cautions == ()


def test_taking_water_off_says_what_leaves_with_it():
    answer = water(5, 1.38, 1.45)

    # 5000 x 0.07 / 0.45 by hand.
    assert answer.result.water_ml == pytest.approx(-5000 * 0.07 / 0.45, rel=1e-12)
    assert [caution.partition(";")[2] for caution in answer.cautions] == [
        " soda ash and other soluble materials leave with it."
    ]


def test_a_hundredth_of_sg_is_a_tumbler_of_water_in_a_seven_litre_bucket():
    answer = water(7, 1.52, 1.46, litres_doubt=0.0)

    half = answer.doubt["water_ml"].high - answer.result.water_ml
    assert half == pytest.approx(7000 * 0.01 / 0.46, rel=1e-9)


def test_what_is_not_known_of_the_sg_wanted_widens_the_water():
    chosen = water(7, 1.52, 1.46, sg_doubt=0.0, litres_doubt=0.0)
    doubted = water(7, 1.52, 1.46, sg_doubt=0.0, want_doubt=1e-6, litres_doubt=0.0)
    higher, lower = water(7, 1.52, 1.46 + 1e-6), water(7, 1.52, 1.46 - 1e-6)

    # A second method: the water for an SG wanted that is a little more, and a little less.
    ends = doubted.doubt["water_ml"]
    assert chosen.doubt["water_ml"].low == chosen.doubt["water_ml"].high
    assert ends.high - ends.low == pytest.approx(
        lower.result.water_ml - higher.result.water_ml, rel=1e-6
    )


@given(
    volume=volumes,
    sg=st.floats(1.1, 2.0),
    over=st.floats(-0.05, 0.05),
    half=st.floats(0, 0.05),
    want_half=st.floats(0, 0.05),
)
def test_whether_a_bucket_needs_water_is_no_matter_of_its_size(volume, sg, over, half, want_half):
    asked = {"sg_doubt": half, "want_doubt": want_half}
    one = water(1.0, sg + over, sg, **asked).doubt["water_ml"]
    many = water(volume, sg + over, sg, **asked).doubt["water_ml"]

    # Rounding in the last digit may turn an end that is nothing into next to nothing.
    assert many.low / volume == pytest.approx(one.low, abs=1e-6)
    assert many.high / volume == pytest.approx(one.high, abs=1e-6)


@pytest.mark.parametrize(
    ("numbers", "field"),
    [
        ((0, 1.52, 1.46), "litres"),
        ((float("inf"), 1.52, 1.46), "litres"),
        ((7, 152, 1.46), "sg"),
        ((7, 1.0, 1.46), "sg"),
        ((7, 1.52, 146), "want"),
        ((7, 1.52, 1.0), "want"),
    ],
)
def test_impossible_water_is_refused_and_the_field_named(numbers, field):
    with pytest.raises(DensityError) as refused:
        water(*numbers)

    assert refused.value.field == field


@given(volume=volumes, solid=st.floats(2.3, 6.0), sg=st.floats(1.02, 1.5), more=st.floats(0, 0.5))
def test_after_the_powder_the_bucket_has_the_sg_wanted(volume, solid, sg, more):
    want = sg + more
    add_g = powder(volume, sg, want, solid).result.add_g

    dry_g = slop(sg, solid, volume).result.dry_g + add_g
    reached = sg_from_dry(dry_g, volume + add_g / (1000.0 * solid), solid)

    assert reached == pytest.approx(want, rel=1e-9)


def test_powder_does_not_thin_a_bucket():
    with pytest.raises(DensityError, match="add water instead") as refused:
        powder(5, 1.5, 1.45, 2.6)

    assert refused.value.field == "want"


@given(dry_g=st.floats(1, 50_000), solid=st.floats(2.3, 6.0), want=sgs)
def test_a_fresh_batch_comes_out_at_the_sg_wanted(dry_g, solid, want):
    water_g = water_for_batch(dry_g, want, solid)

    volume_l = (dry_g / solid + water_g) / 1000.0

    assert sg_from_dry(dry_g, volume_l, solid) == pytest.approx(want, rel=1e-9)


@given(volume=volumes, sg=sgs, tare_g=st.floats(0, 3_000))
def test_a_weighed_bucket_gives_back_its_volume(volume, sg, tare_g):
    gross_g = tare_g + 1000.0 * sg * volume

    assert litres_in_bucket(gross_g, tare_g, sg) == pytest.approx(volume, rel=1e-9)


@pytest.mark.parametrize(
    ("numbers", "field"),
    [
        ((900, 900, 1.45), "gross-g"),
        ((0, 0, 1.45), "gross-g"),
        ((9000, -1, 1.45), "tare-g"),
        ((9000, 900, 145), "sg"),
    ],
)
def test_an_impossible_bucket_is_refused(numbers, field):
    with pytest.raises(CoreError) as refused:
        litres_in_bucket(*numbers)

    assert refused.value.field == field


def test_pots_left_is_the_powder_over_what_a_pot_takes():
    answer = pots_left(4, 1.45, 2.6, [20, 22, 24])

    # 4 l hold 4000 x 0.45 x 2.6 / 1.6 = 2925 g.
    assert answer.result.dry_g == pytest.approx(2925, rel=1e-12)
    assert answer.result.dry_g_per_pot == pytest.approx(22, rel=1e-12)
    assert answer.result.pots == pytest.approx(2925 / 22, rel=1e-12)


def test_the_doubt_of_the_mean_coat_is_students():
    answer = pots_left(4, 1.45, 2.6, [20, 22, 24])

    # Mean 22, standard deviation 2, three dips: 2.920 x 2 / sqrt(3).
    half = answer.doubt["dry_g_per_pot"].high - 22
    assert half == pytest.approx(2.920 * 2 / 3**0.5, rel=1e-9)
    assert answer.doubt["dry_g_per_pot"].basis == "usual (3)"


@pytest.mark.parametrize(
    ("dips", "basis"),
    [([22.0], "general scatter, 1 dip"), ([21.0, 23.0], "general scatter, 2 dips")],
)
def test_few_dips_are_given_the_general_scatter_and_it_is_said(dips, basis):
    answer = pots_left(4, 1.45, 2.6, dips)

    half = answer.doubt["dry_g_per_pot"].high - 22
    assert half == pytest.approx(0.25 * 22 / len(dips) ** 0.5, rel=1e-9)
    assert answer.doubt["dry_g_per_pot"].basis == basis


@given(dips=st.lists(st.floats(5, 50), min_size=1, max_size=12), sg=st.floats(1.2, 1.8))
def test_pots_left_lies_within_its_doubt(dips, sg):
    answer = pots_left(4, sg, 2.6, dips)

    doubt = answer.doubt["pots"]
    assert 0.0 <= doubt.low <= answer.result.pots <= doubt.high


@pytest.mark.parametrize("dips", [[], [0.0], [22, -1], [float("nan")]])
def test_pots_left_needs_weighed_dips(dips):
    with pytest.raises(CoreError) as refused:
        pots_left(4, 1.45, 2.6, dips)

    assert refused.value.field == "dry-g-per-pot"
