"""S. Altmann, "Brongniart's formula", potters' mailing list, 30 January and 26 April 1998."""

import pytest

from wareboard.core.slop import slop, water

SOLID = 2.5
"""His density of the dry matter of a glaze, 2500 g/l."""


@pytest.mark.published("altmann1998", where="first post, worked litre", agreement="0.05 g")
def test_a_litre_of_1500_g_holds_833_3_g_dry_and_666_7_g_of_water():
    content = slop(1.5, SOLID).result

    assert content.dry_g == pytest.approx(833.3, abs=0.05)
    assert content.water_g == pytest.approx(666.7, abs=0.05)


@pytest.mark.published("altmann1998", where="second post, 100 cc of slip", agreement="0.05 g")
def test_a_hundred_cc_of_150_g_hold_83_3_g_dry_and_66_7_g_of_water():
    content = slop(1.5, SOLID, 0.1).result

    assert content.dry_g == pytest.approx(83.3, abs=0.05)
    assert content.water_g == pytest.approx(66.7, abs=0.05)
    # The post goes on: the water weighs four fifths as much as the dry matter.
    assert content.water_g / content.dry_g == pytest.approx(0.80, abs=0.005)


@pytest.mark.published("altmann1998", where="second post, slip of 1.75", agreement="exact")
def test_a_slip_of_1_75_holds_1250_g_dry_and_500_g_of_water():
    content = slop(1.75, SOLID).result

    assert content.dry_g == pytest.approx(1250, rel=1e-12)
    assert content.water_g == pytest.approx(500, rel=1e-12)


@pytest.mark.published("altmann1998", where="second post, 14 kg tub", agreement="0.05 kg")
def test_a_tub_of_14_kg_has_5_6_litres_of_water_too_many():
    thin = slop(1.5, SOLID).result
    tub_l = 14_000 / thin.dry_g

    decanted_ml = water(tub_l, 1.5, 1.75).result.water_ml

    # "you must have added 11.2 kg water", "that would take 5.6 kg", "decant 5.6 liters"
    assert tub_l * thin.water_g == pytest.approx(11_200, abs=50)
    assert decanted_ml == pytest.approx(-5_600, abs=50)
