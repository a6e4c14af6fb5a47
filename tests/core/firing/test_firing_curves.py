"""Cone curves and the series they come in."""

from math import log

import numpy as np
import pytest

from wareboard.core.errors import LogError
from wareboard.core.firing.curves import ConeCurve, curve_table, lend_slopes
from wareboard.core.firing.series import SERIES, cone_series
from wareboard.refdata.heatwork import all_heatwork

CONE_6 = ConeCurve("6", ((15, 1185), (60, 1222), (150, 1243)))


def test_the_spans_are_the_degrees_of_an_e_fold_rate():
    assert CONE_6.spans_c == pytest.approx((37 / log(4), 21 / log(2.5)), rel=1e-15)


def test_the_computed_table_of_the_reference_data_has_the_same_spans():
    table = cone_series().table

    rows = [all_heatwork()[cone] for cone in table.cones]

    # It prints a hundredth of a degree.
    np.testing.assert_allclose(table.low_span_c, [r.s_low_c for r in rows], atol=0.0051)
    np.testing.assert_allclose(table.high_span_c, [r.s_high_c for r in rows], atol=0.0051)
    assert table.ordinary_c.tolist() == [r.t60_c for r in rows]


def test_a_two_point_cone_uses_its_one_stretch_unless_another_form_lends_one():
    two = ConeCurve("6", ((60, 1220), (150, 1241)))
    odd = ConeCurve("6.5", ((60, 1230), (150, 1250)))

    lent, kept, whole = lend_slopes([two, odd, CONE_6], [CONE_6])

    assert two.spans_c == pytest.approx((21 / log(2.5), 21 / log(2.5)), rel=1e-15)
    assert lent.spans_c == pytest.approx((37 / log(4), 21 / log(2.5)), rel=1e-15)
    assert kept == odd
    assert whole == CONE_6


@pytest.mark.parametrize(
    "points",
    [
        (),
        ((60, 1222),),
        ((60, 1222), (150, 1220)),
        ((60, 1222), (60, 1243)),
        ((0, 1222), (60, 1243)),
        ((15, 1), (60, 2), (150, 3), (300, 4)),
    ],
)
def test_points_that_no_cone_can_have_are_refused(points):
    with pytest.raises(LogError) as refused:
        ConeCurve("6", points)

    assert refused.value.field == "cones"


def test_a_table_without_cones_is_refused():
    with pytest.raises(LogError) as refused:
        curve_table([])

    assert refused.value.accepted == "at least one cone"


def test_a_cone_that_is_not_in_the_table_is_refused_with_the_ends_of_the_table():
    with pytest.raises(LogError) as refused:
        cone_series("large").table.only(["9", "14"])

    assert refused.value.say == (
        "Cone 14 is not in this table, which runs from cone 019 to cone 13."
    )


def test_an_end_point_at_another_rate_than_60_is_carried_along_its_stretch():
    fast = curve_table([ConeCurve("x", ((100, 1000), (200, 1020)))])
    slow = curve_table([ConeCurve("x", ((15, 900), (30, 1000), (120, 1020)))])

    assert fast.ordinary_c[0] == pytest.approx(1000 + 20 / log(2) * log(0.6), rel=1e-15)
    assert slow.ordinary_c[0] == pytest.approx(1010, rel=1e-15)


def test_the_chain_leaves_half_cones_out():
    table = cone_series().table

    assert [c for c in table.cones if c.endswith(".5")] == ["05.5", "5.5"]
    assert [table.cones[i] for i in table.chain] == [c for c in table.cones if "." not in c]


@pytest.mark.parametrize(
    ("name", "first", "last", "many"),
    [
        ("self-supporting", "022", "14", 38),
        ("large", "019", "13", 33),
        ("iron-free self-supporting", "010", "3", 13),
        ("iron-free large", "010", "3", 13),
    ],
)
def test_each_series_has_its_cones_coolest_first(name, first, last, many):
    table = cone_series(name).table

    assert (table.cones[0], table.cones[-1], len(table.cones)) == (first, last, many)
    assert np.all(np.diff(table.ordinary_c) > 0)


@pytest.mark.parametrize(
    ("name", "lender"),
    [("large", "self-supporting"), ("iron-free large", "iron-free self-supporting")],
)
def test_large_cones_take_the_slow_stretch_of_their_own_kind(name, lender):
    table, other = cone_series(name).table, cone_series(lender).table

    slow = dict(zip(other.cones, other.low_span_c, strict=True))

    assert table.low_span_c.tolist() == [slow[cone] for cone in table.cones]


def test_only_the_cones_with_a_fitted_law_have_a_second_one():
    assert set(cone_series().laws) == set(cone_series().table.cones)
    assert [len(cone_series(name).laws) for name in SERIES] == [38, 0, 0, 0]


def test_an_unknown_series_is_refused_with_those_there_are():
    with pytest.raises(LogError) as refused:
        cone_series("small")

    assert refused.value.field == "cones"
    assert refused.value.accepted == (
        "self-supporting, large, iron-free self-supporting, iron-free large"
    )


def test_a_value_from_memory_marks_its_cone_and_no_other():
    series = cone_series()

    assert series.from_memory("7")
    assert not series.from_memory("6")
