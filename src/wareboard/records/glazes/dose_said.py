"""Grams to add to a wet slop, said so that they can be weighed."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from wareboard.core.answer import Answer
from wareboard.core.slop import Dose
from wareboard.exchange.typed_number import as_typed
from wareboard.records.people.shown import Shown, rounded

FINE_ENOUGH = 20.0
"""Steps of the scale in an addition from which a step either way is a twentieth or less."""


@dataclass(frozen=True)
class DoseSaid:
    """Grams to add, in words.

    Attributes
    ----------
    grams : str
        What to weigh out, as the scale shows it.
    number : str
        The same without its unit, to begin a field with.
    span : str
        Where it lies nine times in ten.
    dry : str
        Dry glaze it rests on, with its span.
    caution : str
        Where the scale is too coarse; else empty.
    trust : str
        One of the five words.
    """

    grams: str
    number: str
    span: str
    dry: str
    caution: str
    trust: str


def dose_said(answer: Answer[Dose], shown: Shown, *, solid_known: bool) -> DoseSaid:
    """Say how many grams to add.

    Parameters
    ----------
    answer : Answer of Dose
        What was worked out.
    shown : Shown
        How this studio reads numbers.
    solid_known : bool
        Whether the density of the powder comes from what was weighed out.
    """
    step = shown.studio.scale_step_g
    add_g = answer.result.add_g
    fine = min(step, 1.0)
    dry = shown.mass(answer.result.dry_g)
    return DoseSaid(
        grams=f"{rounded(add_g, fine)} g",
        number=as_typed(float(rounded(add_g, fine))),
        span=Shown.span(answer.doubt["add_g"], fine, "g"),
        dry=dry,
        caution=coarse_for(add_g, step),
        trust="worked-out" if solid_known else "general",
    )


def coarse_for(mass_g: float, scale_step_g: float) -> str:
    """Say that a scale is too coarse for so little; empty where it will do."""
    if mass_g >= FINE_ENOUGH * scale_step_g:
        return ""
    return _(
        "A scale that shows steps of %(step)s g is coarse for so little: use a finer one, "
        "or do more at once."
    ) % {"step": f"{scale_step_g:g}"}
