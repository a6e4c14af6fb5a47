"""D. Shearer, "Molecular Unity Formula or Seger Formula": the limestone glaze 40-10-20-30.

duncanshearer.co.nz/glaze/molecular.html. His molecular weights are 556.8, 258.2
and 100.1; the amounts are printed to four decimals, the whiting to one.
"""

import pytest

from wareboard.core.chemistry import amounts, analysis_of


@pytest.mark.published("shearer", where="table of the glaze", agreement="0.0002")
@pytest.mark.parametrize(
    ("material", "parts", "oxide", "printed"),
    [
        ("feldspar_potash_ideal", 40, "K2O", 0.0718),
        ("kaolinite_ideal", 10, "Al2O3", 0.0387),
        ("calcite_ideal", 20, "CaO", 0.2),
    ],
)
def test_a_powder_brings_the_molecules_that_were_counted_by_hand(material, parts, oxide, printed):
    analysis = analysis_of(material)

    brought = amounts({oxide: parts * analysis.oxides[oxide] / 100})

    # 20 g of whiting are 0.1998 mol and printed as 0.2.
    assert brought[oxide] == pytest.approx(printed, abs=2e-4)
