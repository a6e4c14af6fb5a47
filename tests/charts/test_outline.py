"""The outline made ready for drawing: the wall keeps its thickness, the skin its order."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.charts.general_forms import FORMS, GeneralForm
from wareboard.charts.outline import cut_through
from wareboard.core.errors import ShapeError

CYLINDER = [(4.0, 0.0), (4.0, 10.0)]


def test_straight_wall_keeps_its_thickness_from_floor_to_rim():
    shape = cut_through(CYLINDER, 6.0)

    inside = [p for p in shape.skin if p.side == "inside" and 0.7 < p.z_cm < 9.9]
    assert [p.r_cm for p in inside] == pytest.approx([3.4] * len(inside))
    assert len(inside) > 5


def test_floor_is_as_thick_as_the_wall_and_ends_in_the_middle():
    shape = cut_through(CYLINDER, 6.0)

    last = shape.skin[-1]
    assert (last.r_cm, last.z_cm) == pytest.approx((0.0, 0.6))


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.word)
def test_the_points_a_potter_gave_lie_on_the_line(form: GeneralForm):
    shape = cut_through(form.profile_cm, form.wall_mm)

    assert [p for p in form.profile_cm if p not in shape.outer] == []


HOLLOW = [form for form in FORMS if form.word != "tile"]


@pytest.mark.parametrize("form", HOLLOW, ids=lambda form: form.word)
def test_inside_never_comes_nearer_than_the_wall(form: GeneralForm):
    shape = cut_through(form.profile_cm, form.wall_mm)

    # The rim is cut level, so its own height is left out.
    inside = [p for p in shape.skin if p.side == "inside" and p.z_cm < shape.rim_cm - 0.3]
    near = [min(math.dist((p.r_cm, p.z_cm), q) for q in shape.outer) for p in inside]
    assert min(near) >= 0.9 * form.wall_mm / 10.0


@given(
    radii=st.lists(st.floats(1.0, 15.0), min_size=2, max_size=8),
    rise_cm=st.floats(0.5, 6.0),
    wall_mm=st.floats(2.0, 9.0),
)
def test_every_skin_has_finite_points_and_ways_of_length_one(radii, rise_cm, wall_mm):
    profile = [(r, i * rise_cm) for i, r in enumerate(radii)]

    shape = cut_through(profile, wall_mm)

    assert [p for p in shape.skin if not math.isfinite(p.r_cm + p.z_cm) or p.r_cm < 0] == []
    lengths = [math.hypot(p.out_r, p.out_z) for p in shape.skin]
    assert lengths == pytest.approx([1.0] * len(lengths))
    assert shape.outer[-1] == pytest.approx(profile[-1])


def test_an_outline_that_starts_in_the_middle_of_the_foot_has_the_same_inside():
    from_middle = cut_through([(0.0, 0.0), *CYLINDER], 6.0)

    inside = [p.r_cm for p in from_middle.skin if p.side == "inside" and 0.7 < p.z_cm < 9.9]
    assert inside == pytest.approx([3.4] * len(inside))
    assert from_middle.skin[-1].z_cm == pytest.approx(0.6)


def test_outside_points_away_from_the_middle_and_inside_towards_it():
    shape = cut_through(CYLINDER, 6.0)

    half_way = [p for p in shape.skin if 4 < p.z_cm < 6]
    assert {(p.side, round(p.out_r)) for p in half_way} == {("outside", 1), ("inside", -1)}


@pytest.mark.parametrize(
    ("profile", "wall_mm", "field"),
    [
        ([(4.0, 0.0)], 5.0, "profile_cm"),
        ([(4.0, 0.0), (4.0, 0.0)], 5.0, "profile_cm"),
        ([(4.0, 0.0), (-1.0, 5.0)], 5.0, "profile_cm"),
        ([(4.0, 0.0), (math.nan, 5.0)], 5.0, "profile_cm"),
        ([(0.0, 0.0), (0.0, 5.0)], 5.0, "profile_cm"),
        ([(4.0, 5.0), (4.0, 0.0)], 5.0, "profile_cm"),
        (CYLINDER, 0.0, "wall_mm"),
        (CYLINDER, math.inf, "wall_mm"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_its_place(profile, wall_mm, field):
    with pytest.raises(ShapeError) as refused:
        cut_through(profile, wall_mm)

    assert refused.value.field == field


def test_a_wall_thicker_than_the_pot_leaves_it_solid():
    shape = cut_through([(2.0, 0.0), (2.0, 0.5)], 30.0)

    assert min(p.z_cm for p in shape.skin if p.side == "inside") == pytest.approx(0.5)
