"""Form fields that read what people type.

A number goes through the one reader that files and commands use too; what it
refuses or asks comes back as one sentence beside the field, and what was typed
stays where it is.
"""

from datetime import datetime, time
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import Quantity
from wareboard.exchange.refusals import NumberRefused, TextRefused, shown
from wareboard.exchange.typed_number import LONGEST, read_typed
from wareboard.exchange.typed_text import LONGEST_NOTE, read_name, read_note

from .entry import check_id, new_id

NOON = time(12)
FIRST_YEAR = 1900
NOTHING = _("Nothing is written here yet.")
TAP_ONE = _("Tap one.")
CHOOSE_ONE = _("Choose one.")


def named(question: str, say: str) -> str:
    """Put a question, in the words of its page, before a sentence about its answer."""
    if question.endswith("?"):
        return f"{question} {say}"
    return f"{question}: {say[:1].lower()}{say[1:]}"


def say_what_is_missing(form: forms.BaseForm) -> None:
    """Let an empty field that may not be empty say so in the words of its page.

    Whoever asks in words of their own keeps them.
    """
    for name, field in form.fields.items():
        if field.error_messages["required"] == forms.Field.default_error_messages["required"]:
            say = {forms.RadioSelect: TAP_ONE, forms.Select: CHOOSE_ONE}
            missing = say.get(type(field.widget), NOTHING)
            field.error_messages["required"] = named(str(field.label or name), str(missing))


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
        super().__init__(**options)
        self.quantity = quantity
        self.unit = unit
        self.widget.attrs.update(
            {"inputmode": "decimal", "autocomplete": "off", "maxlength": str(LONGEST)}
        )

    def clean(self, value: Any) -> Any:
        """Give the number in the one unit of its quantity, or None.

        The reader judges the whole text, so that every refusal is one sentence
        with the question, what was written, and what is accepted.
        """
        question = str(self.label or self.quantity.name)
        text = self.to_python(value)
        if not text:
            if not self.required:
                return None
            nothing = _("Nothing is written here; accepted is %(words)s.")
            say = str(nothing % {"words": self.quantity.words})
            raise ValidationError(named(question, say), "required")
        try:
            return read_typed(text, self.quantity, field=question).value
        except NumberRefused as refused:
            say = refused.say.removeprefix(f"{self.quantity.name}: ")
            raise ValidationError(named(question, say)) from refused


class PastDay(forms.DateField):
    """A day that has been; today where it is left empty."""

    def __init__(self, **options: Any) -> None:
        options.setdefault("required", False)
        options.setdefault("widget", forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}))
        super().__init__(**options)

    def clean(self, value: Any) -> Any:
        """Give noon of the day by the studio's clock; None for today."""
        try:
            day = super().clean(value)
        except ValidationError as refused:
            say = _("“%(seen)s” is no day; accepted is a day such as 2026-10-03.")
            raise ValidationError(
                named(str(self.label), say % {"seen": shown(str(value))})
            ) from refused
        today = timezone.localdate()
        if day is None or day == today:
            return None
        if day.year < FIRST_YEAR or day > today:
            say = _("“%(seen)s” has not been yet, or is too long ago.")
            raise ValidationError(named(str(self.label), say % {"seen": day.isoformat()}))
        return timezone.make_aware(datetime.combine(day, NOON))


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
        question = str(self.label or _("text"))
        text = self.to_python(value)
        if not text:
            if self.required:
                raise ValidationError(named(question, str(NOTHING)), "required")
            return ""
        read = read_note if self.lines else read_name
        try:
            tidy = read(text, field=question, longest=self.max_length or LONGEST_NOTE)
        except TextRefused as refused:
            raise ValidationError(refused.say) from refused
        self.run_validators(tidy)
        return tidy


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

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        say_what_is_missing(self)

    def facts(self) -> dict[str, Any]:
        """Give what was entered, as an action takes it."""
        return dict(self.cleaned_data)


class AskingForm(EntryForm):
    """An entry that is asked about once where it is hard to believe.

    What is said to stand so is kept.

    Attributes
    ----------
    asked : bool
        Whether a question stands on the page: then ``sure`` is shown.
    """

    sure = forms.BooleanField(required=False, label=_("I looked again: it is so."))
    asked = False

    def ask(self, field: str | None, say: str) -> None:
        """Ask about one field, or about the whole; an empty sentence asks nothing."""
        if say and not self.cleaned_data.get("sure"):
            self.asked = True
            self.add_error(field, say)

    def facts(self) -> dict[str, Any]:
        """Give what was entered; that one is sure of it is no fact of the trade."""
        return {name: value for name, value in super().facts().items() if name != "sure"}
