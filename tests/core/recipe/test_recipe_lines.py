import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.chemistry import Analysis, analysis_of
from wareboard.core.errors import CompositionError
from wareboard.core.recipe import RecipeLine, mixture

CHALK = Analysis("chalk", {"CaO": 56.0}, loi_percent=44.0)
SAND = Analysis("sand", {"SiO2": 100.0}, loi_percent=0.0)


def line(analysis, parts, *, addition=False):
    return RecipeLine(analysis.id, parts, addition, analysis)


@pytest.mark.parametrize("parts", [-0.1, float("nan"), float("inf"), 2e9])
def test_parts_that_cannot_be_weighed_are_refused(parts):
    with pytest.raises(CompositionError, match="The parts of chalk cannot be") as refusal:
        line(CHALK, parts)

    assert refusal.value.field == "parts"


def test_additions_count_in_the_total_and_in_the_shares():
    mixed = mixture([line(CHALK, 75), line(SAND, 25, addition=True)])

    assert mixed.total_parts == 100
    assert mixed.shares == ((CHALK, 0.75), (SAND, 0.25))


@pytest.mark.parametrize("lines", [[], [line(CHALK, 0)], [line(CHALK, 0), line(SAND, 0)]])
def test_a_recipe_of_nothing_is_refused(lines):
    with pytest.raises(CompositionError, match="there is nothing to calculate") as refusal:
        mixture(lines)

    assert refusal.value.field == "parts"


@given(st.floats(1e-3, 1e6), st.floats(1e-3, 1e6))
def test_a_powder_that_stands_there_twice_is_one_line_of_both(first, second):
    split = mixture([line(CHALK, first), line(SAND, 50), line(CHALK, second)])

    merged = mixture([line(CHALK, first + second), line(SAND, 50)])

    assert [analysis for analysis, _ in split.shares] == [CHALK, SAND]
    assert [share for _, share in split.shares] == pytest.approx(
        [share for _, share in merged.shares], rel=1e-15
    )


def test_a_line_of_nothing_may_even_be_another_powder_of_the_same_name():
    other = Analysis("chalk", {"CaO": 50.0})

    assert mixture([line(CHALK, 10), line(other, 0)]) == mixture([line(CHALK, 10)])


def test_two_lots_of_one_name_are_two_powders_in_any_order():
    other = Analysis("chalk", {"CaO": 50.0})

    mixed = mixture([line(CHALK, 10), line(other, 30)])

    assert mixed.shares == ((other, 0.75), (CHALK, 0.25))
    assert mixture([line(other, 30), line(CHALK, 10)]) == mixed


def test_own_sheets_have_no_source_and_the_library_has_one():
    own = mixture([line(CHALK, 10)])
    both = mixture([line(CHALK, 10), line(analysis_of("quartz_ideal"), 10)])

    assert own.sources == ()
    assert both.sources == ("materials__wareboard2026",)
