"""What is asked of a glaze and its recipe."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_number import written
from wareboard.exchange.typed_recipe import TypedLine, read_recipe
from wareboard.records.people.fields import EntryForm, PastDay, TypedText, named
from wareboard.records.people.models import Member
from wareboard.records.stores.queries import folded, materials_by_name

from . import queries
from .bridge import Asked
from .models import Glaze, Recipe

USUAL_SWATCH = "#a9a79c"
SHOWN_IN_FULL = 6


class RecipeText(TypedText):
    """A recipe, one material a line."""

    def __init__(self, **options: Any) -> None:
        super().__init__(lines=True, **options)
        self.widget.attrs["class"] = "tall"

    def clean(self, value: Any) -> tuple[TypedLine, ...]:
        """Give the lines as they were typed."""
        text = super().clean(value)
        if not text:
            return ()
        question = str(self.label)
        try:
            return read_recipe(text, field=question)
        except CoreError as refused:
            raise ValidationError(named(question, refused.say)) from refused


class RecipeForm(EntryForm):
    """A version of a recipe; names are looked up in the stores."""

    recipe = RecipeText(
        label=_("What goes in?"),
        help_text=_(
            "One material a line with its parts, or commas between: potash feldspar 40. "
            "A plus sign before what comes on top of the hundred: + tin oxide 1.2"
        ),
    )
    add_unknown = forms.BooleanField(required=False, label=_("Take the new names into the stores"))
    base: "forms.ModelChoiceField[Glaze]" = forms.ModelChoiceField(
        queryset=None,
        required=False,
        empty_label=_("no base"),
        label=_("Does it add to a base?"),
        help_text=_("With a base, the lines are what goes on top of a hundred of it."),
    )
    why = TypedText(required=False, max_length=300, label=_("Why this version?"))
    at = PastDay(label=_("On which day?"))

    def __init__(
        self, *args: Any, member: Member, glaze: Glaze | None = None, **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.member = member
        self.unknown: list[str] = []
        bases = queries.glazes_for(member)
        if glaze is not None:
            bases = bases.exclude(pk__in=resting_on(glaze.pk, queries.bases_by_glaze(member)))
        self.fields["base"].queryset = bases  # type: ignore[attr-defined] # a choice of rows

    def clean(self) -> dict[str, Any]:
        """Find the materials by name, and see that something is left without the additions."""
        found = super().clean() or self.cleaned_data
        typed = found.get("recipe", ())
        if not typed:
            return found
        known = materials_by_name(self.member)
        base = found.get("base")
        lines = [
            Asked(
                known.get(folded(line.name), line.name),
                line.parts,
                line.addition or base is not None,
            )
            for line in typed
        ]
        self.unknown = sorted({a.material for a in lines if isinstance(a.material, str)})
        if self.unknown and not found.get("add_unknown"):
            self.add_error("recipe", not_known(self.unknown, list(known)))
        if base is None and all(line.addition for line in lines):
            say = _(
                "Every line has a plus sign, so there is nothing to add to: choose a base below, "
                "or leave the plus sign out."
            )
            self.add_error("recipe", str(say))
        found["lines"] = lines
        return found

    def facts(self) -> dict[str, Any]:
        """Give what was entered, as an action takes it."""
        left_out = {"recipe", "add_unknown"}
        return {key: value for key, value in self.cleaned_data.items() if key not in left_out}


class GlazeForm(RecipeForm):
    """A new glaze with its first recipe."""

    name = TypedText(label=_("What do you call it?"))
    character = TypedText(
        required=False,
        max_length=300,
        label=_("What is it like?"),
        help_text=_("In your words: satin stone-grey, quiet."),
    )
    swatch = forms.RegexField(
        r"^#[0-9a-fA-F]{6}$",
        initial=USUAL_SWATCH,
        label=_("Its colour in drawings"),
        widget=forms.TextInput(attrs={"type": "color"}),
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["recipe"].required = False
        del self.fields["why"]


def resting_on(glaze_id: str, bases: dict[str, str | None]) -> set[str]:
    """Give a glaze and all that rest on it, by way of any number of bases.

    None of these can be its base.
    """
    found = {glaze_id}
    while True:
        more = {child for child, base in bases.items() if base in found} - found
        if not more:
            return found
        found |= more


def not_known(unknown: Sequence[str], known: Sequence[str]) -> str:
    """Say which names the stores do not hold, and what stands near them."""
    near = [
        name
        for name in known
        if any(set(name.split()) & set(folded(one).split()) for one in unknown)
    ][:SHOWN_IN_FULL]
    hint = " " + str(_("Near them: %s.")) % ", ".join(near) if near else ""
    say = _("Not in the stores: %(names)s.%(hint)s Mend the name, or tick below to take it in.")
    return str(say) % {"names": ", ".join(unknown), "hint": hint}


def as_text(recipe: Recipe) -> str:
    """Write a recipe as it would be typed."""
    return "\n".join(
        f"{'+ ' if line.addition and not recipe.base_id else ''}{line.material.name}"
        f"{':' if line.material.name[0].isdigit() else ''} {written(line.parts)}"
        for line in recipe.lines.all()
    )
