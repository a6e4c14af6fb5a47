"""What is asked in the room of glazes."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import MASS_G, PERCENT, VOLUME_L, VOLUME_ML
from wareboard.records.people.fields import EntryForm, TypedNumber

from .models import Bucket, ReadingFlow


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


class DoseForm(EntryForm):
    """How much to add to a wet bucket."""

    percent = TypedNumber(PERCENT, unit="%", label=_("How many per cent of the dry glaze?"))
    wet_g = TypedNumber(
        MASS_G,
        unit="g",
        required=False,
        label=_("Wet glaze, without the tub"),
        help_text=_("Leave empty for the whole bucket."),
    )
