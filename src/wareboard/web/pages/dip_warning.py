"""Before the dip: what the next coat would make of a pot, in sentences."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from wareboard.core.coat import CoatWord, Layer, Place, RunRisk, layer_warning, stack
from wareboard.core.coat.weighed import MUCH_WATER_PERCENT
from wareboard.records.glazes.models import Glaze
from wareboard.records.people.shown import Shown, rounded
from wareboard.records.ware.bridge import WorkedCoat, regions_of
from wareboard.records.ware.models import Coat, Pot
from wareboard.records.ware.words import Extent, Side

from .good_coats import Known, Usual, spread_of

STILL_WET = timedelta(hours=4)
"""How long a face counts as wet where no weighing says otherwise (common practice)."""

FACES = {Side.INSIDE: {Side.INSIDE}, Side.OUTSIDE: {Side.OUTSIDE}}
PLACES = {
    "inside": gettext_lazy("inside"),
    "outside": gettext_lazy("outside"),
    "lip": gettext_lazy("at the lip"),
    "foot": gettext_lazy("at the foot"),
}
ORDINALS = (
    "",
    gettext_lazy("First layer"),
    gettext_lazy("Second layer"),
    gettext_lazy("Third layer"),
    gettext_lazy("Fourth layer"),
    gettext_lazy("Fifth layer"),
)


@dataclass(frozen=True)
class DipWarning:
    """What stands above the scale before the dip.

    Attributes
    ----------
    say : str
        The sentence.
    doubt : str
        The span of its millimetres.
    working : str
        The sum of the layers.
    trust : str
        One of the five words; empty where nothing is reckoned.
    n : int
        How many good coats the usual thickness rests on.
    cautions : tuple of str
        Where loss is real.
    over_mm : float
        How far beyond its limit the worst place may be [mm]; to find the
        worst pot of a board.
    layered : bool
        Whether its millimetres are of what lies on this very pot.
    """

    say: str
    doubt: str = ""
    working: str = ""
    trust: str = ""
    n: int = 0
    cautions: tuple[str, ...] = ()
    over_mm: float = 0.0
    layered: bool = False


@dataclass(frozen=True)
class Planned:
    """The coat that is about to go on."""

    glaze: Glaze
    side: str
    extent: str

    def as_coat(self) -> Coat:
        """Give it as a coat that nobody keeps."""
        return Coat(side=self.side, extent=self.extent)


def _glaze_of(coat: Coat) -> Glaze | None:
    return coat.bucket.glaze if coat.bucket else coat.glaze


def first_to_run(glazes: Sequence[Glaze | None]) -> Glaze | None:
    """Of some glazes on each other, give the one that runs first, if any is known to run."""
    running = [g for g in glazes if g is not None and g.runs_above_mm is not None]
    return min(running, key=lambda glaze: glaze.runs_above_mm or 0.0, default=None)


def _half(one: WorkedCoat) -> float:
    if one.answer is None:
        return 0.0
    spread = one.answer.doubt["coat_mm"]
    return (spread.high - spread.low) / 2


def _worst_place(there: Sequence[WorkedCoat], planned: Planned, usual: Usual) -> Place:
    """Give the thickest of the places that the planned coat covers."""
    regions = regions_of(planned.as_coat())
    layers = [
        Layer(one.thickness_mm, _half(one), regions_of(one.coat) & regions)
        for one in there
        if one.thickness_mm is not None and regions_of(one.coat) & regions
    ]
    layers.append(Layer(usual.mm, usual.half_mm, regions))
    places = stack(layers).result.places
    return max(places, key=lambda place: (place.total_mm, place.region == "lip"))


def _named(one: WorkedCoat, shown: Shown) -> str:
    """Say how much of a coat lies there: how thick, or how heavy where the form is not drawn."""
    glaze, much = _glaze_of(one.coat), _("not weighed")
    if one.told_mm is not None:
        much = shown.thickness(one.told_mm)
    elif one.answer is not None:
        much = shown.mass(one.answer.result.coat_g)
    name = glaze.name if glaze else _("a glaze")
    return f"{name} {one.coat.get_side_display()} {much}"


def _unknown(
    there: Sequence[WorkedCoat], planned: Planned, usual: Usual, shown: Shown
) -> DipWarning:
    """Say what lies there, where the next coat cannot be reckoned."""
    regions = regions_of(planned.as_coat())
    under = [one for one in there if regions_of(one.coat) & regions]
    say = _("How thick this one comes out cannot be told: %s.")
    now = ", ".join(_named(one, shown) for one in under)
    working = _("There now: %s.") % now if under else ""
    cautions: tuple[str, ...] = ()
    limit = first_to_run([planned.glaze, *(_glaze_of(one.coat) for one in under)])
    most = sum(one.thickness_mm or 0.0 for one in under)
    if limit is not None and limit.runs_above_mm is not None and under:
        facts = {"glaze": limit.name, "mm": shown.thickness(limit.runs_above_mm)}
        if most > 0:
            cautions = (_("%(glaze)s runs above %(mm)s, all layers together.") % facts,)
    why = usual.why_unknown(planned.glaze)
    return DipWarning(say % why, working=working, cautions=cautions)


def warn(pot: Pot, known: Known, planned: Planned, shown: Shown) -> DipWarning:
    """Say what one more coat would make of the thickest place of a pot.

    Parameters
    ----------
    pot : Pot
        Which pot.
    known : Known
        From :func:`gather`.
    planned : Planned
        The coat that is about to go on.
    shown : Shown
        How this studio reads numbers.
    """
    there, usual = known.coats.get(pot.pk, ()), known.usual
    if not usual.good_mm:
        return _unknown(there, planned, usual, shown)
    place = _worst_place(there, planned, usual)
    under = [one for one in there if place.region in regions_of(one.coat)]
    number = len(under) + 1
    half = (place.high_mm - place.low_mm) / 2
    limit = first_to_run([planned.glaze, *(_glaze_of(one.coat) for one in under)])
    answer = layer_warning(
        place.total_mm,
        doubt_mm=half,
        good_mm=usual.good_mm,
        runs_above_mm=limit.runs_above_mm if limit else None,
        foot_gap_mm=pot.foot_gap_mm,
    ).result
    facts: dict[str, Any] = {
        "nth": ORDINALS[number] if number < len(ORDINALS) else _("Layer %d") % number,
        "where": PLACES[place.region],
        "mm": shown.thickness(place.total_mm),
        "glaze": planned.glaze.name,
        "runs": limit.name if limit else "",
        "limit": f"{limit.runs_above_mm:g} mm" if limit else "",
    }
    this_one = _("this one %s") % shown.thickness(usual.mm)
    sum_of = " + ".join([*(_named(one, shown) for one in under), this_one])
    cautions = []
    if answer.run is RunRisk.MAY_RUN:
        cautions.append(_("%(runs)s runs above %(limit)s, so this may run.") % facts)
    elif answer.run is RunRisk.CLOSE:
        cautions.append(_("Close to the %(limit)s above which %(runs)s runs.") % facts)
    elif answer.word is CoatWord.THICK and number > 1:
        facts["high"] = shown.thickness(usual.good_mm[-1])
        cautions.append(
            _("Thick: good %(glaze)s coats had up to %(high)s. A thick lip may crawl.") % facts
        )
    if cautions and pot.foot_gap_mm is not None and answer.run is RunRisk.MAY_RUN:
        cautions[0] += " " + _("The bare foot is %s mm.") % f"{pot.foot_gap_mm:g}"
    if any(one.thickness_mm is None for one in under):
        cautions.append(_("One layer there was never weighed, so it is more than that."))
    first = number == 1
    if any(one.told_mm is None and one.thickness_mm is not None for one in under):
        say = _("%(nth)s %(where)s. How thick that gets is not known: the form is not drawn.")
        return DipWarning(
            say=say % facts,
            working=_("There now: %s.") % ", ".join(_named(one, shown) for one in under),
            cautions=tuple(cautions),
            over_mm=answer.over_limit_mm if answer.over_limit_mm is not None else -1.0,
        )
    return DipWarning(
        say=usual.say(planned.glaze) if first else _("%(nth)s %(where)s: about %(mm)s") % facts,
        doubt="" if first else spread_of(place.low_mm, place.high_mm),
        working=usual.counts if first else f"{sum_of}.",
        trust="usual",
        n=len(usual.good_mm),
        cautions=tuple(cautions),
        over_mm=answer.over_limit_mm if answer.over_limit_mm is not None else -1.0,
        layered=not first,
    )


def water_caution(
    known: Known, pot: Pot, planned: Planned, now: datetime, *, dried_g: float = 0.0
) -> str:
    """Say where both faces would be wet at once with more water than a wall bears.

    Parameters
    ----------
    known : Known
        From :func:`gather`.
    pot : Pot
        Which pot.
    planned : Planned
        The coat that is about to go on.
    now : datetime
        This moment.
    dried_g : float
        What it lost since its last coat, by the scale [g].
    """
    if planned.extent not in {Extent.WHOLE, Extent.BELOW_LIP}:
        return ""
    both = {Side.INSIDE, Side.OUTSIDE}
    wet, faces = 0.0, set(FACES.get(Side(planned.side), both))
    for one in known.coats.get(pot.pk, ()):
        if one.answer is None or now - one.coat.at > STILL_WET:
            continue
        wet += one.answer.result.water_percent_of_pot
        faces |= FACES.get(Side(one.coat.side), both)
        if one.coat.before_g:
            wet -= 100.0 * dried_g / one.coat.before_g
            dried_g = 0.0
    wet = max(wet, 0.0)
    more = known.usual.water_percent or 0.0
    if faces != both or wet + more < MUCH_WATER_PERCENT:
        return ""
    facts = {"wet": rounded(wet, 1), "more": rounded(more, 1)}
    if not wet:
        return (
            _(
                "Both faces at once: about %(more)s %% of the pot in water. Support the wall and "
                "keep off the handle."
            )
            % facts
        )
    return (
        _(
            "Both faces wet at once: %(wet)s %% of the pot in water from before, about %(more)s %% "
            "more now. Let it turn pale first, or support the wall and keep off the handle."
        )
        % facts
    )


@dataclass(frozen=True)
class Board:
    """What a coat would make of all pots of a board.

    Attributes
    ----------
    worst : DipWarning
        Of the pot that is worst off.
    pot : Pot
        Which pot that is.
    risky : int
        How many pots have a caution.
    water : str
        The worst caution about water; empty where there is none.
    """

    worst: DipWarning
    pot: Pot
    risky: int
    water: str = field(default="")


def warn_board(
    pots: Sequence[Pot], known: Known, planned: Planned, shown: Shown, now: datetime
) -> Board:
    """Say what one more coat would make of the pot of a board that is worst off."""
    told = [(warn(pot, known, planned, shown), pot) for pot in pots]
    worst, pot = max(told, key=lambda one: (bool(one[0].cautions), one[0].over_mm))
    waters = [water_caution(known, one, planned, now) for one in pots]
    return Board(
        worst,
        pot,
        sum(bool(warning.cautions) for warning, _pot in told),
        next((water for water in waters if water), ""),
    )
