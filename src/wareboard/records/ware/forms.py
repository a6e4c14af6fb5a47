"""What is asked in the ware room, of one pot."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import LENGTH_MM, MASS_G
from wareboard.exchange.typed_number import as_typed
from wareboard.records.people.fields import AskingForm, EntryForm, TypedNumber, TypedText
from wareboard.records.people.models import Member
from wareboard.records.stores.models import Lot, Material

from . import queries
from .drawn import name_of
from .models import Board, Form, Pot
from .words import ON_A_PAN, DecorationKind, HopeKind, MarkKind, WeighingState

POT_G = replace(MASS_G, lowest=0.1, highest=1e6, words="grams from 0.1 to 1000000, such as 1240")
GAP_MM = replace(
    LENGTH_MM,
    name="bare foot",
    lowest=0.0,
    highest=1000.0,
    above=False,
    words="millimetres from 0 to 1000, such as 4",
)
YES_NO = (("yes", _("yes")), ("no", _("no")))
MOST_AT_ONCE = 60


def typed(number: float | None) -> str:
    """Write a number as somebody would type it again; nothing where there is none."""
    return as_typed(number)


class PhotoInput(forms.FileInput):
    """A photo from the camera or the album."""

    def __init__(self) -> None:
        super().__init__(attrs={"accept": "image/*"})


class LotChoice(forms.ModelChoiceField):  # type: ignore[type-arg] # takes none when it runs
    """A lot, named by its material and its label."""

    def label_from_instance(self, obj: Any) -> str:
        """Say red iron oxide, B."""
        return f"{obj.material.name}, {obj.label}"


def yes_or_no(word: str) -> bool | None:
    """Turn a tapped word into what is kept."""
    return {"yes": True, "no": False}.get(word)


class NewPotForm(EntryForm):
    """A pot by one tap: its form, or none; its photo, where one was taken."""

    photo = forms.FileField(
        required=False,
        label=_("Its photo first, if you take one"),
        widget=PhotoInput,
        error_messages={"empty": _("This file is empty; send it again.")},
    )
    form = forms.ModelChoiceField(queryset=Form.objects.none(), required=False)
    test_piece = forms.BooleanField(required=False)

    def __init__(self, *args: Any, member: Member, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["form"].queryset = queries.forms_for(member)  # type: ignore[attr-defined] # a choice of rows


class SeveralForm(EntryForm):
    """Several pots that are alike."""

    how_many = forms.IntegerField(
        label=_("How many?"),
        min_value=2,
        max_value=MOST_AT_ONCE,
        widget=forms.TextInput(attrs={"inputmode": "numeric", "autocomplete": "off"}),
        error_messages={
            name: _("How many? A whole number from 2 to 60 would do.")
            for name in ("required", "invalid", "min_value", "max_value")
        },
    )
    form = forms.ModelChoiceField(
        queryset=Form.objects.none(),
        required=False,
        label=_("Which form?"),
        empty_label=_("no form yet"),
    )
    board = forms.ModelChoiceField(
        queryset=Board.objects.none(),
        required=False,
        label=_("On which board?"),
        empty_label=_("on none"),
    )

    def __init__(self, *args: Any, member: Member, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["form"].queryset = queries.forms_for(member)  # type: ignore[attr-defined] # a choice of rows
        self.fields["board"].queryset = queries.boards_for(member)  # type: ignore[attr-defined] # as above


class WeighForm(AskingForm):
    """A pot on the scale."""

    weight_g = TypedNumber(POT_G, unit="g", label=_("What does it weigh?"))
    state = forms.ChoiceField(
        choices=[(s.value, s.label) for s in WeighingState if s not in ON_A_PAN],
        label=_("How is it now?"),
        widget=forms.RadioSelect,
        error_messages={"required": _("How is it now? Tap one of the words.")},
    )


class PanForm(AskingForm):
    """Small pots on the scale together."""

    pots = forms.ModelMultipleChoiceField(
        queryset=Pot.objects.none(),
        label=_("Which stand on the scale?"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Which stand on the scale? Tap two or more of them.")},
    )
    weight_g = TypedNumber(POT_G, unit="g", label=_("What do they weigh together?"))
    state = forms.ChoiceField(
        choices=[
            (WeighingState.PAN_BEFORE.value, _("before the two hours")),
            (WeighingState.PAN_AFTER.value, _("after them")),
        ],
        label=_("Before or after?"),
        widget=forms.RadioSelect,
        error_messages={"required": _("Before the two hours, or after them? Tap one.")},
    )

    def __init__(
        self, *args: Any, pots: QuerySet[Pot], names: Mapping[str, str], **options: Any
    ) -> None:
        super().__init__(*args, **options)
        field: Any = self.fields["pots"]
        field.queryset = pots
        field.label_from_instance = lambda pot: names.get(pot.pk) or name_of(pot)


class CorrectWeighingForm(WeighForm):
    """A weighing put right; what is not sent stays as it was."""

    def facts(self) -> dict[str, Any]:
        """Give what was sent."""
        return {name: value for name, value in super().facts().items() if name in self.data}


class DecorateForm(EntryForm):
    """What was drawn, put on or cut: with what, where."""

    kind = forms.ChoiceField(choices=DecorationKind.choices, widget=forms.HiddenInput)
    what = TypedText(
        required=False, label=_("With what?"), help_text=_("In your words: wax, iron wash, slip.")
    )
    lot = LotChoice(
        queryset=Lot.objects.none(),
        required=False,
        label=_("From which bag or jar?"),
        empty_label=_("not said"),
    )
    found = forms.BooleanField(required=False, label=_("found, not bought"))
    fineness = TypedText(
        required=False,
        max_length=60,
        label=_("How fine?"),
        help_text=_("In your words: through a tea strainer, like flour."),
    )
    where = TypedText(required=False, label=_("Where on the pot?"))

    def __init__(self, *args: Any, member: Member, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["lot"].queryset = queries.lots_for(member)  # type: ignore[attr-defined] # a choice of rows


class MarkForm(EntryForm):
    """What a hand did to the raw coat: meant or not, and where."""

    kind = forms.ChoiceField(choices=MarkKind.choices, widget=forms.HiddenInput)
    meant = forms.TypedChoiceField(
        choices=YES_NO,
        required=False,
        coerce=yes_or_no,
        empty_value=None,
        label=_("Was it meant?"),
        widget=forms.RadioSelect,
    )
    where = TypedText(required=False, label=_("Where on the pot?"))


class HopeForm(EntryForm):
    """What is hoped or feared, typed or spoken."""

    kind = forms.ChoiceField(
        choices=HopeKind.choices,
        initial=HopeKind.HOPED,
        label=_("Hoped or feared?"),
        widget=forms.RadioSelect,
        error_messages={"required": _("Hoped or feared? Tap one.")},
    )
    words = TypedText(required=False, max_length=300, label=_("In one line"))
    spoken = forms.FileField(
        required=False,
        label=_("Or say it"),
        widget=forms.FileInput(attrs={"accept": "audio/*"}),
        error_messages={"empty": _("This file is empty; send it again.")},
    )

    def clean(self) -> dict[str, Any]:
        """Ask for one of the two."""
        said: dict[str, Any] = super().clean() or {}
        if not self.errors and not said.get("words") and not said.get("spoken"):
            raise ValidationError(_now("Type a line or send a spoken note: both are empty."))
        return said


class PhotoForm(EntryForm):
    """A photo of a pot."""

    photo = forms.FileField(
        label=_("Take a photo"),
        widget=PhotoInput,
        error_messages={
            "required": _("No photo came with it: take one, then tap again."),
            "empty": _("This file is empty; send it again."),
        },
    )


class DescribeForm(forms.Form):
    """What a pot is called, its form, its clay, whose it is."""

    name = TypedText(
        required=False, label=_("What is it called?"), help_text=_("Empty: as its form.")
    )
    form = forms.ModelChoiceField(
        queryset=Form.objects.none(), required=False, label=_("Which form?"), empty_label=_("none")
    )
    clay = forms.ModelChoiceField(
        queryset=Material.objects.none(),
        required=False,
        label=_("Which clay?"),
        empty_label=_("not said"),
    )
    whose = TypedText(
        required=False,
        max_length=80,
        label=_("Whose is it?"),
        help_text=_("Empty: the pottery's own."),
    )
    foot_gap_mm = TypedNumber(
        GAP_MM,
        unit="mm",
        required=False,
        label=_("Bare foot"),
        help_text=_("From the glaze line down to the shelf."),
    )
    test_piece = forms.BooleanField(required=False, label=_("a test piece"))
    note = TypedText(lines=True, required=False, label=_("Anything else"))

    def __init__(self, *args: Any, member: Member, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["form"].queryset = queries.forms_for(member)  # type: ignore[attr-defined] # a choice of rows
        self.fields["clay"].queryset = queries.clays_for(member)  # type: ignore[attr-defined] # as above


class StandForm(EntryForm):
    """On which board a pot stands; on none where empty."""

    board = forms.ModelChoiceField(queryset=Board.objects.none(), required=False)

    def __init__(self, *args: Any, member: Member, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["board"].queryset = queries.boards_for(member)  # type: ignore[attr-defined] # a choice of rows
