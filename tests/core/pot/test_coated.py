"""How much of a pot one coat covers, on shapes whose area everybody knows."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import ShapeError
from wareboard.core.pot.coated import coated_dm2

CYLINDER = ((5.0, 0.0), (5.0, 20.0))
CONE = ((3.0, 0.0), (6.0, 4.0))


def test_the_outside_of_a_cylinder_is_its_girth_times_its_height():
    area = coated_dm2(CYLINDER, 5.0, side="outside")

    assert area == pytest.approx(2 * math.pi * 5 * 20 / 100)


def test_the_inside_of_a_cylinder_has_a_floor_and_lies_one_wall_nearer():
    area = coated_dm2(CYLINDER, 5.0, side="inside")

    assert area == pytest.approx((2 * math.pi * 4.5 * 19.5 + math.pi * 4.5**2) / 100)


def test_the_outside_of_a_cone_is_that_of_a_frustum():
    area = coated_dm2(CONE, 5.0, side="outside")

    assert area == pytest.approx(math.pi * (3 + 6) * 5 / 100)


def test_a_lip_is_coated_on_both_sides_whatever_is_said():
    area = coated_dm2(CYLINDER, 5.0, side="outside", extent="lip", depth_cm=2.0)

    assert area == pytest.approx(2 * math.pi * (5 + 4.5) * 2 / 100)


def test_a_foot_gap_stays_bare_outside_only():
    full = coated_dm2(CYLINDER, 5.0, side="both")

    gapped = coated_dm2(CYLINDER, 5.0, side="both", foot_gap_mm=10.0)

    assert full - gapped == pytest.approx(2 * math.pi * 5 * 1 / 100)


def test_a_foot_alone_is_a_ring_outside():
    area = coated_dm2(CYLINDER, 5.0, side="outside", extent="foot", depth_cm=2.0)

    assert area == pytest.approx(2 * math.pi * 5 * 2 / 100)


def test_a_flat_stretch_counts_as_the_ring_it_is():
    plate = ((5.0, 0.0), (5.0, 2.0), (9.0, 2.0), (9.0, 3.0))

    area = coated_dm2(plate, 5.0, side="outside")

    ring = math.pi * (9**2 - 5**2)
    assert area == pytest.approx((2 * math.pi * 5 * 2 + ring + 2 * math.pi * 9) / 100)


@given(
    radius=st.floats(2, 30), height=st.floats(6, 60), depth=st.floats(0.5, 5), wall=st.floats(2, 10)
)
def test_the_lip_and_what_lies_below_it_make_the_whole(radius, height, depth, wall):
    shape = ((radius, 0.0), (radius * 1.2, height / 2), (radius, height))

    lip = coated_dm2(shape, wall, side="both", extent="lip", depth_cm=depth)
    below = coated_dm2(shape, wall, side="both", extent="below the lip", depth_cm=depth)

    assert lip + below == pytest.approx(coated_dm2(shape, wall, side="both"), rel=1e-9)


@pytest.mark.parametrize("outline", [((5.0, 0.0),), ((5.0, 1.0), (6.0, 1.0))])
def test_an_outline_without_height_is_refused(outline):
    with pytest.raises(ShapeError):
        coated_dm2(outline, 5.0, side="outside")
