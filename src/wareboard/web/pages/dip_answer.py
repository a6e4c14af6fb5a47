"""After the dip: what it left on the pot, in sentences."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from wareboard.core.coat import CoatWord, RunRisk, coat_words, layer_warning
from wareboard.records.people.shown import Shown, rounded
from wareboard.records.ware.bridge import (
    NEVER_WEIGHED,
    NOT_WEIGHED,
    WorkedCoat,
    regions_of,
    stack_of,
)
from wareboard.records.ware.words import How

from .dip_warning import PLACES, first_to_run
from .good_coats import STEP_MM, Usual, spread_of

SAID = {
    CoatWord.THIN: gettext_lazy("Thin."),
    CoatWord.AS_USUAL: gettext_lazy("As usual."),
    CoatWord.THICK: gettext_lazy("Thick."),
}
SPRAY = gettext_lazy(
    "Sprayed glaze hangs in the air: outdoors or in a booth that draws, with a mask fit for fine "
    "dust."
)


@dataclass(frozen=True)
class DipAnswer:
    """What stands where the question was.

    Attributes
    ----------
    say : str
        The word.
    millimetres, doubt : str
        Thickness and its span; empty where it cannot be told.
    grams : str
        Glaze and water.
    trust : str
        One of the five words; empty where nothing is reckoned.
    trust_n : str
        How many were weighed of how many, or how many good coats.
    layers, layers_doubt : str
        What lies on the thickest place now, and its span.
    against : str
        What the word rests on, or why there is none.
    why : list of str
        Sentences behind "why?".
    cautions : list of str
        Where loss is real.
    undrawn : bool
        Whether a drawn form would tell more.
    """

    say: str
    millimetres: str = ""
    doubt: str = ""
    grams: str = ""
    trust: str = ""
    trust_n: str = ""
    layers: str = ""
    layers_doubt: str = ""
    against: str = ""
    why: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    undrawn: bool = False


def _layers(
    one: WorkedCoat, on_pot: Sequence[WorkedCoat], shown: Shown
) -> tuple[str, str, list[str]]:
    """Say how thick it is where this coat meets others, and warn where that runs."""
    regions = regions_of(one.coat)
    places = [place for place in stack_of(on_pot).result.places if place.region in regions]
    most = max(places, key=lambda place: place.total_mm, default=None)
    if most is None or most.layers < 2:  # noqa: PLR2004 - one coat is no layers
        return "", "", []
    there = [w.coat for w in on_pot if most.region in regions_of(w.coat)]
    limit = first_to_run([c.bucket.glaze if c.bucket else c.glaze for c in there])
    facts = {
        "n": most.layers,
        "where": PLACES[most.region],
        "mm": shown.thickness(most.total_mm),
        "glaze": limit.name if limit else "",
        "limit": f"{limit.runs_above_mm:g} mm" if limit else "",
    }
    say = _("%(n)d layers %(where)s now: %(mm)s") % facts
    span = spread_of(most.low_mm, most.high_mm)
    risk = layer_warning(
        most.total_mm,
        doubt_mm=(most.high_mm - most.low_mm) / 2,
        runs_above_mm=limit.runs_above_mm if limit else None,
        foot_gap_mm=one.coat.pot.foot_gap_mm,
    ).result.run
    if risk is RunRisk.MAY_RUN:
        return say, span, [_("%(glaze)s runs above %(limit)s, so this may run.") % facts]
    if risk is RunRisk.CLOSE:
        return say, span, [_("Close to the %(limit)s above which %(glaze)s runs.") % facts]
    return say, span, []


def _why(one: WorkedCoat, shown: Shown) -> list[str]:
    """Tell how the grams and the millimetres came about."""
    if one.answer is None:
        return []
    weighed, result = one.coat.like or one.coat, one.answer.result
    before_g, after_g = weighed.before_g or 0.0, weighed.after_g or 0.0
    why = [
        _(
            "%(after)s − %(before)s = %(slop)s of slop; %(percent)s %% of that, %(coat)s, is dry "
            "glaze."
        )
        % {
            "after": shown.mass(after_g),
            "before": shown.mass(before_g),
            "slop": shown.mass(after_g - before_g),
            "percent": rounded(100 * result.coat_g / (after_g - before_g), 1),
            "coat": shown.mass(result.coat_g),
        }
    ]
    if result.coat_g_dm2 is not None and one.told_mm is not None:
        why += [
            _("On %(area)s dm² of this form that is %(mm)s mm, if half of a dry coat is powder.")
            % {
                "area": rounded(result.coat_g / result.coat_g_dm2, 0.1),
                "mm": rounded(one.told_mm, 0.01),
            },
            _("How densely a coat packs nobody measures: most of the doubt comes from there."),
        ]
    return why


def answer_for(
    one: WorkedCoat, on_pot: Sequence[WorkedCoat], usual: Usual, likes: int, shown: Shown
) -> DipAnswer:
    """Say what a dip left on a pot.

    Parameters
    ----------
    one : WorkedCoat
        The coat.
    on_pot : sequence of WorkedCoat
        All coats of its pot, in order.
    usual : Usual
        What this glaze's good coats were like.
    likes : int
        How many other pots it was weighed for.
    shown : Shown
        How this studio reads numbers.
    """
    glaze = one.coat.bucket.glaze if one.coat.bucket else one.coat.glaze
    name = glaze.name if glaze else _("this glaze")
    cautions = [str(SPRAY)] if one.coat.how == How.SPRAYED else []
    if one.answer is None:
        missing = {
            NOT_WEIGHED: _("It was not weighed before and after."),
            NEVER_WEIGHED: _(
                "Its bucket was never weighed: fill the bottle and weigh it now, before the "
                "bucket changes."
            ),
        }.get(one.missing, f"{one.missing.removesuffix('.')}.")
        return DipAnswer(
            _("Kept. How thick it is cannot be told."), against=missing, cautions=cautions
        )
    result, doubt = one.answer.result, one.answer.doubt
    grams = _("%(coat)s of glaze %(span)s and %(water)s of water, %(percent)s of the pot.") % {
        "coat": shown.mass(result.coat_g),
        "span": shown.span(doubt["coat_g"], 1),
        "water": shown.mass(result.water_g),
        "percent": shown.percent(result.water_percent_of_pot),
    }
    cautions += [str(c) for c in one.answer.cautions]
    layers, layers_doubt, running = _layers(one, on_pot, shown)
    trust = "usual" if one.usual else "worked-out"
    trust_n = _("1 of %d") % (likes + 1) if likes and one.usual else ""
    if one.told_mm is None:
        return DipAnswer(
            say=_("%s on it.") % shown.mass(result.coat_g),
            grams=grams,
            trust=trust,
            trust_n=trust_n,
            against=_("To know how thick that is, draw the pot's form once."),
            undrawn=True,
            why=_why(one, shown),
            cautions=cautions,
        )
    half = (doubt["coat_mm"].high - doubt["coat_mm"].low) / 2
    band = coat_words(one.told_mm, usual.good_mm, doubt_mm=half).result
    say = _("About %s.") % shown.thickness(one.told_mm)
    against = _(
        "Whether that is thick is not known yet: it takes three good pots with %s, weighed."
    )
    against = against % name
    if glaze is not None and usual.band_mm is not None:
        say = str(SAID[band.word])
        against = f"{usual.say(glaze)}. {usual.counts}"
    return DipAnswer(
        say=say,
        millimetres=shown.thickness(one.told_mm),
        doubt=shown.span(doubt["coat_mm"], STEP_MM),
        grams=grams,
        trust=trust,
        trust_n=trust_n,
        layers=layers,
        layers_doubt=layers_doubt,
        against=against,
        why=_why(one, shown),
        cautions=[*cautions, *running],
    )
