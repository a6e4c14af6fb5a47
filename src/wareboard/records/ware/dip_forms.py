"""What is asked at the bucket: which one, which side, how far; then the scale."""

from dataclasses import replace
from typing import Any

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import LENGTH_CM, MINUTES
from wareboard.records.glazes.models import Bucket
from wareboard.records.people.fields import AskingForm, TypedNumber

from .forms import POT_G, typed
from .models import Coat, Pot
from .words import Dryness, Extent, How, Side

LIP_CM = replace(
    LENGTH_CM,
    name="depth of the lip",
    lowest=0.1,
    highest=100.0,
    words="centimetres from 0.1 to 100, such as 2",
)
SECONDS = replace(
    MINUTES, name="time", unit="", highest=600.0, words="seconds from 0 to 600, such as 3"
)
BUCKETS_AT_HAND = 6
SMALL_G = 50.0
"""A small tile may take up its own weight in slop; beyond that it is a slip (common practice)."""

NO_BUCKET = _("Which bucket? Tap one.")


class WhichForm(forms.Form):
    """Which bucket, which side, how far: asked before the dip.

    Attributes
    ----------
    likely : int
        How many of the buckets stand in sight; the others are one tap away.
    """

    likely = BUCKETS_AT_HAND

    bucket = forms.ChoiceField(
        label=_("Which bucket?"),
        widget=forms.RadioSelect,
        error_messages={"required": NO_BUCKET, "invalid_choice": NO_BUCKET},
    )
    side = forms.ChoiceField(
        choices=Side.choices,
        label=_("Which side?"),
        widget=forms.RadioSelect,
        error_messages={"required": _("Which side? Tap one.")},
    )
    extent = forms.ChoiceField(
        choices=Extent.choices,
        label=_("How far?"),
        widget=forms.RadioSelect,
        error_messages={"required": _("How far? Tap one.")},
    )

    def __init__(self, *args: Any, buckets: list[Bucket], **options: Any) -> None:
        super().__init__(*args, **options)
        self.buckets = {bucket.pk: bucket for bucket in buckets}
        self.fields["bucket"].choices = [  # type: ignore[attr-defined] # a choice of words
            (bucket.pk, bucket.name) for bucket in buckets
        ]
        if len(buckets) == 1 and not self.is_bound:
            self.initial.setdefault("bucket", buckets[0].pk)

    def first_taps(self) -> list[Any]:
        """Give the word buttons of the likely buckets."""
        return list(self["bucket"])[: self.likely]

    def other_taps(self) -> list[Any]:
        """Give the word buttons of the other buckets."""
        return list(self["bucket"])[self.likely :]

    def other_tapped(self) -> bool:
        """Say whether one of the other buckets is tapped."""
        return self["bucket"].value() in list(self.buckets)[self.likely :]

    def facts(self) -> dict[str, Any]:
        """Give what was chosen, the bucket as what it is."""
        return {**self.cleaned_data, "bucket": self.buckets[self.cleaned_data["bucket"]]}


class DipForm(WhichForm, AskingForm):
    """The pot before and after the dip."""

    before_g = TypedNumber(POT_G, unit="g", required=False, label=_("Pot before the dip"))
    after_g = TypedNumber(
        POT_G, unit="g", required=False, label=_("After it, when it stops dripping")
    )
    how = forms.ChoiceField(
        choices=How.choices,
        required=False,
        initial=How.DIPPED,
        label=_("How was it put on?"),
        widget=forms.RadioSelect,
    )
    seconds = TypedNumber(SECONDS, unit="s", required=False, label=_("How many seconds?"))
    beneath = forms.ChoiceField(
        choices=[(word.value, word.label) for word in Dryness if word.value],
        required=False,
        label=_("How dry was it?"),
        widget=forms.RadioSelect,
    )
    lip_cm = TypedNumber(LIP_CM, unit="cm", required=False, label=_("How deep is the lip?"))

    def clean(self) -> dict[str, Any]:
        """Refuse a pot that weighs no more after the dip."""
        said: dict[str, Any] = super().clean() or {}
        before_g, after_g = said.get("before_g"), said.get("after_g")
        if after_g is not None and before_g is None and "before_g" not in self.errors:
            say = _now("What did it weigh before the dip? Without it the coat cannot be told.")
            self.add_error("before_g", say)
        elif after_g is not None and before_g is not None and after_g <= before_g:
            say = _now("After the dip it weighs %(after)s g, no more than the %(before)s g before.")
            self.add_error("after_g", say % {"after": typed(after_g), "before": typed(before_g)})
        elif after_g and before_g and after_g - before_g > max(before_g, SMALL_G):
            say = _now(
                "After the dip it weighs %(after)s g, more than twice the %(before)s g before: "
                "is there a digit too many?"
            )
            self.add_error("after_g", say % {"after": typed(after_g), "before": typed(before_g)})
        return said

    def facts(self) -> dict[str, Any]:
        """Give what was entered, as an action takes it."""
        facts = super().facts()
        del facts["sure"]
        facts["how"] = facts["how"] or How.DIPPED
        return facts


class CorrectCoatForm(DipForm):
    """A coat put right; what is not sent stays as it was.

    Parameters
    ----------
    wrong : Coat
        The coat as it stands.
    likely, others : list of Bucket
        From which buckets it may have come.
    """

    def __init__(
        self, *args: Any, wrong: Coat, likely: list[Bucket], others: list[Bucket], **options: Any
    ) -> None:
        weights = ("before_g", "after_g", "seconds", "lip_cm")
        words = ("side", "extent", "how", "beneath", "remembered")
        initial: dict[str, Any] = {name: typed(getattr(wrong, name)) for name in weights}
        initial |= {name: getattr(wrong, name) for name in words}
        initial["bucket"] = wrong.bucket_id
        super().__init__(*args, initial=initial, buckets=[*likely, *others], **options)
        self.likely = len(likely)
        self.fields["bucket"].required = wrong.bucket_id is not None

    def facts(self) -> dict[str, Any]:
        """Give what was sent, the bucket as what it is."""
        facts = {name: value for name, value in self.cleaned_data.items() if name in self.data}
        facts.pop("sure", None)
        if "bucket" in facts:
            facts["bucket"] = self.buckets.get(facts["bucket"])
        if not facts.get("how", True):
            del facts["how"]
        return facts


class DipAllForm(DipForm):
    """One coat on every pot of a board; one of them weighed for the rest."""

    weighed = forms.ChoiceField(
        required=False, label=_("Which one did you weigh?"), widget=forms.RadioSelect
    )

    def __init__(self, *args: Any, pots: list[Pot], names: dict[str, str], **options: Any) -> None:
        super().__init__(*args, **options)
        self.pots = {pot.pk: pot for pot in pots}
        self.fields["weighed"].choices = [  # type: ignore[attr-defined] # a choice of words
            (pot.pk, names[pot.pk]) for pot in pots
        ]

    def clean(self) -> dict[str, Any]:
        """Ask which pot the weights belong to."""
        said = super().clean()
        if said.get("after_g") is not None and not said.get("weighed"):
            self.add_error("weighed", _now("Which one did you weigh? Tap it."))
        return said

    def facts(self) -> dict[str, Any]:
        """Give what was entered, the weighed pot as what it is."""
        facts = super().facts()
        facts["weighed"] = self.pots.get(facts["weighed"]) if facts["after_g"] else None
        return facts
