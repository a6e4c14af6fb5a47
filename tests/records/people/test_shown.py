"""Numbers as people read them: rounded as it is taught in school."""

import pytest

from wareboard.core.answer import Interval
from wareboard.records.people.models import Studio
from wareboard.records.people.shown import Shown, rounded


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        (0.25, 0.1, "0.3"),
        (0.35, 0.1, "0.4"),
        (2.5, 1.0, "3"),
        (64.5, 1.0, "65"),
        (1.005, 0.01, "1.01"),
        (2.675, 0.01, "2.68"),
        (3.5488, 0.1, "3.5"),
        (3.5556, 0.1, "3.6"),
        (0.875, 0.05, "0.90"),
        (0.87, 0.05, "0.85"),
        (0.1 + 0.2 - 0.05, 0.1, "0.3"),
        (-2.5, 1.0, "-3"),
        (-0.02, 0.1, "0.0"),
        (1235.0, 10.0, "1240"),
        (1e9, 1.0, "1000000000"),
    ],
)
def test_half_a_step_goes_up_and_a_number_keeps_the_digits_of_its_step(value, step, text):
    assert rounded(value, step) == text


@pytest.mark.parametrize(
    ("mass_g", "text"),
    [(4800.0, "4800 g"), (12345.0, "12345 g"), (0.25, "0.25 g"), (65.9 - 57.3, "8.6 g")],
)
def test_what_a_scale_says_is_written_as_it_stands(mass_g, text):
    assert Shown.weighed(mass_g) == text


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (21.0, 23.0, "(21–23 g)"),
        (-3.0, 9.0, "(up to 9 g)"),
        (-0.4, 9.0, "(0–9 g)"),
        (-5.0, -2.0, "(-5 to -2 g)"),
        (4.1, 4.3, ""),
    ],
)
def test_a_doubt_that_begins_below_nothing_says_only_where_it_ends(low, high, text):
    assert Shown.span(Interval(low, high, "scale"), 1.0, "g") == text


def told(**choices):
    """How a studio with these units reads numbers."""
    return Shown(Studio(**choices))


@pytest.mark.parametrize(
    ("low_ml", "high_ml", "text"),
    [
        (19.0, 130.0, "(20–130 ml)"),
        (19.0, 41.0, "(19–41 ml)"),
        (60.0, 240.0, "(0.05–0.25 l)"),
        (280.0, 620.0, "(0.3–0.6 l)"),
        (0.0, 3500.0, "(0.0–3.5 l)"),
        (-140.0, 620.0, "(up to 0.6 l)"),
        (399.0, 401.0, ""),
    ],
)
def test_a_span_of_volumes_has_one_unit_that_of_its_larger_end(low_ml, high_ml, text):
    assert told().volume_span(Interval(low_ml, high_ml, "tide line")) == text


@pytest.mark.parametrize(
    ("low_g", "high_g", "text"),
    [
        (9600.0, 11200.0, "(9.6–11.2 kg)"),
        (980.0, 9900.0, "(980–9900 g)"),
        (8.0, 12.0, "(8–12 g)"),
    ],
)
def test_a_span_of_masses_has_one_unit_that_of_its_larger_end(low_g, high_g, text):
    assert told().mass_span(Interval(low_g, high_g, "scale")) == text


def test_a_studio_of_pounds_and_gallons_has_its_spans_in_them():
    shown = told(mass="pound", volume="us gallon")

    # A US gallon is 3785 ml and a pound 453.6 g, by their definitions.
    assert shown.mass_span(Interval(1814.4, 2721.6, "scale")) == "(4.0–6.0 lb)"
    assert shown.volume_span(Interval(757.0, 1514.0, "tide line")) == "(0.20–0.40 US gal)"


def test_a_number_beside_its_span_is_in_the_same_unit():
    shown, litres = told(), Interval(60.0, 240.0, "tide line")
    kilograms = Interval(9600.0, 10100.0, "scale")

    assert (shown.volume(150.0), shown.volume(150.0, litres)) == ("150 ml", "0.15 l")
    assert (shown.mass(9800.0), shown.mass(9800.0, kilograms)) == ("9800 g", "9.8 kg")


@pytest.mark.parametrize(
    ("volume_ml", "text"),
    [
        (40.0, "40 ml"),
        (75.0, "80 ml"),
        (260.0, "0.25 l"),
        (400.0, "0.4 l"),
        (2000.0, "2 l"),
        (20000.0, "20 l"),
    ],
)
def test_a_small_volume_is_said_as_finely_as_a_jug_is_marked(volume_ml, text):
    assert told().volume(volume_ml) == text


def test_no_span_is_written_where_there_is_no_doubt():
    assert told().volume_span(None) == ""
