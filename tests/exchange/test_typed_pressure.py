"""Gas pressure and damper as they are typed in the kiln shed."""

import pytest

from wareboard.core.units import DAMPER_MARKS, PRESSURE_KPA
from wareboard.exchange.typed_number import NumberRefused, read_typed


@pytest.mark.parametrize(
    ("text", "kpa"),
    [
        ("8", 8.0),
        ("80 mbar", 8.0),
        ("0,5 bar", 50.0),
        ("1 psi", 6.894757),  # NIST SP 811, appendix B: from memory
        ("14 in wc", 14 * 0.2490889),  # as above, conventional inch of water: from memory
    ],
)
def test_gas_pressure_is_read_as_gauges_show_it(text, kpa):
    read = read_typed(text, PRESSURE_KPA, field="gas pressure")

    # The inch of water differs in the fifth digit by the water's temperature.
    assert read.value == pytest.approx(kpa, rel=5e-4)


def test_a_pressure_no_regulator_gives_is_refused():
    with pytest.raises(NumberRefused, match="out of range"):
        read_typed("2000", PRESSURE_KPA, field="gas pressure")


@pytest.mark.parametrize(("text", "marks"), [("3 1/2", 3.5), ("50 %", 50.0), ("8", 8.0)])
def test_a_damper_is_read_in_the_kilns_own_marks(text, marks):
    assert read_typed(text, DAMPER_MARKS, field="damper").value == marks
