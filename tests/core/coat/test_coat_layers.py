import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.coat import CoatWord, Layer, RunRisk, coat_words, layer_warning, stack
from wareboard.core.errors import ShapeError

INSIDE = Layer(0.50, 0.08, frozenset({"inside", "lip"}))
OUTSIDE = Layer(0.55, 0.09, frozenset({"outside", "lip"}))
LIP_DIP = Layer(0.30, 0.05, frozenset({"lip"}))

thicknesses = st.floats(0.05, 3.0)


def place(answer, region):
    return next(place for place in answer.result.places if place.region == region)


def test_coats_add_up_where_they_meet():
    answer = stack([INSIDE, OUTSIDE, LIP_DIP])

    assert answer.result.thickest == "lip"
    assert answer.result.thickest_mm == pytest.approx(1.35)
    assert place(answer, "lip").layers == 3
    assert place(answer, "inside").total_mm == 0.50
    assert place(answer, "outside").total_mm == 0.55


def test_doubts_of_coats_add_straight_because_they_share_their_guesses():
    answer = stack([INSIDE, OUTSIDE, LIP_DIP])

    assert answer.doubt["thickest_mm"].high == pytest.approx(1.35 + 0.08 + 0.09 + 0.05)
    assert answer.doubt["thickest_mm"].low == pytest.approx(1.35 - 0.08 - 0.09 - 0.05)


@given(order=st.permutations([INSIDE, OUTSIDE, LIP_DIP]))
def test_the_order_of_the_dips_does_not_change_the_sum(order):
    there = stack([INSIDE, OUTSIDE, LIP_DIP]).result

    mixed = stack(order).result

    assert mixed.thickest == there.thickest
    assert mixed.thickest_mm == pytest.approx(there.thickest_mm, rel=1e-12)


@given(coats=st.lists(thicknesses, min_size=1, max_size=5), more=thicknesses)
def test_another_coat_never_thins_a_pot(coats, more):
    layers = [Layer(mm, 0.1, frozenset({"wall"})) for mm in coats]

    before = stack(layers).result.thickest_mm

    assert stack([*layers, Layer(more, 0.1, frozenset({"wall"}))]).result.thickest_mm > before


def test_a_bare_pot_has_nothing_on_it():
    answer = stack([])

    assert answer.result.places == ()
    assert answer.result.thickest is None
    assert answer.result.thickest_mm == 0.0


def test_a_coat_less_sure_than_thick_is_cut_at_nothing():
    answer = stack([Layer(0.1, 0.3, frozenset({"foot"}))])

    assert place(answer, "foot").low_mm == 0.0
    assert answer.doubt["thickest_mm"].low == 0.0


@pytest.mark.parametrize(
    ("layer", "field"),
    [
        (Layer(0.0, 0.1, frozenset({"lip"})), "coat-mm"),
        (Layer(0.5, -0.1, frozenset({"lip"})), "doubt-mm"),
        (Layer(0.5, 0.1, frozenset()), "regions"),
    ],
)
def test_an_impossible_layer_is_refused(layer, field):
    with pytest.raises(ShapeError) as refused:
        stack([layer])

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("coat_mm", "word"),
    [
        (0.39, CoatWord.THIN),
        (0.45, CoatWord.AS_USUAL),
        (0.52, CoatWord.AS_USUAL),
        (0.60, CoatWord.AS_USUAL),
        (0.75, CoatWord.THICK),
    ],
)
def test_a_coat_is_measured_against_its_own_good_pots(coat_mm, word):
    answer = coat_words(coat_mm, [0.45, 0.53, 0.60])

    assert answer.result.word == word
    assert answer.result.good_pots == 3
    assert (answer.result.usual_low_mm, answer.result.usual_high_mm) == (0.45, 0.60)


def test_what_is_thick_for_one_glaze_is_usual_for_another():
    hedgelay = coat_words(0.8, [0.50, 0.53, 0.56])
    rosehip = coat_words(0.8, [0.75, 0.80, 0.85])

    assert hedgelay.result.word == CoatWord.THICK
    assert rosehip.result.word == CoatWord.AS_USUAL


@pytest.mark.parametrize("good", [[], [0.5], [0.5, 0.6]])
def test_under_three_good_pots_nothing_is_known(good):
    answer = coat_words(0.5, good)

    assert answer.result.word == CoatWord.NOT_KNOWN
    assert answer.result.good_pots == len(good)
    assert answer.result.usual_low_mm is None
    assert answer.result.usual_high_mm is None
    assert answer.cautions == ("A word needs 3 good pots of this very glaze, weighed.",)


@given(good=st.lists(thicknesses, min_size=3, max_size=18))
def test_a_good_pot_is_never_called_thin_or_thick_while_pots_are_few(good):
    assert coat_words(min(good), good).result.word == CoatWord.AS_USUAL
    assert coat_words(max(good), good).result.word == CoatWord.AS_USUAL


def test_with_many_pots_the_outermost_no_longer_make_the_band():
    good = [0.20, *[0.50 + 0.01 * i for i in range(38)], 2.0]

    answer = coat_words(0.21, good)

    assert answer.result.word == CoatWord.THIN
    assert 0.49 < answer.result.usual_low_mm < 0.52
    assert 0.85 < answer.result.usual_high_mm < 0.90


@given(good=st.lists(thicknesses, min_size=3, max_size=30), coat_mm=thicknesses)
def test_a_thicker_coat_never_moves_towards_thin(good, coat_mm):
    order = [CoatWord.THIN, CoatWord.AS_USUAL, CoatWord.THICK]

    word = coat_words(coat_mm, good).result.word
    thicker = coat_words(coat_mm * 1.3, good).result.word

    assert order.index(thicker) >= order.index(word)


@given(good=st.lists(thicknesses, min_size=3, max_size=30), coat_mm=thicknesses)
def test_a_doubt_wide_enough_makes_any_coat_usual(good, coat_mm):
    assert coat_words(coat_mm, good, doubt_mm=10).result.word == CoatWord.AS_USUAL


@pytest.mark.parametrize(
    ("numbers", "field"),
    [
        ((0, [0.5] * 3, 0.0), "coat-mm"),
        ((0.5, [0.5, 0.5, -1], 0.0), "good-mm"),
        ((0.5, [0.5] * 3, -0.1), "doubt-mm"),
    ],
)
def test_impossible_thicknesses_are_refused(numbers, field):
    coat_mm, good, doubt = numbers

    with pytest.raises(ShapeError) as refused:
        coat_words(coat_mm, good, doubt_mm=doubt)

    assert refused.value.field == field


def test_above_its_own_limit_a_glaze_may_run():
    answer = layer_warning(
        0.9, doubt_mm=0.1, good_mm=[0.50, 0.53, 0.56], runs_above_mm=0.7, foot_gap_mm=3
    )

    assert answer.result.run == RunRisk.MAY_RUN
    assert answer.result.over_limit_mm == pytest.approx(0.2)
    assert answer.result.say == (
        "0.90 mm in all, thick for this glaze: it runs above 0.7 mm, so it may run, with 3 mm of "
        "bare foot to catch it."
    )


def test_within_the_doubt_of_its_limit_it_is_close():
    answer = layer_warning(0.65, doubt_mm=0.1, runs_above_mm=0.7)

    assert answer.result.run == RunRisk.CLOSE
    assert answer.result.say == "0.65 mm in all: close to the 0.7 mm above which it runs."
    assert answer.doubt["over_limit_mm"].high == pytest.approx(0.05)


def test_well_under_its_limit_it_does_not_run():
    answer = layer_warning(0.5, doubt_mm=0.1, good_mm=[0.45, 0.5, 0.6], runs_above_mm=0.7)

    assert answer.result.run == RunRisk.NO
    assert answer.result.say == (
        "0.50 mm in all, as usual for this glaze: under the 0.7 mm above which it runs."
    )


def test_without_a_limit_of_its_own_nothing_is_said_about_running():
    answer = layer_warning(2.0, doubt_mm=0.1)

    assert answer.result.run == RunRisk.NOT_KNOWN
    assert answer.result.over_limit_mm is None
    assert answer.result.say == "2.00 mm in all: where this glaze runs is not known yet."
    assert answer.doubt == {}


@given(total=thicknesses, limit=thicknesses, doubt=st.floats(0, 0.5), more=st.floats(0.001, 1))
def test_more_glaze_never_lowers_the_risk(total, limit, doubt, more):
    order = [RunRisk.NO, RunRisk.CLOSE, RunRisk.MAY_RUN]

    risk = layer_warning(total, doubt_mm=doubt, runs_above_mm=limit).result.run
    thicker = layer_warning(total + more, doubt_mm=doubt, runs_above_mm=limit).result.run

    assert order.index(thicker) >= order.index(risk)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"runs_above_mm": 0}, "runs-above-mm"),
        ({"foot_gap_mm": -1}, "foot-gap-mm"),
        ({"doubt_mm": -1}, "doubt-mm"),
    ],
)
def test_an_impossible_limit_is_refused(change, field):
    with pytest.raises(ShapeError) as refused:
        layer_warning(0.5, **({"doubt_mm": 0.1} | change))

    assert refused.value.field == field
