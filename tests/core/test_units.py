"""Quantities know their range, and which slip a strange number looks like."""

import pytest

from wareboard.core.units import (
    FAHRENHEIT,
    LOST_POINT,
    MASS_G,
    SLOP_SG,
    TEMP_C,
    VOLUME_L,
    Slip,
)


@pytest.mark.parametrize(
    ("value", "allowed"), [(0.0, True), (1e7, True), (-1e-9, False), (1.1e7, False)]
)
def test_a_weight_may_be_zero_but_not_negative_or_over_ten_tonnes(
    value: float, *, allowed: bool
) -> None:
    assert MASS_G.allows(value) is allowed


@pytest.mark.parametrize(("value", "allowed"), [(0.0, False), (1e-9, True), (1e4, True)])
def test_the_litres_of_a_slop_are_above_zero(value: float, *, allowed: bool) -> None:
    assert VOLUME_L.allows(value) is allowed


def test_not_a_number_is_not_allowed() -> None:
    assert not MASS_G.allows(float("nan"))


@pytest.mark.parametrize(("typed", "meant"), [(14.5, 1.45), (145.0, 1.45), (1450.0, 1.45)])
def test_a_density_without_its_point_is_recognised(typed: float, meant: float) -> None:
    slips = SLOP_SG.likely_slips(typed)

    assert [value for _, value in slips] == [meant]


def test_a_usual_density_is_no_slip() -> None:
    assert SLOP_SG.likely_slips(1.45) == ()


def test_a_quantity_without_a_usual_range_asks_nothing() -> None:
    assert MASS_G.likely_slips(1e6) == ()


# Freezing and boiling point of water on both scales; common knowledge.
@pytest.mark.parametrize(("temp_f", "temp_c"), [(32.0, 0.0), (212.0, 100.0)])
def test_fahrenheit_slip_is_the_fahrenheit_scale(temp_f: float, temp_c: float) -> None:
    assert FAHRENHEIT[0].meant(temp_f) == temp_c


def test_a_number_that_no_slip_explains_is_left_to_its_range() -> None:
    assert TEMP_C.likely_slips(5000.0) == ()


def test_a_slip_never_leads_to_what_is_refused() -> None:
    # 100 without its point would be 1.00, which is water and no slop.
    assert SLOP_SG.likely_slips(100.0) == ()


def test_lost_points_are_asked_about_nearest_first() -> None:
    assert (Slip(10.0), Slip(100.0), Slip(1000.0)) == LOST_POINT
