"""Fields of forms: what is refused is said with the question, what was written, what would do."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from django import forms
from django.utils import timezone

from wareboard.core.units import MASS_G, SLOP_SG, VOLUME_L
from wareboard.records.people.fields import PastDay, TypedNumber, TypedText


class Bench(forms.Form):
    full_g = TypedNumber(MASS_G, unit="g", label="Weigh the full bottle")
    litres = TypedNumber(VOLUME_L, unit="l", required=False, label="How much is in the bucket?")
    sg = TypedNumber(SLOP_SG, required=False, label="Density")
    day = PastDay(label="On which day")
    words = TypedText(required=False, max_length=12, label="In your words")


def said(**typed):
    form = Bench({"full_g": "748", **typed})
    form.is_valid()
    return {name: list(errors) for name, errors in form.errors.items()}


@pytest.mark.parametrize(
    ("field", "typed", "say"),
    [
        (
            "full_g",
            "heavy",
            'Weigh the full bottle: "heavy" is not a number; accepted is grams from 0 to 10000000.',
        ),
        (
            "full_g",
            "",
            (
                "Weigh the full bottle: nothing is written here; "
                "accepted is grams from 0 to 10000000."
            ),
        ),
        (
            "full_g",
            "7" * 65,
            (
                f'Weigh the full bottle: "{"7" * 60}..." is longer than 64 characters; '
                "accepted is grams from 0 to 10000000."
            ),
        ),
        (
            "litres",
            "-3",
            (
                'How much is in the bucket? "-3" is out of range; '
                "accepted is litres above 0 and up to 10000, such as 5."
            ),
        ),
        ("sg", "145", "Density: 145: do you mean 1.45?"),
        ("words", "thirteen long", "In your words has 13 characters; at most 12 are kept."),
    ],
)
def test_a_refusal_names_the_question_what_was_written_and_what_would_do(field, typed, say):
    assert said(**{field: typed}) == {field: [say]}


def test_a_number_that_need_not_be_given_may_stay_empty():
    form = Bench({"full_g": "748", "litres": "  "})

    assert form.is_valid()
    assert form.cleaned_data["litres"] is None


def test_a_number_with_its_unit_comes_out_in_our_unit():
    form = Bench({"full_g": "2,5 kg", "litres": "400 ml"})

    assert form.is_valid()
    assert (form.cleaned_data["full_g"], form.cleaned_data["litres"]) == (2500.0, 0.4)


def test_a_needed_text_that_is_missing_is_named():
    class Name(forms.Form):
        name = TypedText(label="What do you call it?")

    form = Name({"name": " "})

    assert form.errors["name"] == ["What do you call it? Nothing is written here yet."]


def test_an_earlier_day_counts_from_its_noon_by_the_clock_of_the_studio():
    form = Bench({"full_g": "748", "day": "2026-06-03"})

    with timezone.override(ZoneInfo("Europe/London")):
        assert form.is_valid()

    assert form.cleaned_data["day"] == datetime(2026, 6, 3, 12, tzinfo=ZoneInfo("Europe/London"))


@pytest.mark.parametrize("typed", ["", "today"])
def test_today_is_now(typed):
    day = timezone.localdate().isoformat() if typed else ""

    form = Bench({"full_g": "748", "day": day})

    assert form.is_valid()
    assert form.cleaned_data["day"] is None


@pytest.mark.parametrize(
    ("typed", "say"),
    [
        ("sometime", "“sometime” is no day; accepted is a day such as 2026-10-03."),
        ("1626-01-01", "“1626-01-01” has not been yet, or is too long ago."),
    ],
)
def test_a_day_that_cannot_be_is_named(typed, say):
    assert said(day=typed) == {"day": [f"On which day: {say}"]}


def test_a_day_to_come_is_refused():
    tomorrow = (timezone.localdate() + timedelta(days=1)).isoformat()

    assert list(said(day=tomorrow)) == ["day"]
