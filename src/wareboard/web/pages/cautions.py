"""All cautions on one calm page, each deferring to the local rule and to licensed practice."""

from dataclasses import dataclass

from django.http import HttpResponse
from django.shortcuts import render
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from wareboard.records.kiln import cautions as kiln
from wareboard.records.people.requests import StudioRequest
from wareboard.refdata.hazards import Hazard, all_hazards
from wareboard.refdata.loading import Standing

Said = str | Promise


@dataclass(frozen=True)
class Chapter:
    """One group of cautions.

    Attributes
    ----------
    title : str
        What it is about.
    cautions : tuple of str
        One or two sentences each.
    """

    title: Said
    cautions: tuple[Said, ...]


CHAPTERS = (
    Chapter(
        gettext_lazy("Powders and dust"),
        (
            gettext_lazy(
                "Dry powders, clay dust too, hold quartz that scars the lungs. Wear the mask your "
                "local code names for silica, wet-clean, never sweep."
            ),
            gettext_lazy(
                "Rub a raw coat damp or outdoors, with the mask on, and never blow the dust off."
            ),
            gettext_lazy(
                "Spraying fills the air with glaze: only in a booth that draws, with a mask for "
                "mist, as the makers of both ask."
            ),
        ),
    ),
    Chapter(
        gettext_lazy("Things that burn or bite"),
        (
            gettext_lazy(
                "Resist made with spirit gives off vapour that burns: never beside a warm plate, a "
                "flame or a kiln. Hold to its safety sheet."
            ),
            gettext_lazy(
                "Unwashed wood ash and its water are caustic: gloves and goggles, and rinse skin "
                "or eyes at once with plenty of water. See a doctor for eyes."
            ),
            gettext_lazy(
                "Some oxides and carbonates are poisons, swallowed or breathed; the list below "
                "says which. Gloves, mask, no food in the room, and the supplier’s safety sheet "
                "at hand."
            ),
        ),
    ),
    Chapter(gettext_lazy("The kiln"), kiln.ALL),
    Chapter(
        gettext_lazy("On the table"),
        (
            gettext_lazy(
                "Found metal may be plated, painted, or an alloy nobody knows: never where food or "
                "lips touch, and its fume in the kiln is as unknown."
            ),
            gettext_lazy(
                "No recipe and no sum shows that a pot is fit for food. Release limits for "
                "ceramics stand for lead and cadmium only; a laboratory test of your own ware is "
                "the only proof, and your local law says which one."
            ),
            gettext_lazy(
                "Lemon, vinegar and the dishwasher find a poor glaze; they never prove a good one."
            ),
        ),
    ),
)


@dataclass(frozen=True)
class HazardShown:
    """A group of materials as the page shows it.

    Attributes
    ----------
    name, harm, protection : str
        What, what it does, what to wear.
    firing, release : str
        What comes off in the kiln, and what to have tested; empty where nothing is known.
    limits : list of str
        One for each authority, with where it was read.
    trust : str
        How far the limits may be believed.
    """

    name: str
    harm: str
    protection: str
    firing: str
    release: str
    limits: list[str]
    trust: str


def _known(text: str) -> str:
    return "" if text in {"-", "none", "none in firing", "not a leach concern"} else text


def shown_hazard(hazard: Hazard) -> HazardShown:
    """Put a group of the table into words, each limit with its standing."""
    standings = {limit.standing for limit in hazard.limits}
    return HazardShown(
        name=hazard.materials,
        harm=hazard.harm,
        protection=hazard.protection,
        firing=_known(hazard.firing),
        release=_known(hazard.release_advice).replace("LEACH TEST", _("have tested:")),
        limits=[
            f"{limit.authority} {limit.kind}: {limit.limit} ({limit.source})"
            for limit in hazard.limits
        ],
        trust="general" if standings == {Standing.VERIFIED} else "guess",
    )


@require_safe
def cautions(request: StudioRequest) -> HttpResponse:
    """Show every caution of the program, and the table it rests on."""
    return render(
        request,
        "cautions.html",
        {"chapters": CHAPTERS, "hazards": [shown_hazard(one) for one in all_hazards()]},
    )
