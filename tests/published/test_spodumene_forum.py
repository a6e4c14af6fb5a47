"""A public forum's independent sum for spodumene, done with a units program.

Item 44693666: cell mass 186.089, lithia 8.0282762 % of it.
"""

import pytest

from wareboard.core.chemistry.formula import ideal_analysis


@pytest.mark.published("spodumene-forum", where="item 44693666", agreement="0.001 wt%")
def test_spodumene_holds_the_lithia_of_an_independent_sum():
    # 186.089 against our 186.086: its atomic weights are older by 2 in 100 000.
    assert ideal_analysis("LiAlSi2O6").oxides["Li2O"] == pytest.approx(8.0283, abs=1e-3)
