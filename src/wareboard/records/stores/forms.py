"""What is asked in the stores."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from wareboard.core.chemistry import LOI
from wareboard.core.errors import CoreError
from wareboard.core.units import MASS_G, PERCENT, SOLID_G_CM3
from wareboard.exchange.typed_number import as_typed
from wareboard.exchange.typed_sheet import TypedSheet, read_sheet
from wareboard.records.people.fields import EntryForm, PastDay, TypedNumber, TypedText, named
from wareboard.records.people.shown import day

from .library_row import LibraryRow
from .models import Lot, LotContainer, MaterialKind, Sheet, SheetStanding


class SheetText(TypedText):
    """An analysis, typed as it stands on the sheet."""

    def __init__(self, **options: Any) -> None:
        super().__init__(lines=True, **options)

    def clean(self, value: Any) -> TypedSheet | None:
        """Give what the sheet says; None where nothing was typed."""
        text = super().clean(value)
        if not text:
            return None
        question = str(self.label)
        try:
            return read_sheet(text, field=question)
        except CoreError as refused:
            raise ValidationError(named(question, refused.say)) from refused


class MaterialForm(EntryForm):
    """A new material: its name, what it is, what may stand in for its sheet."""

    name = TypedText(label=_("What do you call it?"))
    kind = forms.ChoiceField(
        choices=MaterialKind.choices,
        initial=MaterialKind.GLAZE,
        label=_("What is it?"),
    )
    library_id = LibraryRow(
        label=_("Which powder stands in until it has a sheet?"),
        help_text=_("Part of a name will do: feldspar, whiting. Leave it empty if none is near."),
    )
    other_names = TypedText(
        required=False,
        max_length=300,
        label=_("Other names for it"),
        help_text=_("With commas between; a recipe may use any of them."),
    )
    shrinkage_percent = TypedNumber(
        PERCENT,
        unit="%",
        required=False,
        label=_("A clay body: how much does it shrink, wet to fired?"),
    )


class StandInForm(forms.Form):
    """Which row of the built-in table stands in for a material."""

    library_id = LibraryRow(
        required=True,
        label=_("Which powder stands in until it has a sheet?"),
        help_text=_("Part of a name will do: feldspar, whiting."),
    )


class SheetForm(EntryForm):
    """An analysis of a material, or of one bag of it."""

    sheet = SheetText(
        label=_("What does the sheet say?"),
        help_text=_("Oxide and per cent, by formula or name: SiO2 66.5, alumina 18.3, LOI 0.4"),
    )
    standing = forms.ChoiceField(
        choices=SheetStanding.choices,
        initial=SheetStanding.SUPPLIER,
        label=_("What sort of sheet is it?"),
    )
    source = TypedText(required=False, max_length=200, label=_("Where is it from?"))
    density_g_cm3 = TypedNumber(
        SOLID_G_CM3,
        unit="g/cm³",
        required=False,
        label=_("Density of the dry powder"),
        help_text=_("Leave it empty if the sheet is silent."),
    )


class RightSheetForm(SheetForm):
    """An analysis as its sheet really says; it begins with what was written, a line an oxide.

    Parameters
    ----------
    written : Sheet
        As it stands.
    """

    def __init__(self, *args: Any, written: Sheet, **options: Any) -> None:
        lines = [(one.oxide, one.percent) for one in written.oxides.order_by("position")]
        lines += [] if written.loss_percent is None else [(LOI, written.loss_percent)]
        begun = {
            "sheet": "\n".join(f"{oxide} {as_typed(percent)}" for oxide, percent in lines),
            "standing": written.standing,
            "source": written.source,
            "density_g_cm3": as_typed(written.density_g_cm3),
            "remembered": written.remembered,
        }
        super().__init__(*args, **{"initial": begun, **options})
        self.fields["sheet"].required = bool(lines)
        self.fields["sheet"].widget.attrs["class"] = "tall"


class LotForm(SheetForm):
    """A new bag, sack or jar; most of it is filled in from the one before."""

    label = TypedText(max_length=60, label=_("What tells it from the last one?"))
    container = forms.ChoiceField(
        choices=LotContainer.choices, label=_("What did it come in?"), widget=forms.RadioSelect
    )
    jar_kept = forms.BooleanField(required=False, label=_("A jar of it put aside"))
    at = PastDay(label=_("Opened on"))
    supplier = TypedText(required=False, label=_("Who sold it?"))
    fineness = TypedText(required=False, max_length=60, label=_("How fine is it?"))
    note = TypedText(lines=True, required=False, label=_("Anything else about it?"))

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["sheet"].required = False
        self.fields["sheet"].label = _("Its own sheet, if it came with one")
        self.fields["standing"].required = False
        del self.fields["source"], self.fields["density_g_cm3"]
        self.fields["at"].initial = timezone.localdate()


class CountForm(EntryForm):
    """How much of a lot is left."""

    left_g = TypedNumber(
        MASS_G, unit="g", label=_("How much is left?"), help_text=_("Write 17 kg for kilograms.")
    )


def usual_lot(newest: Lot | None) -> dict[str, Any]:
    """Fill a new lot's form in from the newest one of the same material."""
    if newest is None:
        return {"label": "A", "container": LotContainer.BAG}
    label = following(newest.label)
    return {
        "label": label or day(timezone.now(), "j M Y"),
        "container": newest.container,
        "supplier": newest.supplier,
    }


def following(label: str) -> str:
    """Give the label that comes after one: B after A, 4 after 3; else nothing."""
    if label.isascii() and label.isdigit():
        return str(int(label) + 1)
    if len(label) == 1 and label.isascii() and label.isalpha() and label not in "zZ":
        return chr(ord(label) + 1)
    return ""


def told(lot: Lot) -> str:
    """Name a lot: bag B, opened 3 Oct 2026."""
    words = {
        "container": lot.get_container_display(),
        "label": f"“{lot.label}”" if " " in lot.label else lot.label,
        "day": day(lot.at, "j M Y"),
    }
    return str(_("%(container)s %(label)s, opened %(day)s")) % words
