"""What is asked when a batch is weighed out."""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as say
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import MASS_G
from wareboard.exchange.typed_number import written
from wareboard.records.people.fields import EntryForm, PastDay, TypedNumber, TypedText
from wareboard.records.stores.forms import told
from wareboard.records.stores.models import Lot

from .dose_said import DoseSaid
from .models import BatchLine
from .recipe_book import Powder


class MixForm(forms.Form):
    """How much is to be weighed out: asked, nothing kept.

    Parameters
    ----------
    additions : bool
        Whether something comes on top of the hundred.
    """

    dry_g = TypedNumber(
        MASS_G,
        unit="g",
        required=False,
        label=_("How much dry glaze?"),
        help_text=_("Then the page says what to weigh of each. Write 8 kg for kilograms."),
    )

    def __init__(self, *args: Any, additions: bool, **options: Any) -> None:
        super().__init__(*args, **options)
        if additions:
            self.fields["dry_g"].help_text = _(
                "Counted without the additions (+), which come on top. Write 8 kg for kilograms."
            )


class OnTheScale(TypedNumber):
    """What the scale said; what the page itself says to weigh is never asked about.

    Parameters
    ----------
    asked_g : float or None
        What the page says to weigh [g].
    """

    def __init__(self, asked_g: float | None, **options: Any) -> None:
        super().__init__(MASS_G, unit="g", required=False, **options)
        self.asked_g = asked_g
        if asked_g is not None:
            self.widget.attrs["placeholder"] = written(asked_g)

    def clean(self, value: Any) -> Any:
        """Give grams; a number as it stands on the page means what it means there."""
        if self.asked_g is not None and self.to_python(value) == written(self.asked_g):
            return self.asked_g
        return super().clean(value)


class BatchForm(EntryForm):
    """A batch weighed out: for each material its lot, and what the scale said.

    Where the page says what to weigh, that counts as weighed unless another
    number is typed or the potter says that nothing was weighed.

    Parameters
    ----------
    powders : sequence of Powder
        What the recipe is weighed out from.
    lots : mapping of str to sequence of Lot
        By material, newest first: the first is the one that is open.
    asked_g : sequence of float
        What the page says to weigh of each [g]; empty where nobody said how much.
    """

    not_weighed = forms.BooleanField(required=False, label=_("I did not weigh them"))
    at = PastDay(label=_("Mixed on"))
    note = TypedText(lines=True, required=False, label=_("Anything else about it?"))

    def __init__(
        self,
        *args: Any,
        powders: Sequence[Powder],
        lots: Mapping[str, Sequence[Lot]],
        asked_g: Sequence[float] = (),
        **options: Any,
    ) -> None:
        super().__init__(*args, **options)
        self.powders, self.asked_g = powders, asked_g
        self.said: Sequence[DoseSaid] = ()
        self.lots = {lot.pk: lot for found in lots.values() for lot in found}
        for number, powder in enumerate(powders):
            own = lots.get(powder.material.pk, ())
            self.fields[f"lot_{number}"] = forms.ChoiceField(
                choices=[*lots_told(own), ("", _("not said"))],
                required=False,
                initial=own[0].pk if own else "",
                label=powder.material.name,
            )
            self.fields[f"grams_{number}"] = OnTheScale(
                asked_g[number] if asked_g else None, label=powder.material.name
            )
        if not asked_g:
            del self.fields["not_weighed"]

    def rows(self) -> list[dict[str, Any]]:
        """Give for each powder its two fields, for the page."""
        return [
            {
                "powder": powder,
                "lot": self[f"lot_{number}"],
                "grams": self[f"grams_{number}"],
                "asked_g": self.asked_g[number] if self.asked_g else None,
                "said": self.said[number] if self.said else None,
            }
            for number, powder in enumerate(self.powders)
        ]

    def facts(self) -> dict[str, Any]:
        """Give the batch as an action takes it: what is shown counts where nothing is typed."""
        found = self.cleaned_data
        as_shown = bool(self.asked_g) and not found.get("not_weighed", False)
        lines = []
        for number, powder in enumerate(self.powders):
            grams = found[f"grams_{number}"]
            if grams is None and as_shown:
                grams = self.asked_g[number]
            lot = self.lots.get(found[f"lot_{number}"])
            lines.append(BatchLine(material=powder.material, lot=lot, weighed_g=grams))
        kept = ("entry_id", "remembered", "at", "note")
        return {"lines": lines, **{key: found[key] for key in kept}}

    def kept_said(self) -> str:
        """Say which grams were kept as shown, and which as typed."""
        found = self.cleaned_data
        typed = [
            powder.material.name
            for number, powder in enumerate(self.powders)
            if found[f"grams_{number}"] is not None
        ]
        some = 0 < len(typed) < len(self.powders)
        names = {"names": ", ".join(typed)}
        if self.asked_g and not found.get("not_weighed", False):
            if some:
                return say("Kept: %(names)s as typed, the others as shown.") % names
            return (
                say("Kept with the grams as typed.")
                if typed
                else say("Kept with the grams as shown.")
            )
        if some:
            return say("Kept: %(names)s as typed, the others without grams.") % names
        return say("Kept with the grams as typed.") if typed else say("Kept without grams.")


def lots_told(lots: Sequence[Lot]) -> list[tuple[str, str]]:
    """Give lots as choices: bag B, opened 3 Oct 2026."""
    return [(lot.pk, told(lot)) for lot in lots]
