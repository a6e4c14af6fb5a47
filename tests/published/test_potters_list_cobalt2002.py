"""J. Herbert, "cobalt oxide and cobalt carbonate", potters' mailing list, 14 February 2002.

potters.org/subject49882: CoO 74.9, CoCO3 118.95, "1.6 times as much carbonate".
"""

import pytest

from wareboard.core.chemistry import analysis_of


@pytest.mark.published("potters-list-cobalt2002", where="J. Herbert's post", agreement="0.05")
def test_grey_cobalt_oxide_needs_1_6_times_the_carbonate():
    ratio = 100 / analysis_of("cobalt_carbonate").oxides["CoO"]

    assert ratio == pytest.approx(1.6, abs=0.05)
