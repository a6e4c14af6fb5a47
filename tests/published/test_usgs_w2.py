"""U.S. Geological Survey, certificate of diabase W-2 (1995): iron written two ways.

crustal.usgs.gov/geochemical_reference_standards/diabase.html.
"""

import pytest

from wareboard.core.chemistry.elements import as_other_oxide_percent


@pytest.mark.published("usgs-w2", where="FeO, Fe2O3 and Fe2O3T", agreement="0.21 wt%, as printed")
def test_iron_in_both_states_adds_up_to_the_total_iron():
    total = 1.53 + as_other_oxide_percent("FeO", 8.34, "Fe2O3")

    assert total == pytest.approx(10.83, abs=0.21)
