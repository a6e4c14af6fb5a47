"""What is asked in the kiln room."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from wareboard.core.drying import air_by_hygrometer
from wareboard.core.errors import CoreError
from wareboard.core.units import MASS_KG, PERCENT, VOLUME_L
from wareboard.records.people.entry import ID_PATTERN
from wareboard.records.people.fields import (
    AskingForm,
    EntryForm,
    TypedNumber,
    TypedText,
    say_what_is_missing,
)
from wareboard.records.people.models import Member, Studio, StudioMass
from wareboard.records.ware.models import Pot
from wareboard.records.ware.words import AirWord

from . import queries
from .cone_answer import place_words
from .log_forms import InOwnUnit
from .models import Kiln, Place
from .words import ConeSeries, Fuel

CLOCKS = (
    (12.0, _("12 as set")),
    (1.0, _("1")),
    (2.0, _("2")),
    (3.0, _("3 sideways")),
    (4.0, _("4")),
    (5.0, _("5")),
    (6.0, _("6 down")),
)
"""Where the tip of a cone points, as hours on a clock that it falls down along."""

HOT, COLD = "hot", "cold"
HOW = ((HOT, _("through the spy-hole")), (COLD, _("in the cold kiln")))
MOST_AT_ONCE = 200
LIGHTEST_KG = 0.1


class AirForm(EntryForm):
    """The day's air in one tap."""

    word = forms.ChoiceField(
        choices=AirWord.choices, label=_("How is the air today?"), widget=forms.RadioSelect
    )
    rh_percent = TypedNumber(
        PERCENT,
        unit="%",
        required=False,
        label=_("Hygrometer"),
        help_text=_("Leave empty where there is none."),
    )

    def clean_rh_percent(self) -> float | None:
        """Refuse what no room has, as the core does."""
        rh_percent: float | None = self.cleaned_data["rh_percent"]
        if rh_percent is not None:
            try:
                air_by_hygrometer(rh_percent)
            except CoreError as refused:
                raise ValidationError(f"{self.fields['rh_percent'].label}: {refused}") from refused
        return rh_percent


class KilnForm(EntryForm):
    """A kiln that is new to the record."""

    name = TypedText(label=_("What is it called?"))
    volume_l = TypedNumber(VOLUME_L, unit="l", required=False, label=_("Room inside"))
    fuel = forms.ChoiceField(
        choices=Fuel.choices,
        initial=Fuel.PROPANE,
        label=_("What does it burn?"),
        widget=forms.RadioSelect,
    )
    cones = forms.ChoiceField(
        choices=ConeSeries.choices,
        initial=ConeSeries.SELF_SUPPORTING,
        label=_("Which cones stand in it?"),
        widget=forms.RadioSelect,
    )
    end_cone = TypedText(
        max_length=4,
        required=False,
        label=_("Fired to which cone?"),
        help_text=_("Such as 9 or 04."),
    )


class LoadForm(EntryForm):
    """A new load."""

    kiln = forms.ModelChoiceField(
        queryset=Kiln.objects.none(),
        label=_("In which kiln?"),
        empty_label=None,
        widget=forms.RadioSelect,
    )
    name = TypedText(
        max_length=80, required=False, label=_("What is it called?"), help_text=_("Friday’s load.")
    )

    def __init__(self, *args: Any, kilns: Sequence[Kiln], **options: Any) -> None:
        super().__init__(*args, **options)
        field: Any = self.fields["kiln"]
        field.queryset = Kiln.objects.filter(pk__in=[kiln.pk for kiln in kilns])


class PutForm(EntryForm):
    """Which pots go where: ticked ones, all of a kind, whole boards; then one tap on the shelf."""

    place = forms.CharField(required=False, max_length=40)

    def __init__(self, *args: Any, member: Member, places: Sequence[Place], **options: Any) -> None:
        super().__init__(*args, **options)
        self.member = member
        self.places = {place.pk: place for place in places}

    def _ids(self) -> list[str]:
        data: Any = self.data
        ids = data.getlist("pots")
        for together in data.getlist("alike"):
            ids += together.split()
        return [one for one in dict.fromkeys(ids) if ID_PATTERN.match(one)][:MOST_AT_ONCE]

    def _on_ticked_boards(self) -> list[Pot]:
        data: Any = self.data
        ticked = set(data.getlist("board"))
        if not ticked:
            return []
        on_board = queries.waiting_on_boards(self.member)
        return [standing.pot for standing in on_board if standing.board_id in ticked]

    def clean(self) -> dict[str, Any]:
        """Find the pots and the place; refuse where either is missing."""
        found = super().clean() or {}
        place = self.places.get(found.get("place") or "")
        if place is None and self.places:
            raise ValidationError(_("Say which shelf: tap it below the list."))
        pots = [*self._on_ticked_boards(), *queries.known_pots(self.member, self._ids())]
        if not pots:
            raise ValidationError(_("Tick at least one pot, then tap the shelf."))
        return {**found, "pots": list({pot.pk: pot for pot in pots}.values()), "place": place}


class ConesForm(AskingForm):
    """How the cones of one pack stand: a row of hours for each cone."""

    sure = forms.BooleanField(required=False, label=_("I looked again: they stand so."))

    def __init__(
        self,
        *args: Any,
        cones: Sequence[str],
        known: Sequence[str],
        places: Sequence[Place],
        **options: Any,
    ) -> None:
        super().__init__(*args, **options)
        self.cones, self.known = cones, known
        self.places = {place.pk: place for place in places}
        if places:
            self.fields["place"] = forms.ChoiceField(
                choices=[(place.pk, place_words(place)) for place in places],
                label=_("Which pack?"),
                widget=forms.RadioSelect,
            )
        self.fields["how"] = forms.ChoiceField(
            choices=HOW, label=_("How did you see it?"), widget=forms.RadioSelect
        )
        for cone in cones:
            self.fields[f"clock-{cone}"] = forms.TypedChoiceField(
                choices=CLOCKS,
                coerce=float,
                empty_value=None,
                required=False,
                label=_now("Cone %s") % cone,
                widget=forms.RadioSelect,
            )
        self.fields["other"] = TypedText(
            max_length=4, required=False, label=_("Another cone"), help_text=_("Such as 7 or 010.")
        )
        self.fields["clock_other"] = forms.TypedChoiceField(
            choices=CLOCKS,
            coerce=float,
            empty_value=None,
            required=False,
            label=_("It points to"),
            widget=forms.RadioSelect,
        )
        say_what_is_missing(self)

    @property
    def rows(self) -> list[forms.BoundField]:
        """The rows of the cones that usually stand in the pack."""
        return [self[f"clock-{cone}"] for cone in self.cones]

    def clean(self) -> dict[str, Any]:
        """Refuse a pack of which nothing was said, and a cone the chart does not have."""
        found = super().clean() or {}
        clocks = {cone: found.get(f"clock-{cone}") for cone in self.cones}
        other, its_clock = found.get("other"), found.get("clock_other")
        if bool(other) != (its_clock is not None):
            raise ValidationError(
                {"other": _("Say both of another cone: which, and where it points.")}
            )
        if other:
            if other not in self.known:
                say = _now("There is no cone %(cone)s; accepted are %(first)s to %(last)s.")
                names = {"cone": other, "first": self.known[0], "last": self.known[-1]}
                raise ValidationError({"other": say % names})
            clocks[other] = its_clock
        found["clocks"] = {cone: at for cone, at in clocks.items() if at is not None}
        if not self.errors and not found["clocks"]:
            raise ValidationError(_("Tap where at least one cone points to."))
        return found

    def facts(self) -> dict[str, Any]:
        """Give the pack as an action keeps it."""
        names = ("entry_id", "remembered", "clocks")
        facts = {name: self.cleaned_data[name] for name in names}
        facts["place"] = self.places.get(self.cleaned_data.get("place", ""))
        facts["when_cold"] = self.cleaned_data["how"] == COLD
        return facts


class GasForm(EntryForm):
    """A gas cylinder on the scale."""

    gross_kg = InOwnUnit(MASS_KG, unit="kg", label=_("Weigh the cylinder"))
    tare_kg = InOwnUnit(
        MASS_KG,
        unit="kg",
        required=False,
        label=_("Empty it weighs"),
        help_text=_("Stamped on its collar. Leave empty where it cannot be read."),
    )
    cylinder = TypedText(
        max_length=40, required=False, label=_("Which cylinder?"), help_text=_("Number 2.")
    )

    def __init__(self, *args: Any, studio: Studio, **options: Any) -> None:
        super().__init__(*args, **options)
        if studio.mass == StudioMass.POUND:
            for name in ("gross_kg", "tare_kg"):
                field: Any = self.fields[name]
                field.bare_unit, field.unit = "lb", "lb"

    def clean(self) -> dict[str, Any]:
        """Refuse a cylinder that weighs less than when it is empty."""
        found = super().clean() or {}
        gross, tare = found.get("gross_kg"), found.get("tare_kg")
        if gross is not None and not gross >= LIGHTEST_KG:
            raise ValidationError({"gross_kg": _("A cylinder weighs more than that.")})
        if gross is not None and tare is not None and gross < tare:
            say = _("It cannot weigh less than empty: look at both numbers again.")
            raise ValidationError({"gross_kg": say})
        return found


class ShelfPhotoForm(EntryForm):
    """A photo of one shelf."""

    photo = forms.FileField(
        label=_("Photo"),
        widget=forms.ClearableFileInput(attrs={"accept": "image/*"}),
        error_messages={"required": _("No photo came with it: take one, then keep it.")},
    )
