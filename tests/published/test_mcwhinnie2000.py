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
def test_the_formula_printed_is_a_unity_formula():
    assert dict(unity(CONE_8_TO_10)) == pytest.approx(CONE_8_TO_10, abs=0.005)


@pytest.mark.published("mcwhinnie2000", where="lesson two, cone 8 to 10", agreement="0.005")
def test_the_formula_printed_follows_once_titanium_is_counted_as_he_counts_it():
    formula = unity(CONE_8_TO_10)

    his = {oxide: amount / (1 + formula["TiO2"]) for oxide, amount in formula.items()}

    # Fails if titanium is in our sum already, or zinc is not.
    assert his == pytest.approx(CONE_8_TO_10, abs=0.005)
