"""What is asked of boards, and of the forms that pots are made to."""

import math
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from wareboard.core.units import LENGTH_CM, LENGTH_MM, MASS_G
from wareboard.exchange.refusals import NumberRefused
from wareboard.exchange.typed_number import read_typed
from wareboard.records.people.fields import AskingForm, EntryForm, TypedNumber, TypedText
from wareboard.records.people.shown import day

from .drawn import names_of
from .forms import POT_G, typed
from .models import Board, Pot
from .planks import numbered

TARE_G = replace(MASS_G, name="tare", highest=1e6, words="grams from 0 to 1000000, such as 1840")
WALL_MM = replace(
    LENGTH_MM,
    name="wall",
    lowest=0.5,
    highest=100.0,
    above=False,
    words="millimetres from 0.5 to 100, such as 5",
)
RADIUS_CM = replace(
    LENGTH_CM, name="radius", highest=200.0, words="centimetres from 0 to 200, such as 6.5"
)
HEIGHT_CM = replace(
    LENGTH_CM, name="height", highest=300.0, words="centimetres from 0 to 300, such as 12"
)
FEWEST_POINTS = 2
MOST_POINTS = 60
PAIR = 2
MM_CM = 10.0


class BoardForm(EntryForm):
    """A new plank."""

    name = TypedText(
        max_length=80, label=_("What is it called?"), help_text=_("Long plank, by the window.")
    )
    tare_g = TypedNumber(
        TARE_G,
        unit="g",
        required=False,
        label=_("What does it weigh empty?"),
        help_text=_("Needed once you weigh the whole board."),
    )


class TareForm(forms.Form):
    """The empty plank: said once, or put right by whoever saw what stands there."""

    tare_g = TypedNumber(TARE_G, unit="g", label=_("What does the empty plank weigh?"))
    was = forms.CharField(required=False, max_length=64, widget=forms.HiddenInput)

    def __init__(self, data: QueryDict | None = None, *, board: Board) -> None:
        now = typed(board.tare_g)
        super().__init__(data, initial={"tare_g": now, "was": now})
        self.board = board

    @property
    def puts_right(self) -> bool:
        """Whether its page showed a tare already."""
        return bool(self["was"].value())

    def clean_tare_g(self) -> float:
        """Refuse to write over a tare that the page did not show."""
        tare_g: float = self.cleaned_data["tare_g"]
        now = self.board.tare_g
        if now not in {None, tare_g} and self.data.get("was", "") != typed(now):
            say = _now(
                "It was said meanwhile that it weighs %(now)s g. If that is wrong, send again."
            )
            self.data = {"tare_g": self.data.get("tare_g", ""), "was": typed(now)}
            raise ValidationError(say % {"now": typed(now)})
        return tare_g


class BoardWeighForm(EntryForm):
    """A board with all that stands on it."""

    weight_g = TypedNumber(POT_G, unit="g", label=_("What does the whole board weigh?"))


class ArrangeForm(EntryForm):
    """Which pots stand on a board."""

    pots = forms.MultipleChoiceField(
        required=False,
        label=_("Which stand on it?"),
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "invalid_choice": _(
                "A pot you ticked stands on another board by now, or in the kiln. "
                "This is how it is: tick again."
            )
        },
    )

    def __init__(
        self,
        *args: Any,
        there: list[Pot],
        free: list[Pot],
        glazes: Mapping[str, str],
        **options: Any,
    ) -> None:
        options.setdefault("initial", {"pots": [pot.pk for pot in there]})
        super().__init__(*args, **options)
        self.at_hand = {pot.pk: pot for pot in (*there, *free)}
        names = names_of(free) | numbered(there)
        self.fields["pots"].choices = [  # type: ignore[attr-defined] # a choice of words
            (
                pk,
                f"{names[pk]}, {day(pot.at, 'j M')}" + (f" · {glazes[pk]}" if pk in glazes else ""),
            )
            for pk, pot in self.at_hand.items()
        ]

    def wanted(self) -> list[Pot]:
        """Give the pots that were ticked."""
        return [self.at_hand[pk] for pk in self.cleaned_data["pots"]]


class OutlineField(TypedText):
    """Radius and height, one pair a line, foot to rim [cm]."""

    def __init__(self, **options: Any) -> None:
        super().__init__(lines=True, **options)
        self.widget.attrs.update({"rows": "6", "inputmode": "text", "autocomplete": "off"})

    def clean(self, value: Any) -> Any:
        """Give the points, foot to rim."""
        lines = [line for line in super().clean(value).splitlines() if line.strip()]
        points = [self._point(number, line) for number, line in enumerate(lines, start=1)]
        if not points:
            return ()
        if not FEWEST_POINTS <= len(points) <= MOST_POINTS:
            say = _now("An outline needs from 2 to 60 lines; %(n)d are written here.")
            raise ValidationError(say % {"n": len(points)})
        for number, (lower, upper) in enumerate(pairwise(points), start=2):
            if upper[1] < lower[1]:
                say = _now("Line %(n)d goes down again: write the points from the foot to the rim.")
                raise ValidationError(say % {"n": number})
        if math.isclose(points[0][1], points[-1][1]):
            raise ValidationError(_now("The outline has no height: the last line is the rim."))
        if not any(r_cm for r_cm, _z in points):
            raise ValidationError(_now("The outline has no width: all its radii are 0."))
        return tuple(points)

    def _point(self, number: int, line: str) -> tuple[float, float]:
        words = line.replace(";", " ").split()
        if len(words) != PAIR:
            say = _now("Line %(n)d is “%(line)s”: a radius and a height would do, such as 6.5 12.")
            raise ValidationError(say % {"n": number, "line": line.strip()})
        try:
            return (
                read_typed(words[0], RADIUS_CM, field="outline").value,
                read_typed(words[1], HEIGHT_CM, field="outline").value,
            )
        except NumberRefused as refused:
            say = _now("Line %(n)d, %(say)s") % {"n": number, "say": refused.say}
            raise ValidationError(say) from refused


class WallForm(EntryForm):
    """The outline of a form and its wall."""

    outline = OutlineField(
        required=False,
        label=_("Its outline, in centimetres"),
        help_text=_("One point a line, foot to rim: half the width, then the height. 3.6 0"),
    )
    wall_mm = TypedNumber(
        WALL_MM,
        unit="mm",
        required=False,
        label=_("How thick is the dry wall?"),
        help_text=_("A pin through a spare one tells."),
    )

    def clean(self) -> dict[str, Any]:
        """Refuse a wall that leaves no room inside."""
        said: dict[str, Any] = super().clean() or {}
        outline, wall_mm = said.get("outline"), said.get("wall_mm")
        if outline and wall_mm and wall_mm / MM_CM >= max(r_cm for r_cm, _z in outline):
            say = _now("A wall of %(wall)g mm leaves no room in a pot %(wide)g cm wide.")
            wide = 2 * max(r_cm for r_cm, _z in outline)
            self.add_error("wall_mm", say % {"wall": wall_mm, "wide": wide})
        return said


class ShapeForm(WallForm):
    """A form: its name, its outline, its wall."""

    field_order = ("name",)
    name = TypedText(label=_("What is it called?"))


class DrawForm(WallForm, AskingForm):
    """The outline of a form that has a name alone."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["outline"].required = True
