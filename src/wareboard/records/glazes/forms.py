"""What is asked in the room of glazes."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import DOSE_PERCENT, MASS_G, VOLUME_L, VOLUME_ML
from wareboard.exchange.refusals import NumberRefused
from wareboard.exchange.typed_number import LONGEST
from wareboard.records.people.entry import EntryRefused
from wareboard.records.people.fields import (
    AskingForm,
    EntryForm,
    TypedNumber,
    TypedText,
    named,
    say_what_is_missing,
)
from wareboard.records.stores.forms import told
from wareboard.records.stores.models import Lot

from .bottle import Bottle
from .drawn import LIMITS, Drawn, HowMuch, read_drawn, refuse_drawn
from .level import ML_L
from .models import Batch, Bucket, BucketEventKind, ReadingFlow

LEAST_G, MOST_G = LIMITS["g"]
DRAWN_G = replace(
    MASS_G,
    lowest=LEAST_G,
    highest=MOST_G,
    words=f"grams from {LEAST_G:g} to {MOST_G:.0f}, such as 8400",
)
"""Slop drawn off: a handful of grams are litres that were typed (common practice)."""


IN_AND_OUT = (
    BucketEventKind.WATER_IN,
    BucketEventKind.WATER_OFF,
    BucketEventKind.DRAWN,
    BucketEventKind.EMPTIED,
)
POURED = (BucketEventKind.FILLED, BucketEventKind.TOPPED_UP)
ALIKE = (IN_AND_OUT, POURED, (BucketEventKind.POWDER_IN,))
"""What is tapped on one page, and so one for another."""
SAYS_ENOUGH = {BucketEventKind.EMPTIED, *POURED}
"""What is kept without an amount."""


class ReadingForm(EntryForm):
    """The full bottle, how it hangs, and how full the bucket is."""

    full_g = TypedNumber(
        MASS_G,
        unit="g",
        label=_("Weigh the full bottle"),
        help_text=_("Fill to the brim, wipe it, put it on the scale."),
    )
    empty_g = TypedNumber(MASS_G, unit="g", label=_("The same bottle empty"))
    volume_ml = TypedNumber(
        VOLUME_ML,
        unit="ml",
        label=_("What it holds"),
        help_text=_("Grams of water it takes to the brim."),
    )
    in_bucket_l = TypedNumber(
        VOLUME_L, unit="l", required=False, label=_("How much is in the bucket?")
    )
    flow = forms.ChoiceField(
        choices=[(word.value, word.label) for word in ReadingFlow if word.value],
        required=False,
        label=_("How does it hang?"),
        widget=forms.RadioSelect,
    )

    def __init__(self, *args: Any, bottle: Bottle | None, **options: Any) -> None:
        super().__init__(*args, **options)
        if bottle is not None:
            self.fields["empty_g"].required = self.fields["volume_ml"].required = False


class DoseForm(forms.Form):
    """How much to add to a wet bucket: asked, nothing kept.

    Once valid, ``drawn`` says how much slop, and ``whole`` whether it is all
    that is in the bucket.
    """

    percent = TypedNumber(DOSE_PERCENT, unit="%", label=_("How many per cent of the dry glaze?"))
    amount = forms.CharField(
        required=False,
        label=_("How much glaze?"),
        widget=forms.TextInput(
            {"inputmode": "decimal", "autocomplete": "off", "maxlength": str(LONGEST)}
        ),
    )
    how = forms.ChoiceField(
        choices=[
            (HowMuch.LITRES, _("litres")),
            (HowMuch.GRAMS, _("grams")),
            (HowMuch.WHOLE, _("whole bucket")),
        ],
        initial=HowMuch.LITRES,
        required=False,
        label=_("That is"),
        widget=forms.RadioSelect,
    )
    of = forms.ChoiceField(
        choices=[("base", _("of the dry base")), ("finished", _("of the finished glaze"))],
        initial="base",
        required=False,
        label=_("Per cent of what?"),
        widget=forms.RadioSelect,
    )

    def clean(self) -> dict[str, Any]:
        """Read how much: a unit that is written decides, else the button."""
        found = super().clean() or self.cleaned_data
        text = found.get("amount", "")
        how = found.get("how") or (HowMuch.LITRES if text else HowMuch.WHOLE)
        found["whole"], found["drawn"] = how == HowMuch.WHOLE, Drawn()
        if not text and how != HowMuch.WHOLE:
            say = (
                _("How much glaze? Write grams such as 8400, or tap “whole bucket”.")
                if how == HowMuch.GRAMS
                else _("How much glaze? Write litres such as 5, or tap “whole bucket”.")
            )
            self.add_error("amount", str(say))
        elif text:
            bare = "g" if how == HowMuch.GRAMS else "l"
            try:
                found["drawn"] = read_drawn(text, bare=bare, field="amount")
                refuse_drawn(found["drawn"])
            except NumberRefused as refused:
                plain = refused.say.removeprefix("volume: ").removeprefix("weight: ")
                self.add_error("amount", named(str(self.fields["amount"].label), plain))
            except EntryRefused as refused:
                self.add_error("amount", str(refused))
        return found


def bags_named(lots: Sequence[Lot]) -> list[tuple[str, Any]]:
    """Give lots as choices with their material; the first says that nobody knows."""
    return [("", _("not said")), *((lot.pk, f"{lot.material.name}: {told(lot)}") for lot in lots)]


class DosedForm(EntryForm):
    """What was really added, and from which lot."""

    lot = forms.ChoiceField(required=False, label=_("Which bag or jar?"), widget=forms.Select)
    amount_g = TypedNumber(MASS_G, unit="g", label=_("What the scale said"))
    tub = TypedText(
        required=False,
        max_length=80,
        label=_("Drawn off into a tub: what is written on it?"),
        help_text=_("Empty: the powder went into the bucket."),
    )

    def __init__(self, *args: Any, lots: Sequence[Lot], whole: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        self.lots = {lot.pk: lot for lot in lots}
        self.fields["lot"].choices = bags_named(lots)  # type: ignore[attr-defined] # a choice field
        if whole:
            del self.fields["tub"]

    def facts(self) -> dict[str, Any]:
        """Give what was added as an action takes it."""
        facts = super().facts()
        return {**facts, "lot": self.lots.get(facts["lot"])}


class BucketForm(EntryForm):
    """A bucket on the floor."""

    name = TypedText(max_length=80, label=_("What is written on it?"))


class ChangeForm(EntryForm):
    """What was done to a bucket, in two taps."""

    kind = forms.ChoiceField(
        choices=[(kind.value, kind.label) for kind in IN_AND_OUT],
        label=_("What was done?"),
        widget=forms.RadioSelect,
    )
    amount_l = TypedNumber(VOLUME_L, unit="l", required=False, label=_("How much?"))

    def clean(self) -> dict[str, Any]:
        """Ask how much, except where all of it went."""
        found = super().clean() or self.cleaned_data
        ask_how_much(self, found.get("kind", BucketEventKind.EMPTIED))
        return found

    def facts(self) -> dict[str, Any]:
        """Give what was done as an action takes it."""
        facts = super().facts()
        litres = facts.pop("amount_l")
        emptied = facts["kind"] == BucketEventKind.EMPTIED
        return {**facts, "amount_ml": None if litres is None or emptied else litres * ML_L}


def ask_how_much(form: forms.Form, kind: str) -> None:
    """Ask for an amount where nothing is written and something has to be."""
    name = "amount_l" if "amount_l" in form.fields else "amount_g"
    if kind in SAYS_ENOUGH or form.cleaned_data.get(name) is not None or name in form.errors:
        return
    say = (
        _("How much? Nothing is written here; accepted is litres, such as 0.4.")
        if name == "amount_l"
        else _("How much? Nothing is written here; accepted is grams, such as 45.")
    )
    form.add_error(name, str(say))


class PourForm(AskingForm):
    """A batch poured into a bucket."""

    batch: "forms.ModelChoiceField[Batch]" = forms.ModelChoiceField(
        queryset=None, label=_("Which batch?"), empty_label=None
    )
    bucket: "forms.ModelChoiceField[Bucket]" = forms.ModelChoiceField(
        queryset=None,
        required=False,
        label=_("Which bucket?"),
        empty_label=_("a new bucket"),
    )
    name = TypedText(required=False, max_length=80, label=_("A new bucket: what is written on it?"))
    kind = forms.ChoiceField(
        choices=[(kind.value, kind.label) for kind in POURED],
        initial=BucketEventKind.FILLED,
        label=_("Was it empty before?"),
        widget=forms.RadioSelect,
    )
    amount_l = TypedNumber(VOLUME_L, unit="l", required=False, label=_("How much slop went in?"))

    def __init__(
        self, *args: Any, batches: QuerySet[Batch], buckets: QuerySet[Bucket], **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.fields["batch"].queryset = batches  # type: ignore[attr-defined] # a choice of rows
        self.fields["bucket"].queryset = buckets  # type: ignore[attr-defined] # as above

    def clean(self) -> dict[str, Any]:
        """Ask for a bucket or for the name of a new one."""
        found = super().clean() or self.cleaned_data
        if found.get("bucket") is None and not found.get("name") and "name" not in self.errors:
            say = _("Choose a bucket, or write what stands on the new one.")
            self.add_error("name", str(say))
        return found

    def facts(self) -> dict[str, Any]:
        """Give what was poured as an action takes it."""
        facts = super().facts()
        litres = facts.pop("amount_l")
        return {**facts, "amount_ml": None if litres is None else litres * ML_L}


class DrawForm(forms.Form):
    """From which bucket of the base, and how much: asked, nothing kept."""

    bucket: "forms.ModelChoiceField[Bucket]" = forms.ModelChoiceField(
        queryset=None, label=_("Drawn from which bucket?"), empty_label=None
    )
    wet_g = TypedNumber(
        DRAWN_G,
        unit="g",
        label=_("How much, wet, without the tub?"),
        help_text=_("Put the empty tub on the scale, set it to zero, fill it."),
    )

    def __init__(self, *args: Any, buckets: QuerySet[Bucket], **options: Any) -> None:
        super().__init__(*args, **options)
        say_what_is_missing(self)
        self.fields["bucket"].queryset = buckets  # type: ignore[attr-defined] # a choice of rows
