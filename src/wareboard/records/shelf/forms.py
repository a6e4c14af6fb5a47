"""What is asked on the shelf."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import LENGTH_MM
from wareboard.records.glazes.models import Glaze
from wareboard.records.glazes.queries import glazes_for
from wareboard.records.people.fields import EntryForm, TypedNumber, TypedText
from wareboard.records.people.models import Member

from .words import FaultWord, Surface, Thumb


class ChangeForm(forms.Form):
    """Which glaze, which fault, up to when."""

    glaze: "forms.ModelChoiceField[Glaze]" = forms.ModelChoiceField(
        queryset=None,
        label=_("Which glaze?"),
        empty_label=_("choose"),
        error_messages={
            "required": _("Which glaze? Choose one of the list."),
            "invalid_choice": _("Which glaze? Choose one of the list."),
        },
    )
    fault = forms.ChoiceField(
        choices=[("", _("choose")), *FaultWord.choices],
        label=_("What is wrong with it?"),
        error_messages={
            "required": _("What is wrong with it? Choose one of the list."),
            "invalid_choice": _("What is wrong with it? Choose one of the list."),
        },
    )
    until = forms.DateField(
        required=False,
        label=_("Only up to"),
        help_text=_("Leave it empty for all pots. With a day, later verdicts are left out."),
        error_messages={"invalid": _("Only up to which day? Write it as 2026-11-14.")},
        widget=forms.DateInput(attrs={"type": "date"}),
    )

    def __init__(self, *args: Any, member: Member, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["glaze"].queryset = glazes_for(member)  # type: ignore[attr-defined] # a choice of rows


class VerdictForm(EntryForm):
    """How one surface came out."""

    surface = forms.ChoiceField(
        choices=Surface.choices, label=_("Which surface?"), widget=forms.RadioSelect
    )
    thumb = forms.ChoiceField(
        choices=Thumb.choices, label=_("How did it come out?"), widget=forms.RadioSelect
    )
    faults = forms.MultipleChoiceField(
        choices=FaultWord.choices,
        required=False,
        label=_("What is wrong with it?"),
        widget=forms.CheckboxSelectMultiple,
    )
    where = TypedText(required=False, label=_("Where on the pot?"))
    amount_mm = TypedNumber(LENGTH_MM, unit="mm", required=False, label=_("How far, how large?"))
    words = TypedText(required=False, max_length=300, label=_("In your words"))
