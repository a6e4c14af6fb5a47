"""What is asked in the room of glazes."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.db.models import QuerySet
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import DOSE_PERCENT, MASS_G, VOLUME_L, VOLUME_ML
from wareboard.records.people.fields import EntryForm, TypedNumber, TypedText
from wareboard.records.stores.forms import told
from wareboard.records.stores.models import Lot

from .models import Batch, Bucket, BucketEventKind, ReadingFlow

ML_L = 1000.0


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

    def __init__(self, *args: Any, bucket: Bucket, **options: Any) -> None:
        super().__init__(*args, **options)
        if bucket.bottle_empty_g is not None and bucket.bottle_ml is not None:
            del self.fields["empty_g"], self.fields["volume_ml"]


class DoseForm(forms.Form):
    """How much to add to a wet bucket: asked, nothing kept."""

    percent = TypedNumber(DOSE_PERCENT, unit="%", label=_("How many per cent of the dry glaze?"))
    wet_g = TypedNumber(
        MASS_G,
        unit="g",
        required=False,
        label=_("Drawn off into a tub: how much, wet, without the tub?"),
        help_text=_("Leave it empty for the whole bucket."),
    )
    of = forms.ChoiceField(
        choices=[("base", _("of the dry base")), ("finished", _("of the finished glaze"))],
        initial="base",
        required=False,
        label=_("Per cent of what?"),
        widget=forms.RadioSelect,
    )


class DosedForm(EntryForm):
    """What was really added, and from which lot."""

    lot = forms.ChoiceField(required=False, label=_("Which bag or jar?"), widget=forms.Select)
    amount_g = TypedNumber(MASS_G, unit="g", label=_("What the scale said"))
    tub = TypedText(
        required=False,
        max_length=80,
        label=_("What is written on the tub?"),
    )

    def __init__(
        self, *args: Any, lots: Sequence[Lot], wet_g: float | None, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.lots = {lot.pk: lot for lot in lots}
        named = [(lot.pk, f"{lot.material.name}: {told(lot)}") for lot in lots]
        self.fields["lot"].choices = [("", _("not said")), *named]  # type: ignore[attr-defined] # a choice field
        if wet_g is None:
            del self.fields["tub"]
        else:
            self.fields["tub"].required = True

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
        choices=[
            (kind.value, kind.label)
            for kind in (
                BucketEventKind.WATER_IN,
                BucketEventKind.WATER_OFF,
                BucketEventKind.DRAWN,
                BucketEventKind.EMPTIED,
            )
        ],
        label=_("What was done?"),
        widget=forms.RadioSelect,
    )
    amount_l = TypedNumber(VOLUME_L, unit="l", required=False, label=_("How much?"))

    def clean(self) -> dict[str, Any]:
        """Ask how much, except where all of it went."""
        found = super().clean() or self.cleaned_data
        needed = found.get("kind", BucketEventKind.EMPTIED) != BucketEventKind.EMPTIED
        if needed and found.get("amount_l") is None and "amount_l" not in self.errors:
            say = _("How much? Nothing is written here; accepted is litres, such as 0.4.")
            self.add_error("amount_l", str(say))
        return found

    def facts(self) -> dict[str, Any]:
        """Give what was done as an action takes it."""
        facts = super().facts()
        litres = facts.pop("amount_l")
        emptied = facts["kind"] == BucketEventKind.EMPTIED
        return {**facts, "amount_ml": None if litres is None or emptied else litres * ML_L}


class PourForm(EntryForm):
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
        choices=[
            (BucketEventKind.FILLED.value, BucketEventKind.FILLED.label),
            (BucketEventKind.TOPPED_UP.value, BucketEventKind.TOPPED_UP.label),
        ],
        initial=BucketEventKind.FILLED,
        label=_("Was it empty before?"),
        widget=forms.RadioSelect,
    )
    amount_l = TypedNumber(
        VOLUME_L, unit="l", required=False, label=_("How much slop did it make?")
    )

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
        MASS_G,
        unit="g",
        label=_("How much, wet, without the tub?"),
        help_text=_("Put the empty tub on the scale, set it to zero, fill it."),
    )

    def __init__(self, *args: Any, buckets: QuerySet[Bucket], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["bucket"].queryset = buckets  # type: ignore[attr-defined] # a choice of rows
