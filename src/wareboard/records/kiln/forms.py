"""What is asked in the kiln room."""

from django import forms
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import PERCENT
from wareboard.records.people.fields import EntryForm, TypedNumber
from wareboard.records.ware.words import AirWord


class AirForm(EntryForm):
    """The day's air in one tap."""

    word = forms.ChoiceField(
        choices=AirWord.choices, label=_("How is the air today?"), widget=forms.RadioSelect
    )
    rh_percent = TypedNumber(
        PERCENT,
        unit="%",
        required=False,
        label=_("Hygrometer"),
        help_text=_("Leave empty where there is none."),
    )
