"""What is asked where something is put right: it begins with what was written."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import MASS_G, VOLUME_L, VOLUME_ML
from wareboard.exchange.typed_number import as_typed
from wareboard.records.people.fields import EntryForm, TypedNumber
from wareboard.records.stores.models import Lot

from .batch_forms import lots_told
from .bottle import Bottle
from .forms import ALIKE, ReadingForm, ask_how_much, bags_named
from .level import ML_L
from .models import BatchLine, BucketEvent, BucketEventKind, Reading, ReadingFlow


class RightReadingForm(ReadingForm):
    """A reading as it should have been; it begins with what was written."""

    flow = forms.ChoiceField(
        choices=[(word.value, word.label) for word in ReadingFlow],
        required=False,
        label=_("How does it hang?"),
        widget=forms.RadioSelect,
    )

    def __init__(self, *args: Any, reading: Reading, **options: Any) -> None:
        numbers = ("full_g", "empty_g", "volume_ml", "in_bucket_l")
        begun = {name: as_typed(getattr(reading, name)) for name in numbers}
        begun |= {"flow": reading.flow, "remembered": reading.remembered}
        super().__init__(*args, bottle=None, **{"initial": begun, **options})


class BottleForm(EntryForm):
    """A bottle as it really is, and where its wrong numbers were used.

    Parameters
    ----------
    bottle : Bottle or None
        As it stands.
    others : int
        How many other buckets were weighed with these numbers.
    """

    empty_g = TypedNumber(MASS_G, unit="g", label=_("The empty bottle weighs"))
    volume_ml = TypedNumber(
        VOLUME_ML,
        unit="ml",
        label=_("It holds"),
        help_text=_("Grams of water it takes to the brim."),
    )
    where = forms.ChoiceField(
        initial="here", label=_("Where was it written wrongly?"), widget=forms.RadioSelect
    )

    def __init__(self, *args: Any, bottle: Bottle | None, others: int, **options: Any) -> None:
        begun = {name: as_typed(getattr(bottle, name, None)) for name in ("empty_g", "volume_ml")}
        super().__init__(*args, **{"initial": begun, **options})
        del self.fields["remembered"]
        all_of_them = _("in all %(n)d buckets") % {"n": others + 1}
        choices = [("here", _("in this bucket")), ("everywhere", all_of_them)]
        self.fields["where"].choices = choices  # type: ignore[attr-defined] # a choice of words
        if not others:
            del self.fields["where"]

    def facts(self) -> dict[str, Any]:
        """Give the bottle as an action takes it."""
        facts = super().facts()
        return {
            "entry_id": facts["entry_id"],
            "right": Bottle(facts["empty_g"], facts["volume_ml"]),
            "everywhere": facts.get("where") == "everywhere",
        }


class RightChangeForm(EntryForm):
    """What was done to a bucket as it really was; it begins with what was written.

    What was told by weight stays told by weight, and what was poured in stays that batch.

    Parameters
    ----------
    change : BucketEvent
        As it stands.
    lots : sequence of Lot
        Bags that a powder may have come from.
    """

    kind = forms.ChoiceField(label=_("What was done?"), widget=forms.RadioSelect)
    amount_l = TypedNumber(VOLUME_L, unit="l", required=False, label=_("How much?"))
    amount_g = TypedNumber(MASS_G, unit="g", required=False, label=_("How much?"))
    lot = forms.ChoiceField(required=False, label=_("Which bag or jar?"), widget=forms.Select)

    def __init__(
        self, *args: Any, change: BucketEvent, lots: Sequence[Lot] = (), **options: Any
    ) -> None:
        litres = None if change.amount_ml is None else change.amount_ml / ML_L
        begun = {
            "kind": change.kind,
            "amount_l": as_typed(litres),
            "amount_g": as_typed(change.amount_g),
            "lot": change.lot_id or "",
            "remembered": change.remembered,
        }
        super().__init__(*args, **{"initial": begun, **options})
        self.change = change
        self.lots = {lot.pk: lot for lot in lots}
        kinds = next(alike for alike in ALIKE if change.kind in alike)
        powder = change.kind == BucketEventKind.POWDER_IN
        by_weight = powder or (change.amount_g is not None and change.amount_ml is None)
        self.fields["kind"].choices = [(kind.value, kind.label) for kind in kinds]  # type: ignore[attr-defined] # a choice of words
        self.fields["lot"].choices = bags_named(lots)  # type: ignore[attr-defined] # as above
        if by_weight or len(kinds) == 1:
            del self.fields["kind"]
        if not powder:
            del self.fields["lot"]
        del self.fields["amount_l" if by_weight else "amount_g"]

    def clean(self) -> dict[str, Any]:
        """Ask how much, except where all of it went or nobody said it before either."""
        found = super().clean() or self.cleaned_data
        ask_how_much(self, found.get("kind", self.change.kind))
        return found

    def facts(self) -> dict[str, Any]:
        """Give what was done as an action takes it."""
        found = {"kind": self.change.kind, **self.cleaned_data}
        litres = found.pop("amount_l", None)
        emptied = found["kind"] == BucketEventKind.EMPTIED
        told = {"amount_ml": None if litres is None or emptied else litres * ML_L}
        lot = self.lots.get(found.pop("lot", ""))
        return {"amount_g": None, **found, **told, "lot": lot}


class RightLineForm(EntryForm):
    """What went into a batch of one powder, as it really was.

    Parameters
    ----------
    line : BatchLine
        As it stands.
    lots : sequence of Lot
        Bags of its powder.
    """

    weighed_g = TypedNumber(
        MASS_G,
        unit="g",
        required=False,
        label=_("What the scale said"),
        help_text=_("Empty: it was not weighed."),
    )
    lot = forms.ChoiceField(required=False, label=_("Which bag or jar?"), widget=forms.Select)

    def __init__(self, *args: Any, line: BatchLine, lots: Sequence[Lot], **options: Any) -> None:
        begun = {
            "weighed_g": as_typed(line.weighed_g),
            "lot": line.lot_id or "",
            "remembered": line.remembered,
        }
        super().__init__(*args, **{"initial": begun, **options})
        self.lots = {lot.pk: lot for lot in lots}
        self.fields["lot"].choices = [*lots_told(lots), ("", _("not said"))]  # type: ignore[attr-defined] # a choice field

    def facts(self) -> dict[str, Any]:
        """Give what went in as an action takes it."""
        facts = super().facts()
        return {**facts, "lot": self.lots.get(facts["lot"])}
