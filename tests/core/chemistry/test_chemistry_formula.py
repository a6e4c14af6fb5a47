import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.chemistry.elements import (
    as_other_oxide_percent,
    element_share,
    element_to_oxide_percent,
    oxide_to_element_percent,
)
from wareboard.core.chemistry.formula import element_and_oxide, ideal_analysis, parse_formula
from wareboard.core.errors import CompositionError
from wareboard.refdata.materials import all_materials
from wareboard.refdata.oxides import all_oxides, molar_mass_g_mol

TRUE_OXIDES = [oxide for oxide in all_oxides() if oxide != "F"]
IDEAL = [found for found in all_materials().values() if found.formula]
FERROUS = {"ilmenite_ideal": 1.0, "iron_oxide_black_ideal": 1.0}


@pytest.mark.parametrize(
    ("formula", "atoms"),
    [
        ("KAlSi3O8", {"K": 1, "Al": 1, "Si": 3, "O": 8}),
        ("Al2Si2O5(OH)4", {"Al": 2, "Si": 2, "O": 9, "H": 4}),
        ("Na2B4O7*10H2O", {"Na": 2, "B": 4, "O": 17, "H": 20}),
        ("Na2B4O7·10 H2O", {"Na": 2, "B": 4, "O": 17, "H": 20}),
        ("4MgCO3*Mg(OH)2*4H2O", {"Mg": 5, "C": 4, "O": 18, "H": 10}),
        ("KLi1.5Al1.5AlSi3O10F2", {"K": 1, "Li": 1.5, "Al": 2.5, "Si": 3, "O": 10, "F": 2}),
        ("((SiO2)2)3", {"Si": 6, "O": 12}),
    ],
)
def test_atoms_of_a_formula_are_counted(formula, atoms):
    assert parse_formula(formula) == atoms


@pytest.mark.parametrize(
    "formula", ["", "3", "KAlSi3O8*", "(SiO2", "SiO2)", "sio2", "Si-O2", "SiO2**CaO", "²"]
)
def test_a_formula_that_cannot_be_read_is_refused(formula):
    with pytest.raises(CompositionError, match="cannot be read") as refusal:
        parse_formula(formula)

    assert refusal.value.field == "formula"


@pytest.mark.parametrize("oxide", TRUE_OXIDES)
def test_an_oxide_weighs_what_its_element_and_its_oxygen_weigh(oxide):
    element, count, oxygen = element_and_oxide(oxide)

    by_share = element_share(oxide) * molar_mass_g_mol(oxide)

    assert parse_formula(oxide) == {element: count, "O": oxygen}
    assert by_share == pytest.approx(molar_mass_g_mol(oxide) - oxygen * 15.999, rel=1e-12)


@pytest.mark.parametrize("symbol", ["F", "XO", "CaCO3"])
def test_what_is_no_oxide_has_no_element(symbol):
    with pytest.raises(CompositionError, match=f"{symbol} is not an oxide"):
        element_and_oxide(symbol)


@given(st.sampled_from(TRUE_OXIDES), st.floats(0, 200))
def test_element_and_oxide_are_an_inverse_pair(oxide, percent):
    there = oxide_to_element_percent(oxide, percent)

    assert element_to_oxide_percent(oxide, there) == pytest.approx(percent, rel=1e-14)


@given(st.floats(0, 200))
def test_iron_written_as_another_oxide_and_back_is_the_same(percent):
    there = as_other_oxide_percent("FeO", percent, "Fe2O3")

    assert as_other_oxide_percent("Fe2O3", there, "FeO") == pytest.approx(percent, rel=1e-14)


def test_ferrous_oxide_gains_a_ninth_as_ferric_oxide():
    factor = molar_mass_g_mol("Fe2O3") / (2 * molar_mass_g_mol("FeO"))

    assert as_other_oxide_percent("FeO", 1.0, "Fe2O3") == pytest.approx(factor, rel=1e-12)


def test_iron_cannot_be_written_as_manganese():
    with pytest.raises(CompositionError, match="they hold different elements"):
        as_other_oxide_percent("FeO", 1.0, "MnO")


@pytest.mark.parametrize("percent", [-1.0, float("nan"), float("inf")])
def test_a_percentage_that_cannot_be_is_refused(percent):
    with pytest.raises(CompositionError, match="An amount cannot be"):
        element_to_oxide_percent("SiO2", percent)


@pytest.mark.parametrize("found", IDEAL, ids=lambda found: found.id)
def test_an_ideal_material_of_the_library_is_what_its_formula_says(found):
    # A second way to the same numbers: the library was computed from atomic
    # weights, this from molar masses of oxides printed to 0.001 g/mol.
    analysis = ideal_analysis(found.formula, ferrous=FERROUS.get(found.id, 0.0))

    assert analysis.oxides == pytest.approx(dict(found.oxides), abs=1e-3)
    assert analysis.loi_percent == pytest.approx(found.loi_percent, abs=2e-3)


@pytest.mark.parametrize("found", IDEAL, ids=lambda found: found.id)
def test_what_stays_and_what_leaves_is_everything(found):
    assert ideal_analysis(found.formula).total_percent == pytest.approx(100, rel=1e-12)


def test_an_ideal_analysis_goes_by_its_formula_or_by_an_id():
    assert ideal_analysis("CaCO3").id == "CaCO3"
    assert ideal_analysis("CaCO3", mineral_id="chalk").id == "chalk"


def test_an_element_without_an_oxide_is_named():
    with pytest.raises(CompositionError, match="holds Au, which has no oxide here"):
        ideal_analysis("AuSiO3")


@pytest.mark.parametrize("ferrous", [-1.0, 1.5, float("nan")])
def test_no_more_iron_can_be_ferrous_than_there_is(ferrous):
    with pytest.raises(CompositionError, match="FeTiO3 has 1 iron"):
        ideal_analysis("FeTiO3", ferrous=ferrous)
