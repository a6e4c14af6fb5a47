"""A number and its unit stand on one line."""

import pytest
from django.utils.safestring import SafeString, mark_safe

from wareboard.web.templatetags.house import unbroken


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ("About 122 g over", "About 122\u00a0g over"),
        ("Take off 0.4 l of clear water.", "Take off 0.4\u00a0l of clear water."),
        ("below 95 °C", "below 95\u00a0°C"),
        ("2.7 % of the pot", "2.7\u00a0% of the pot"),
        ("3 good pots, 4 layers", "3 good pots, 4 layers"),
    ],
)
def test_only_a_unit_is_held_to_its_number(said, shown):
    assert unbroken(said) == shown


def test_what_was_marked_safe_stays_so_and_nothing_else_becomes_it():
    assert isinstance(unbroken(mark_safe("<b>7 g</b>")), SafeString)
    assert not isinstance(unbroken("<b>7 g</b>"), SafeString)
