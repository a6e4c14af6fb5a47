"""The word of a choice is the one that Django itself would give."""

import pytest
from django.apps import apps
from django.db.models import Field, Model

from wareboard.records.people.entry import Entry

CHOICES = [
    (model, field)
    for model in apps.get_models()
    if issubclass(model, Entry)
    for field in model._meta.concrete_fields
    if field.choices
]


@pytest.mark.parametrize(
    ("model", "field"), CHOICES, ids=[f"{m.__name__}.{f.name}" for m, f in CHOICES]
)
def test_each_word_is_said_as_django_says_it(model: type[Entry], field: Field):
    values = [*(value for value, _word in field.flatchoices), "none of these"]
    rows = [model(**{field.name: value}) for value in values]

    said = [getattr(row, f"get_{field.name}_display")() for row in rows]

    assert said == [Model._get_FIELD_display(row, field) for row in rows]  # noqa: SLF001 - what is compared with
