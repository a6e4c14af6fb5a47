"""What is asked beside the log of a firing: its next line, and when something was."""

from datetime import datetime, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import DAMPER_MARKS, PRESSURE_KPA, TEMP_C
from wareboard.exchange.refusals import NumberRefused
from wareboard.exchange.typed_number import read_typed
from wareboard.records.people.fields import AskingForm, TypedNumber, TypedText
from wareboard.records.people.models import Studio, StudioTemperature
from wareboard.records.people.shown import Shown

from . import spoken
from .logs import Course
from .models import LogLine
from .slipped import cannot_follow
from .spoken import same_minute
from .words import Flame

SAYS = ("temp_c", "damper", "pressure_kpa", "flame", "note")


class InOwnUnit(TypedNumber):
    """A number that a studio may type in a unit of its own; ours comes out."""

    bare_unit = ""

    def clean(self, value: Any) -> Any:
        """Read a bare number in the studio's unit."""
        text = self.to_python(value)
        if not self.bare_unit or not text:
            return super().clean(value)
        try:
            return read_typed(
                text, self.quantity, field=str(self.label), bare_unit=self.bare_unit
            ).value
        except NumberRefused as refused:
            raise ValidationError(refused.say) from refused


class WhenForm(AskingForm):
    """When something happened: its day and its time."""

    when = forms.DateTimeField(
        label=_("When was it?"),
        widget=forms.DateTimeInput(format="%Y-%m-%dT%H:%M", attrs={"type": "datetime-local"}),
        error_messages={
            "invalid": _("That is no time; accepted is a day and a time such as 2026-10-03 21:40."),
            "required": _("Nothing is written here; accepted is a day and a time."),
        },
    )


class LineForm(AskingForm):
    """One line of the firing log: whatever was looked at.

    Attributes
    ----------
    tick : str
        What is said of the temperature by a tick, where it was asked about.
    meant : str
        What was most likely meant then; one tap keeps it.
    """

    tick = ""
    meant = ""

    temp_c = InOwnUnit(TEMP_C, unit="°C", required=False, label=_("Pyrometer"))
    flame = forms.ChoiceField(
        choices=[choice for choice in Flame.choices if choice[0]],
        required=False,
        label=_("Flame"),
        widget=forms.RadioSelect,
    )
    damper = TypedNumber(
        DAMPER_MARKS, required=False, label=_("Damper"), help_text=_("In the kiln’s own marks.")
    )
    pressure_kpa = TypedNumber(
        PRESSURE_KPA,
        unit="kPa",
        required=False,
        label=_("Gas pressure"),
        help_text=_("kPa; or write mbar, psi or in wc behind it."),
    )
    note = TypedText(max_length=300, required=False, label=_("Anything else"))
    seen = forms.TimeField(
        required=False,
        label=_("When, if not just now"),
        widget=forms.TimeInput(attrs={"type": "time"}),
        error_messages={"invalid": _("That is no time of day; accepted is one such as 21:40.")},
    )

    def __init__(
        self,
        *args: Any,
        studio: Studio,
        lit_at: datetime,
        until: datetime | None = None,
        **options: Any,
    ) -> None:
        super().__init__(*args, **options)
        self.studio, self.lit_at, self.until = studio, lit_at, until
        if studio.temperature == StudioTemperature.FAHRENHEIT:
            field: Any = self.fields["temp_c"]
            field.bare_unit, field.unit = "f", "°F"

    def clean(self) -> dict[str, Any]:
        """Refuse a line that says nothing, and one from before the kiln was lit."""
        found = super().clean() or {}
        if not self.errors and not any(found.get(name) not in {None, ""} for name in SAYS):
            raise ValidationError(
                _("This line says nothing yet: write a temperature, or tap a flame.")
            )
        at = found.get("seen")
        if at is not None:
            found["at"] = self._instant(at)
        return found

    def _instant(self, at: Any) -> datetime:
        """Give the last instant with this time of day that the firing had."""
        end = self.until or timezone.now()
        local = timezone.localtime(end)
        when = timezone.make_aware(datetime.combine(local.date(), at))
        if when > end:
            when = timezone.make_aware(datetime.combine(local.date() - timedelta(days=1), at))
        if when < self.lit_at:
            say = _now("At %(seen)s the kiln was not lit yet; it was lit at %(lit)s.") % {
                "seen": f"{at:%H:%M}",
                "lit": f"{timezone.localtime(self.lit_at):%H:%M}",
            }
            raise ValidationError({"seen": say})
        return when

    def ask_of_temperature(self, course: Course, at: datetime, *, left_out: str = "") -> None:
        """Ask about a temperature that no kiln can have by then.

        Parameters
        ----------
        course : Course
            The firing with its lines.
        at : datetime
            When it was seen.
        left_out : str
            The line that it takes the place of.
        """
        temp_c = self.cleaned_data["temp_c"]
        if temp_c is not None:
            shown = Shown(self.studio)
            self.tick = _now("I looked again: it is %s.") % shown.temperature(temp_c)
            doubted = cannot_follow(course, temp_c, at, shown, left_out=left_out)
            self.ask("temp_c", doubted.say)
            self.meant = doubted.meant if self.asked else ""

    def facts(self) -> dict[str, Any]:
        """Give the line as an action keeps it."""
        facts = super().facts()
        facts.pop("seen", None)
        return facts


def as_meant(sent: QueryDict) -> QueryDict:
    """Take what a line was asked to mean for what is typed, where that was tapped."""
    if "meant" not in sent:
        return sent
    told = sent.copy()
    told["temp_c"], told["sure"] = str(sent["meant"]), "on"
    return told


class LineRightForm(WhenForm, LineForm):
    """A line of the log as it should be, its time too; it begins with what stands there.

    What is not changed stays as it was, to its last digit.
    """

    def __init__(
        self, *args: Any, line: LogLine, studio: Studio, until: datetime | None, **options: Any
    ) -> None:
        temp_c = line.temp_c
        begun = {
            "temp_c": "" if temp_c is None else spoken.typed_temperature(temp_c, Shown(studio)),
            "damper": "" if line.damper is None else f"{line.damper:g}",
            "pressure_kpa": "" if line.pressure_kpa is None else f"{line.pressure_kpa:g}",
            "flame": line.flame,
            "note": line.note,
            "remembered": line.remembered,
            "when": line.at,
        }
        lit_at = line.firing.at
        super().__init__(*args, studio=studio, lit_at=lit_at, until=until, initial=begun, **options)
        self.stood = line.at
        self.fields.pop("seen")
        self.fields["when"].required = False

    def clean(self) -> dict[str, Any]:
        """Refuse a time that the firing did not have."""
        found = super().clean()
        when = found.get("when")
        if when is None or same_minute(when, self.stood):
            return found
        end = self.until or timezone.now() + timedelta(minutes=1)
        if not self.lit_at - timedelta(minutes=1) < when <= end:
            say = _now("The firing went from %(lit)s to %(end)s: accepted is a time between.") % {
                name: date_format(timezone.localtime(at), "j M, H:i")
                for name, at in (("lit", self.lit_at), ("end", end))
            }
            raise ValidationError({"when": say})
        return {**found, "at": when}

    @property
    def reads_otherwise(self) -> bool:
        """Whether its temperature or its time was changed."""
        return "temp_c" in self.changed_data or "at" in self.cleaned_data

    def facts(self) -> dict[str, Any]:
        """Give what was changed, as an action keeps it."""
        facts = super().facts()
        facts.pop("when", None)
        told = {"entry_id", "at", *(name for name in self.changed_data if name in self.data)}
        return {name: value for name, value in facts.items() if name in told}
