import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.chemistry import (
    amount_to_mass_percent,
    amounts,
    flux_sum,
    mass_to_amount_percent,
    masses,
    oxygen_ratio,
    to_hundred,
    unity,
)
from wareboard.core.errors import CompositionError
from wareboard.refdata.oxides import FLUXES, GASES, all_oxides

OXIDES = list(all_oxides())
COMPOSITIONS = st.dictionaries(st.sampled_from(OXIDES), st.floats(0.01, 100), min_size=1)
FLUXED = st.tuples(COMPOSITIONS, st.sampled_from(FLUXES), st.floats(0.01, 100)).map(
    lambda drawn: drawn[0] | {drawn[1]: drawn[2]}
)


@given(COMPOSITIONS)
def test_masses_come_back_from_their_amounts(composition):
    assert masses(amounts(composition)) == pytest.approx(composition, rel=1e-14)


@given(COMPOSITIONS)
def test_weight_percent_comes_back_from_molecules_percent(composition):
    percent = to_hundred(composition)

    back = amount_to_mass_percent(mass_to_amount_percent(percent))

    assert back == pytest.approx(percent, rel=1e-12)


@given(COMPOSITIONS)
def test_scaling_to_a_hundred_twice_is_scaling_once(composition):
    once = to_hundred(composition)

    assert to_hundred(once) == pytest.approx(once, rel=1e-14)
    assert sum(once.values()) == pytest.approx(100, rel=1e-12)


@given(COMPOSITIONS, st.floats(1e-6, 1e6))
def test_percent_does_not_know_the_size_of_the_heap(composition, factor):
    heap = {oxide: factor * mass for oxide, mass in composition.items()}

    assert to_hundred(heap) == pytest.approx(to_hundred(composition), rel=1e-12)


@given(FLUXED)
def test_fluxes_of_a_unity_formula_add_up_to_one(composition):
    formula = unity(composition)

    assert flux_sum(formula) == pytest.approx(1, rel=1e-14)


@given(FLUXED)
def test_a_unity_formula_reduced_again_stays_itself(composition):
    formula = unity(composition)

    assert unity(formula) == pytest.approx(formula, rel=1e-14)


@given(FLUXED, st.randoms())
def test_the_order_of_the_oxides_changes_no_digit(composition, random):
    shuffled = list(composition.items())
    random.shuffle(shuffled)

    assert list(unity(dict(shuffled)).items()) == list(unity(composition).items())
    assert list(to_hundred(dict(shuffled)).items()) == list(to_hundred(composition).items())
    assert flux_sum(dict(shuffled)) == flux_sum(composition)


def test_gases_are_not_in_the_unity_formula():
    formula = unity({"CaO": 2.0, "SiO2": 4.0, **dict.fromkeys(GASES, 1.0)})

    assert formula == {"CaO": 1.0, "SiO2": 2.0}


def test_iron_manganese_colorants_and_boron_are_not_fluxes():
    outside = {"FeO", "Fe2O3", "MnO", "CoO", "CuO", "NiO", "B2O3", "Bi2O3", "TiO2"}

    assert flux_sum(dict.fromkeys(outside, 1.0)) == 0.0


def test_what_is_not_there_is_not_listed():
    assert amounts({"CaO": 56.077, "MgO": 0.0}) == {"CaO": 1.0}
    assert masses({"CaO": 1.0, "MgO": 0.0}) == {"CaO": 56.077}
    assert to_hundred({"CaO": 3.0, "MgO": 0.0}) == {"CaO": 100.0}
    assert unity({"CaO": 3.0, "MgO": 0.0}) == {"CaO": 1.0}


def test_a_composition_without_flux_has_no_unity_formula():
    with pytest.raises(CompositionError, match="There is no flux in this recipe") as refusal:
        unity({"SiO2": 1.0, "Fe2O3": 0.1, "B2O3": 0.3})

    assert refusal.value.field == "material"


def test_an_empty_composition_cannot_be_scaled():
    with pytest.raises(CompositionError, match="nothing in this composition"):
        to_hundred({"SiO2": 0.0})


@pytest.mark.parametrize("amount", [-0.1, float("nan"), float("inf")])
@pytest.mark.parametrize("calculation", [amounts, masses, to_hundred, unity, oxygen_ratio])
def test_an_amount_that_cannot_be_is_refused_by_its_oxide(calculation, amount):
    with pytest.raises(CompositionError, match="The amount of SiO2 cannot be") as refusal:
        calculation({"CaO": 1.0, "SiO2": amount})

    assert refusal.value.field == "SiO2"


def test_an_oxide_that_nobody_knows_is_refused():
    with pytest.raises(CompositionError, match="XO is not an oxide that can be counted"):
        amounts({"XO": 1.0})


@given(st.floats(0, 2), st.floats(0, 10))
def test_oxygen_ratio_of_silica_and_alumina_follows_binns(alumina, silica):
    ratio = oxygen_ratio({"CaO": 1.0, "Al2O3": alumina, "SiO2": silica})

    assert ratio == pytest.approx(2 * silica / (1 + 3 * alumina), rel=1e-14)


def test_silica_alone_has_nothing_to_be_weighed_against():
    with pytest.raises(CompositionError, match="neither flux nor alumina"):
        oxygen_ratio({"SiO2": 1.0})
