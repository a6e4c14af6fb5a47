import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import ShapeError
from wareboard.core.pot import handle_dm2, pot
from wareboard.core.pot.outline import DRY_CLAY_G_CM3
from wareboard.core.pot.wall import moved_in

TUMBLER = [(0.0, 0.0), (3.6, 0.0), (3.9, 2.0), (4.3, 6.0), (4.4, 10.0)]
FOOT_RING = [(0.0, 0.4), (2.4, 0.4), (2.6, 0.0), (3.0, 0.0), (3.4, 0.9), (6.5, 5.0), (7.0, 8.0)]


def _turning_left(foot_cm, turns, lengths):
    """An outline that only ever turns inwards, up to straight up."""
    points, angle = [(0.0, 0.0), (foot_cm, 0.0)], 0.0
    for turn, length in zip(turns, lengths, strict=False):
        angle = min(angle + turn, 90.0)
        r, z = points[-1]
        direction = math.radians(angle)
        points.append((r + length * math.cos(direction), z + length * math.sin(direction)))
    r, z = points[-1]
    return [*points, (r, z + 4.0)]


convex_outlines = st.builds(
    _turning_left,
    st.floats(3.0, 8.0),
    st.lists(st.floats(5.0, 40.0), min_size=2, max_size=6),
    st.lists(st.floats(2.0, 6.0), min_size=6, max_size=6),
)
walls_mm = st.floats(1.0, 9.0)


def _distance(point, start, end):
    along = (end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2
    share = sum((point[i] - start[i]) * (end[i] - start[i]) for i in (0, 1)) / along
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, [start[i] + share * (end[i] - start[i]) for i in (0, 1)])


def _sphere(radius, steps, upto=math.pi):
    return [
        (radius * math.sin(upto * i / steps), -radius * math.cos(upto * i / steps))
        for i in range(steps + 1)
    ]


def test_a_cylinder_by_hand():
    shape = pot([(0, 0), (5, 0), (5, 10)], 5).result

    assert shape.outside_dm2 == pytest.approx((math.pi * 25 + 2 * math.pi * 5 * 10) / 100)
    assert shape.foot_dm2 == pytest.approx(math.pi * 25 / 100)
    assert shape.displaced_ml == pytest.approx(math.pi * 25 * 10)
    assert shape.inside_dm2 == pytest.approx((math.pi * 4.5**2 + 2 * math.pi * 4.5 * 9.5) / 100)
    assert shape.brim_ml == pytest.approx(math.pi * 4.5**2 * 9.5)
    assert shape.clay_g == pytest.approx(1.85 * math.pi * (25 * 10 - 4.5**2 * 9.5))


def test_an_outline_that_starts_away_from_the_axis_has_its_foot_disc():
    whole = pot([(0, 0), (5, 0), (5, 10)], 5).result

    assert pot([(5, 0), (5, 10)], 5).result == whole


def test_a_flower_pot_has_its_wall_square_to_the_slope():
    low, top, height, wall = 4.0, 7.0, 12.0, 0.6
    slant = math.hypot(top - low, height)
    across = wall * slant / height

    shape = pot([(low, 0), (top, height)], 10 * wall).result

    def radius(z):
        return low + (top - low) * z / height - across

    floor, rim = radius(wall), radius(height)
    brim = math.pi / 3 * (height - wall) * (floor**2 + floor * rim + rim**2)
    assert shape.brim_ml == pytest.approx(brim, rel=1e-12)
    inner_slant = (height - wall) * slant / height
    assert 100 * shape.inside_dm2 == pytest.approx(
        math.pi * floor**2 + math.pi * (floor + rim) * inner_slant, rel=1e-12
    )


def test_a_bottle_that_closes_in_is_carried_up_to_its_rim():
    shape = pot([(6, 0), (6, 10), (2, 14)], 5).result

    # The shoulder leans in at 45 degrees: its wall is 0.5 sqrt(2) across.
    across = 0.5 * math.sqrt(2)
    turn = 10 - 0.5 * math.tan(math.pi / 8)
    rim = 2 - across
    shoulder = 14 - turn
    brim = math.pi * 5.5**2 * (turn - 0.5)
    brim += math.pi / 3 * shoulder * (5.5**2 + 5.5 * rim + rim**2)
    assert shape.brim_ml == pytest.approx(brim, rel=1e-9)


def test_half_a_sphere_tends_to_the_formulas():
    shape = pot(_sphere(8.0, 400, math.pi / 2), 5).result

    assert 100 * shape.outside_dm2 == pytest.approx(2 * math.pi * 64, rel=1e-4)
    assert 100 * shape.inside_dm2 == pytest.approx(2 * math.pi * 7.5**2, rel=1e-3)
    assert shape.brim_ml == pytest.approx(2 / 3 * math.pi * 7.5**3, rel=1e-3)
    assert shape.foot_dm2 == 0.0


def test_a_shallow_bowl_cut_from_a_sphere_tends_to_the_formulas():
    shape = pot(_sphere(8.0, 400, math.pi / 3), 5).result

    # Caps: V = pi h^2 (3 R - h) / 3, to the level of the rim.
    depth = -0.5 * 8.0 + 7.5
    assert shape.brim_ml == pytest.approx(math.pi * depth**2 * (3 * 7.5 - depth) / 3, rel=1e-3)
    assert shape.displaced_ml == pytest.approx(math.pi * 4**2 * (3 * 8.0 - 4) / 3, rel=1e-3)


def test_a_ring_of_clay_tends_to_the_torus():
    tube = [
        (5 + 1.5 * math.sin(math.pi * i / 300), -1.5 * math.cos(math.pi * i / 300))
        for i in range(301)
    ]
    filled = [
        (5 - 1.5 * math.sin(math.pi * i / 300), -1.5 * math.cos(math.pi * i / 300))
        for i in range(301)
    ]

    outer, inner = pot(tube).result, pot(filled).result

    assert outer.displaced_ml - inner.displaced_ml == pytest.approx(
        2 * math.pi**2 * 5 * 1.5**2, rel=1e-4
    )


def test_a_foot_ring_is_full_of_clay_and_the_floor_flat():
    inner = moved_in(FOOT_RING, 0.6)

    # Centre of the foot at 0.4 cm, wall of 0.6 cm: the floor lies at 1.0 cm
    # and runs straight on to the flank.
    assert inner[0] == pytest.approx((0.0, 1.0))
    assert inner[1][1] == pytest.approx(1.0)
    assert inner[1][0] > 2.6


def test_the_foot_of_a_foot_ring_is_all_within_its_standing_edge():
    shape = pot(FOOT_RING).result

    hollow = math.pi * 2.4**2 + math.pi * (2.4 + 2.6) * math.hypot(0.2, 0.4)
    ring = math.pi * (3.0**2 - 2.6**2)
    assert 100 * shape.foot_dm2 == pytest.approx(hollow + ring, rel=1e-12)


def test_a_plate_with_a_flat_rim_is_cut_square():
    answer = pot([(0, 0), (6, 0), (9, 1.5), (13, 1.6)], 6)

    assert answer.working[1].startswith("The rim is cut square to the wall")
    flat = math.pi * (13**2 - 9**2) * 0.6
    assert answer.result.clay_g / DRY_CLAY_G_CM3 > flat


@pytest.mark.parametrize(
    "profile",
    [
        [(6, 0), (6, 10), (3, 10.1)],
        [(6, 0), (6, 8), (3.5, 8.7)],
        [(6, 0), (6, 10), (3, 9.5)],
    ],
)
def test_a_lip_that_turns_in_flat_is_cut_square(profile):
    answer = pot(profile, 3)

    assert answer.working[1].startswith("The rim is cut square to the wall")


def test_a_lip_that_droops_is_cut_square():
    plain = pot([(4, 0), (7, 6)], 5)

    answer = pot([(4, 0), (7, 6), (9, 5.5)], 5)

    assert answer.working[1].startswith("The rim is cut square to the wall")
    # It fills up to the crest of its lip, over the rim it would have had without.
    assert answer.result.brim_ml > plain.result.brim_ml


def test_a_tiny_rounded_foot_does_not_tangle_the_inside():
    edge = [
        (5 + 0.2 * math.sin(math.pi / 20 * i), 0.2 - 0.2 * math.cos(math.pi / 20 * i))
        for i in range(11)
    ]
    sharp = pot([(0, 0), (5.2, 0), (5.2, 12)], 6).result

    rounded = pot([(0, 0), *edge, (5.2, 12)], 6).result

    # The inside does not see the small radius outside.
    assert rounded.brim_ml == pytest.approx(sharp.brim_ml, rel=1e-9)
    assert rounded.clay_g < sharp.clay_g


@given(profile=convex_outlines, wall=walls_mm)
def test_clay_and_brim_fill_what_the_pot_pushes_aside(profile, wall):
    shape = pot(profile, wall).result

    clay_cm3 = shape.clay_g / DRY_CLAY_G_CM3
    assert clay_cm3 + shape.brim_ml == pytest.approx(shape.displaced_ml, rel=1e-9)


@given(profile=convex_outlines, wall=walls_mm)
def test_every_corner_of_the_inside_is_one_wall_from_the_outside(profile, wall):
    inner = moved_in(profile, wall / 10)

    for point in inner:
        nearest = min(_distance(point, a, b) for a, b in pairwise(profile))
        assert nearest == pytest.approx(wall / 10, rel=1e-6)


@given(profile=convex_outlines, wall=walls_mm, more=st.floats(0.1, 4.0))
def test_a_thicker_wall_holds_less_and_weighs_more(profile, wall, more):
    thin = pot(profile, wall).result

    thick = pot(profile, wall + more).result

    assert thick.brim_ml < thin.brim_ml
    assert thick.inside_dm2 < thin.inside_dm2
    assert thick.clay_g > thin.clay_g


@given(profile=convex_outlines, wall=walls_mm, times=st.floats(0.2, 5.0))
def test_a_pot_twice_as_big_has_four_times_the_area_and_eight_times_the_clay(profile, wall, times):
    small = pot(profile, wall).result

    big = pot([(r * times, z * times) for r, z in profile], wall * times).result

    assert big.outside_dm2 == pytest.approx(small.outside_dm2 * times**2, rel=1e-9)
    assert big.inside_dm2 == pytest.approx(small.inside_dm2 * times**2, rel=1e-9)
    assert big.brim_ml == pytest.approx(small.brim_ml * times**3, rel=1e-9)
    assert big.clay_g == pytest.approx(small.clay_g * times**3, rel=1e-9)


@given(profile=convex_outlines, wall=walls_mm, lift=st.floats(-20, 20))
def test_where_the_ruler_starts_does_not_matter(profile, wall, lift):
    there = pot(profile, wall).result

    lifted = pot([(r, z + lift) for r, z in profile], wall).result

    assert lifted.brim_ml == pytest.approx(there.brim_ml, rel=1e-9)
    assert lifted.clay_g == pytest.approx(there.clay_g, rel=1e-9)
    assert lifted.foot_dm2 == pytest.approx(there.foot_dm2, rel=1e-9)


@given(profile=convex_outlines, wall=walls_mm)
def test_a_point_on_a_straight_piece_changes_nothing(profile, wall):
    plain = pot(profile, wall).result
    (r1, z1), (r2, z2) = profile[1:3]

    with_point = [*profile[:2], ((r1 + r2) / 2, (z1 + z2) / 2), *profile[2:]]

    shape = pot(with_point, wall).result
    assert shape.clay_g == pytest.approx(plain.clay_g, rel=1e-6)
    assert shape.inside_dm2 == pytest.approx(plain.inside_dm2, rel=1e-6)


def test_a_point_given_twice_changes_nothing():
    doubled = [TUMBLER[0], *[point for point in TUMBLER[1:] for _ in (0, 1)]]

    assert pot(doubled, 4.6).result == pot(TUMBLER, 4.6).result


@given(profile=convex_outlines, wall=walls_mm)
def test_a_shape_lies_within_its_doubt(profile, wall):
    answer = pot(profile, wall)

    for name, interval in answer.doubt.items():
        assert interval.low < getattr(answer.result, name) < interval.high


def test_a_wall_known_better_leaves_less_doubt():
    rough = pot(TUMBLER, 4.6).doubt
    fine = pot(TUMBLER, 4.6, wall_doubt_mm=0.1, outline_doubt_mm=0.2).doubt

    for name, interval in fine.items():
        assert interval.low > rough[name].low
        assert interval.high < rough[name].high


def test_without_the_wall_only_the_outside_is_told():
    answer = pot(TUMBLER)

    assert answer.result.inside_dm2 is None
    assert answer.result.brim_ml is None
    assert answer.result.clay_g is None
    assert sorted(answer.doubt) == ["displaced_ml", "foot_dm2", "outside_dm2"]


@pytest.mark.parametrize(
    ("profile", "field"),
    [
        ([], "profile"),
        ([(5, 0)], "profile"),
        ([(0, 0), (0, 0)], "profile"),
        ([(5, 0), (-1, 5)], "r_cm"),
        ([(5, 0), (float("nan"), 5)], "r_cm"),
        ([(5, 0), (5, float("inf"))], "z_cm"),
        ([(5, 0), (0, 10)], "r_cm"),
        ([(5, 10), (5, 0)], "z_cm"),
        ([(0, 0), (8, 0)], "z_cm"),
        ([(4, 0), (9, 3), (9, 0.2), (3, 5)], "profile"),
    ],
)
def test_an_outline_that_is_none_is_refused(profile, field):
    with pytest.raises(ShapeError) as refused:
        pot(profile)

    assert refused.value.field == field


@pytest.mark.parametrize(
    ("profile", "wall_mm"),
    [
        ([(2, 0), (2, 10)], 25),
        ([(0, 0), (2, 10)], 25),
        ([(6.8, 0), (6.5, 0.8), (2.8, 0.3)], 3),
        ([(5, 0), (5, 1)], 12),
        ([(5, 0), (5, 8), (1, 9), (1, 14)], 15),
        ([(4, 0), (6, 5), (4, 0.5), (7, 9)], 5),
        ([(4, 0), (4, 9), (4, 5), (4, 10)], 5),
        ([(0, 0), (0, 2), (5, 2), (5, 9)], 5),
        ([(0.3, 0), (0.31, 10)], 5),
    ],
)
def test_a_wall_that_does_not_fit_is_refused(profile, wall_mm):
    with pytest.raises(ShapeError):
        pot(profile, wall_mm)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"wall_mm": 0}, "wall-mm"),
        ({"wall_mm": float("nan")}, "wall-mm"),
        ({"wall_mm": 5, "wall_doubt_mm": -1}, "wall-doubt-mm"),
        ({"wall_mm": 5, "outline_doubt_mm": -1}, "outline-doubt-mm"),
    ],
)
def test_an_impossible_wall_is_refused(change, field):
    with pytest.raises(ShapeError) as refused:
        pot(TUMBLER, **change)

    assert refused.value.field == field


def test_a_handle_is_its_length_times_its_girth():
    assert handle_dm2(12, 5) == pytest.approx(0.6)


@pytest.mark.parametrize(("length", "girth"), [(-1, 5), (12, float("nan"))])
def test_an_impossible_handle_is_refused(length, girth):
    with pytest.raises(ShapeError):
        handle_dm2(length, girth)


@given(
    profile=st.lists(st.tuples(st.floats(0, 30), st.floats(-5, 40)), min_size=0, max_size=8),
    wall=st.floats(0.5, 40),
)
def test_any_outline_is_either_refused_or_told_in_plain_numbers(profile, wall):
    try:
        shape = pot(profile, wall).result
    except ShapeError:
        return

    numbers = [shape.outside_dm2, shape.inside_dm2, shape.brim_ml, shape.clay_g]
    numbers.append(shape.displaced_ml)
    assert all(math.isfinite(number) and number > 0.0 for number in numbers)
    assert 0.0 <= shape.foot_dm2 <= shape.outside_dm2
