"""L. Katz, "Sources of Fluxes": natural powders, each as percentages and as a formula.

louiskatz.net/materials/i/sources.html. Percentages to 0.01, amounts to 0.001;
the fluxes of each formula add up to one, iron is outside, as here. Half of the
last digit of every percentage at worst moves silica by 0.3 % and the small
amounts by 0.001; older molar masses do the rest.
"""

import pytest

from wareboard.core.chemistry import amount_to_mass_percent, amounts, unity

POTASH_FELDSPAR = {
    "SiO2": (69.22, 7.137),
    "Al2O3": (17.17, 1.043),
    "K2O": (10.11, 0.665),
    "Na2O": (3.04, 0.304),
    "CaO": (0.27, 0.031),
    "Fe2O3": (0.16, 0.006),
}
SODA_FELDSPAR = {
    "SiO2": (69.16, 6.517),
    "Al2O3": (18.62, 1.034),
    "K2O": (4.15, 0.250),
    "Na2O": (6.54, 0.597),
    "CaO": (1.52, 0.153),
}
PETALITE = {
    "SiO2": (78.22, 7.793),
    "Al2O3": (16.20, 0.951),
    "K2O": (0.28, 0.018),
    "Na2O": (0.38, 0.037),
    "CaO": (0.12, 0.012),
    "MgO": (0.42, 0.061),
    "Li2O": (4.36, 0.872),
}
SPODUMENE = {
    "SiO2": (64.33, 4.333),
    "Al2O3": (26.36, 1.046),
    "K2O": (0.77, 0.033),
    "Na2O": (0.27, 0.017),
    "CaO": (0.30, 0.021),
    "Li2O": (6.87, 0.929),
    "Fe2O3": (0.84, 0.021),
    "P2O5": (0.27, 0.008),
}


def unity_of(powder):
    return unity(amounts({oxide: percent for oxide, (percent, _) in powder.items()}))


@pytest.mark.published("katz", where="first potash feldspar", agreement="0.4 %, or 0.0015")
@pytest.mark.parametrize("oxide", POTASH_FELDSPAR)
def test_the_potash_feldspar_has_the_formula_printed(oxide):
    formula = unity_of(POTASH_FELDSPAR)

    assert formula[oxide] == pytest.approx(POTASH_FELDSPAR[oxide][1], rel=4e-3, abs=1.5e-3)


@pytest.mark.published("katz", where="soda feldspar", agreement="0.4 %, or 0.0015")
@pytest.mark.parametrize("oxide", SODA_FELDSPAR)
def test_the_soda_feldspar_has_the_formula_printed(oxide):
    formula = unity_of(SODA_FELDSPAR)

    assert formula[oxide] == pytest.approx(SODA_FELDSPAR[oxide][1], rel=4e-3, abs=1.5e-3)


@pytest.mark.published("katz", where="petalite, actual", agreement="0.4 %, or 0.0015")
@pytest.mark.parametrize("oxide", PETALITE)
def test_the_petalite_has_the_formula_printed(oxide):
    formula = unity_of(PETALITE)

    assert formula[oxide] == pytest.approx(PETALITE[oxide][1], rel=4e-3, abs=1.5e-3)


@pytest.mark.published("katz", where="spodumene, actual", agreement="0.4 %, or 0.0015")
@pytest.mark.parametrize("oxide", SPODUMENE)
def test_the_spodumene_has_the_formula_printed(oxide):
    formula = unity_of(SPODUMENE)

    assert formula[oxide] == pytest.approx(SPODUMENE[oxide][1], rel=4e-3, abs=1.5e-3)


@pytest.mark.published("katz", where="dolomite, theoretical", agreement="0.02 wt%")
@pytest.mark.parametrize(("oxide", "printed"), [("CaO", 58.17), ("MgO", 41.83)])
def test_dolomite_that_has_lost_its_gas_is_half_lime_half_magnesia(oxide, printed):
    calcined = amount_to_mass_percent({"CaO": 0.5, "MgO": 0.5})

    # His atomic weight of magnesium or calcium is a little older.
    assert calcined[oxide] == pytest.approx(printed, abs=0.02)
