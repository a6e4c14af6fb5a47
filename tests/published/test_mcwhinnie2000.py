"""H. McWhinnie, online glaze course, potters' mailing list, July 2000 (potters.org/subject31225).

His formula for cone 8 to 10 counts titanium among the fluxes: CaO .40, KNaO
.40, MgO .10, ZnO .05 and TiO .05 make one. Here titanium stands outside the
sum, and the same glaze has other numbers.
"""

import pytest

from wareboard.core.chemistry import unity

CONE_8_TO_10 = {
    "K2O": 0.40,
    "CaO": 0.40,
    "MgO": 0.10,
    "ZnO": 0.05,
    "TiO2": 0.05,
    "Al2O3": 0.30,
    "SiO2": 3.00,
}


@pytest.mark.xfail(reason="He counts TiO2 in the flux sum, we do not: .95 against 1.")
@pytest.mark.published("mcwhinnie2000", where="lesson two, cone 8 to 10", agreement="0.005")
@pytest.mark.parametrize("oxide", CONE_8_TO_10)
def test_the_formula_printed_is_a_unity_formula(oxide):
    assert unity(CONE_8_TO_10)[oxide] == pytest.approx(CONE_8_TO_10[oxide], abs=0.002)


@pytest.mark.published("mcwhinnie2000", where="lesson two, cone 8 to 10", agreement="exact")
def test_the_two_conventions_agree_on_silica_to_alumina():
    formula = unity(CONE_8_TO_10)

    # Gloss by his rule: alumina to silica 1 to 10.
    assert formula["SiO2"] / formula["Al2O3"] == pytest.approx(10, rel=1e-12)
