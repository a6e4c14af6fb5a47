"""Form fields that read what people type.

A number goes through the one reader that files and commands use too; what it
refuses or asks comes back as one sentence beside the field, and what was typed
stays where it is.
"""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import Quantity
from wareboard.exchange.refusals import NumberRefused, TextRefused
from wareboard.exchange.typed_number import read_typed
from wareboard.exchange.typed_text import read_name, read_note

from .entry import check_id, new_id


class TypedNumber(forms.CharField):
    """A number with its unit, as people type it.

    Parameters
    ----------
    quantity : Quantity
        What it is a number of.
    unit : str
        Shown beside the field; also the unit of a bare number.
    """

    def __init__(self, quantity: Quantity, *, unit: str = "", **options: Any) -> None:
        options.setdefault("max_length", 64)
        super().__init__(**options)
        self.quantity = quantity
        self.unit = unit
        self.widget.attrs.update({"inputmode": "decimal", "autocomplete": "off"})

    def clean(self, value: Any) -> Any:
        """Give the number in the one unit of its quantity, or None."""
        text = super().clean(value)
        if not text:
            return None
        try:
            return read_typed(
                text, self.quantity, field=str(self.label or self.quantity.name)
            ).value
        except NumberRefused as refused:
            raise ValidationError(refused.say) from refused


class TypedText(forms.CharField):
    """A text in one form of each letter and without hidden signs.

    Parameters
    ----------
    lines : bool
        Whether it may have more than one line.
    """

    def __init__(self, *, lines: bool = False, **options: Any) -> None:
        options.setdefault("max_length", 2000 if lines else 120)
        if lines:
            options.setdefault("widget", forms.Textarea)
        super().__init__(**options)
        self.lines = lines

    def clean(self, value: Any) -> Any:
        """Give the text as it is kept."""
        text = super().clean(value)
        read = read_note if self.lines else read_name
        try:
            return read(text, field=str(self.label or "text")) if text else ""
        except TextRefused as refused:
            raise ValidationError(refused.say) from refused


class EntryForm(forms.Form):
    """What every entry's form has: the id its page made, and how it is remembered.

    Each empty form comes with an id of its own, so that a form sent twice is
    kept once where there is no script as well.
    """

    entry_id = forms.CharField(
        required=False,
        initial=new_id,
        max_length=40,
        validators=[check_id],
        widget=forms.HiddenInput,
    )
    remembered = TypedText(
        required=False,
        max_length=60,
        label=_("Only remembered?"),
        help_text=_("Leave empty for a fact. Else how: I think, about spring."),
    )

    def facts(self) -> dict[str, Any]:
        """Give what was entered, as an action takes it."""
        return dict(self.cleaned_data)
