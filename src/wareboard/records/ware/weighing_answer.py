"""What a weighing of a pot means, in sentences."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from wareboard.core.answer import Interval
from wareboard.core.doubt import NORMAL_90
from wareboard.core.drying import NextWeighing, Sign, Standing, beyond_form_g, is_falling
from wareboard.records.people.models import Member
from wareboard.records.people.shown import Shown

from .books import coats_on
from .dry_known import called_dry, damp_said, dry_pots_of_form_g
from .drying import Lit, cautions_said, judge_pots
from .last_weight import last_weight
from .models import Coat, Pot, Weighing
from .words import ON_A_PAN, WeighingState

GAINS_FROM_AIR = 0.04
"""More than a raw pot takes up from damp air, of its weight (common practice)."""

LOSES_DAMP = 0.30
"""More than a freshly thrown or leather-hard pot loses in drying (common practice)."""

LOSES_DRY = 0.15
"""More than a pale pot loses of a coat's water (common practice)."""

LOSES_IN_FIRE = 0.20
"""More than the fire takes beyond that (common practice)."""

COAT_UNWEIGHED = 0.25
"""More than one dip that nobody weighed puts on a pot (common practice)."""

STEPS = 5
"""A difference of so few steps of the scale is none."""

DAMP = {WeighingState.PLASTIC, WeighingState.LEATHER_HARD}
DRY = {WeighingState.SHELF_DRY, WeighingState.BONE_DRY}
CSS = {Sign.GO: "go", Sign.WAIT: "wait", Sign.STOP: "stop", Sign.CANNOT_TELL: "unknown"}


@dataclass(frozen=True)
class WeighingAnswer:
    """What stands where the question was.

    Attributes
    ----------
    say : str
        The sentence.
    working : str
        One line of arithmetic.
    doubt : str
        The span, as (52-60).
    trust : str
        One of the five words.
    sign : str
        Go, wait, stop or unknown, as the style sheet calls them; empty where
        nothing is to be lit yet.
    falling : str
        Whether it still loses weight, in a sentence.
    again : str
        Why to put it on the scale once more; empty where there is no need.
    less : str
        What of the weight is clay, where the day's air is in it; worked out.
    since_dip : bool
        Whether it speaks of a dip that came after the weighing.
    why : list of str
        Sentences behind "why?".
    """

    say: str
    working: str = ""
    doubt: str = ""
    trust: str = ""
    sign: str = ""
    falling: str = ""
    again: str = ""
    less: str = ""
    since_dip: bool = False
    why: list[str] = field(default_factory=list)


def when_said(at: datetime) -> str:
    """Write a time as people say it: the hour, and the day where it is another one."""
    local = timezone.localtime(at)
    if local.date() == timezone.localdate():
        return _("at %s") % date_format(local, "H:i")
    return _("on %s") % date_format(local, "j M, H:i")


def likely_state(
    weighings: Sequence[Weighing], coats: Sequence[Coat], *, lit_at: datetime | None = None
) -> str:
    """Give the state a pot is most likely in, from what was last done; empty where unclear.

    Parameters
    ----------
    weighings : sequence of Weighing
        Newest first.
    coats : sequence of Coat
        In any order.
    lit_at : datetime, optional
        When it was last fired, where it was.

    Notes
    -----
    Bone dry is never offered by itself: it would become the pot's own dry
    weight, and a pot that is not dry would look ready.
    """
    last = weighings[0] if weighings else None
    dipped = max((coat.at for coat in coats), default=None)
    if lit_at is not None and (dipped is None or dipped <= lit_at):
        return WeighingState.FIRED
    if dipped is not None and (last is None or dipped > last.at):
        return WeighingState.GLAZED
    if last is None:
        return WeighingState.LEATHER_HARD
    after = {
        WeighingState.PLASTIC: WeighingState.LEATHER_HARD,
        WeighingState.BEFORE_PROOF: WeighingState.AFTER_PROOF,
        WeighingState.AFTER_PROOF: WeighingState.GLAZED if coats else "",
        WeighingState.BONE_DRY: "",
    }
    state = WeighingState(last.state)
    return str(after.get(state, state))


def states_for(coats: Sequence[Coat]) -> list[tuple[str, str]]:
    """Give the states a pot can be in: a glazed pot is no longer bare clay."""
    bare = DAMP | DRY
    return [
        (state.value, str(state.label))
        for state in WeighingState
        if state not in ON_A_PAN and (not coats or state not in bare)
    ]


def _last_known(
    now: Weighing, weighings: Sequence[Weighing], coats: Sequence[Coat]
) -> tuple[float, datetime, str, bool] | None:
    """Give the last weight before a weighing, its time and state, and if a coat came since."""
    before = [w for w in weighings if w.pk != now.pk and w.at <= now.at]
    known = [(w.weight_g, w.at, w.state) for w in before]
    known += [
        (c.after_g, c.at, WeighingState.GLAZED)
        for c in coats
        if c.after_g is not None and c.at <= now.at
    ]
    if not known:
        return None
    weight_g, at, state = max(known, key=lambda one: one[1])
    coat_since = any(at < c.at <= now.at for c in coats)
    return weight_g, at, str(state), coat_since


def weigh_again(
    now: Weighing, weighings: Sequence[Weighing], coats: Sequence[Coat], shown: Shown
) -> str:
    """Say why a weighing should be repeated; empty where it lies where it should.

    Parameters
    ----------
    now : Weighing
        The one in question.
    weighings : sequence of Weighing
        All of the pot.
    coats : sequence of Coat
        All of the pot.
    shown : Shown
        How this studio reads numbers.
    """
    last = _last_known(now, weighings, coats)
    if last is None:
        return ""
    was_g, at, state, coat_since = last
    step_g = STEPS * shown.studio.scale_step_g
    gains = GAINS_FROM_AIR + (COAT_UNWEIGHED if coat_since else 0.0)
    loses = LOSES_DAMP if state in DAMP else LOSES_DRY
    if now.state == WeighingState.FIRED and state != WeighingState.FIRED:
        loses += LOSES_IN_FIRE
    kept = _("Put it on the scale once more. This weight is kept as it is.")
    difference = shown.mass(abs(now.weight_g - was_g))
    facts = {"g": difference, "when": when_said(at)}
    if now.weight_g > was_g * (1 + gains) + step_g:
        say = _("That is %(g)s more than %(when)s, more than the air puts into a pot.") % facts
        return f"{say} {kept}"
    if now.weight_g < was_g * (1 - loses) - step_g:
        say = _("That is %(g)s less than %(when)s, more than drying takes.") % facts
        return f"{say} {kept}"
    return ""


def _falling(weighings: Sequence[Weighing], coats: Sequence[Coat], shown: Shown) -> str:
    """Say whether a pot lost weight between its last two weighings."""
    dipped = max((coat.at for coat in coats), default=None)
    raw = [w for w in weighings if dipped is None or w.at > dipped]
    if len(raw) < 2:  # noqa: PLR2004 - a fall needs two weighings
        return ""
    now, was = raw[0], raw[1]
    facts = {"g": shown.mass(was.weight_g - now.weight_g), "when": when_said(was.at)}
    if is_falling(was.weight_g, now.weight_g, scale_step_g=shown.studio.scale_step_g):
        return _("Still falling: %(g)s less than %(when)s.") % facts
    return _("No lighter than %(when)s. In damp air that alone proves nothing.") % facts


def _over_dry(lit: Lit, shown: Shown, *, glazed: bool) -> WeighingAnswer | None:
    """Say how far a pot is over its dry weight, where that is known."""
    if lit.answer is None or lit.dry is None:
        return None
    result, own = lit.answer.result, lit.dry.standing is Standing.OWN
    over_g = result.over_dry_g
    if over_g is None:
        return None
    spread = lit.answer.doubt["over_dry_g"]
    facts = {"g": shown.mass(abs(over_g))}
    if result.next_weighing is NextWeighing.AGAIN:
        say = _("%(g)s under its own dry weight: that cannot be.") % facts
    elif round(over_g) <= 0:
        say = _("Nothing over its dry weight.")
    elif own:
        say = _("%(g)s over its dry weight.") % facts
    else:
        say = _("About %(g)s over what its form weighs dry.") % facts
    coat = _(" − %s coat") % shown.mass(lit.coat_g) if lit.coat_g else ""
    now_g = lit.dry.dry_clay_g + lit.coat_g + over_g
    working = _("%(now)s − %(clay)s clay%(coat)s = %(over)s") % {
        "now": shown.mass(now_g),
        "clay": shown.mass(lit.dry.dry_clay_g),
        "coat": coat,
        "over": shown.mass(over_g),
    }
    if result.air_g:
        working += "; " + _("this air explains %s") % shown.mass(result.air_g)
    return WeighingAnswer(
        say=say,
        working=working + ".",
        doubt=shown.span(spread, 1.0, "g"),
        trust="worked-out" if own else "usual",
        sign=CSS[result.sign] if glazed else "",
        why=[*result.reasons, *cautions_said(lit.answer, shown)]
        if glazed
        else list(result.reasons[:1]),
    )


def _bare(now: Weighing, lit: Lit, shown: Shown) -> WeighingAnswer:
    """Say what the weight of an unglazed pot is good for."""
    weight = shown.mass(now.weight_g)
    own = lit.dry is not None and lit.dry.standing is Standing.OWN
    if now.state not in DRY or not own:
        say = _("%s. How wet it is cannot be told yet.") % weight
        working = _("Weigh it once bone dry, before its first coat, and every later one can tell.")
        return WeighingAnswer(say, working, trust="measured")
    working, less = _("Later weighings are held against this one."), ""
    if now.state == WeighingState.SHELF_DRY and lit.dry is not None:
        dry_g, half_g = lit.dry.dry_clay_g, NORMAL_90 * lit.dry.sd_g
        span = shown.span(Interval(dry_g - half_g, dry_g + half_g, "the air and the scale"), 1.0)
        say = _("Without what that day's air left in it, %(g)s %(span)s")
        less = (say % {"g": shown.mass(dry_g), "span": span}).strip()
    return WeighingAnswer(_("%s dry.") % weight, working, trust="measured", less=less)


def _since_dip(now: Weighing, coats: Sequence[Coat], shown: Shown) -> WeighingAnswer:
    """Say what is known of a pot that was dipped after its last weighing."""
    last = last_weight([(now.at, now.weight_g, str(now.get_state_display()))], coats)
    assert last is not None  # noqa: S101 - it was weighed
    tell = _("How wet it is cannot be told before it is weighed again.")
    when = when_said(last.at)
    if last.dipped_since:
        before = last.before_the_dip(shown, when)
        say, working = _("Not weighed since its last dip."), f"{before}. {tell}"
    else:
        words = {"g": shown.mass(last.weight_g), "when": when}
        say, working = _("%(g)s, just dipped, %(when)s.") % words, tell
    return WeighingAnswer(say, working, trust="measured", since_dip=True)


def _plain(now: Weighing, lit: Lit, shown: Shown, *, glazed: bool) -> WeighingAnswer:
    """Say what a weighing is where nothing can be held against it."""
    weight = shown.mass(now.weight_g)
    if now.state == WeighingState.BEFORE_PROOF:
        working = _("Two hours at about 50 °C now, then weigh it again while it is warm.")
        if lit.answer and lit.answer.result.next_weighing is NextWeighing.PROOF_TOGETHER:
            working = _("Your scale is too coarse to prove so small a pot alone.")
        return WeighingAnswer(_("%s before the proof.") % weight, working, trust="measured")
    if not glazed:
        return _bare(now, lit, shown)
    if lit.answer is None:
        working = lit.refused[:1].upper() + lit.refused[1:]
        return WeighingAnswer(f"{weight}.", f"{working}." if working else "", trust="measured")
    result = lit.answer.result
    passed = result.sign is Sign.GO
    say = _("%s. It passed the proof.") if passed else _("%s. How wet it is cannot be told yet.")
    return WeighingAnswer(
        say % weight,
        "" if passed else _("To know: %s.") % result.next_weighing.value,
        trust="measured",
        sign=CSS[result.sign],
        why=[*result.reasons, *cautions_said(lit.answer, shown)],
    )


def heavy_for_dry(member: Member, pot: Pot, entered: Mapping[str, Any]) -> str:
    """Ask whether a pot is dry that weighs far more than the dry pots of its form."""
    if entered["state"] not in DRY:
        return ""
    others_g = dry_pots_of_form_g(pot)
    over_g = beyond_form_g(entered["weight_g"], others_g) if others_g else 0.0
    if not over_g:
        return ""
    shown = Shown(member.studio)
    say = _("%(seen)s is %(over)s more than pots of its form weigh dry: is it dry all through?")
    return say % {"seen": shown.mass(entered["weight_g"]), "over": shown.mass(over_g)}


def _after_the_fire(now: Weighing, fired_at: datetime, shown: Shown) -> WeighingAnswer:
    """Say what a weighing of a pot is that went through the fire: nothing is to be lit any more."""
    weight = shown.mass(now.weight_g)
    if now.state == WeighingState.FIRED:
        return WeighingAnswer(_("%s, fired.") % weight, trust="measured")
    say = _("%s, before it was fired.") if now.at < fired_at else _("%s. It was fired before.")
    return WeighingAnswer(say % weight, trust="measured")


def answer_for(
    member: Member,
    pot: Pot,
    weighings: Sequence[Weighing],
    *,
    lit_at: datetime | None = None,
) -> tuple[WeighingAnswer | None, Sequence[Coat]]:
    """Say what the newest weighing of a pot means.

    Parameters
    ----------
    member : Member
        Who asks.
    pot : Pot
        With its form at hand.
    weighings : sequence of Weighing
        Its weighings, newest first.
    lit_at : datetime, optional
        When a load with it was last lit.

    Returns
    -------
    WeighingAnswer or None, sequence of Coat
        The answer, None where the pot was never weighed, and its coats.
    """
    fires = [w.at for w in weighings if w.state == WeighingState.FIRED]
    fired_at = max([*fires, *([lit_at] if lit_at else [])], default=None)
    if fired_at is not None:
        of_fired = coats_on(member, [pot]).get(pot.pk, ())
        if not weighings:
            return None, of_fired
        now, shown = weighings[0], Shown(member.studio)
        told = _after_the_fire(now, fired_at, shown)
        doubted = now.state == WeighingState.FIRED or now.at < fired_at
        again = weigh_again(now, weighings, of_fired, shown) if doubted else ""
        return replace(told, again=again), of_fired
    lits, _air, by_pot = judge_pots(member, [pot], timezone.now())
    lit, coats = lits[0], by_pot.get(pot.pk, ())
    if not weighings:
        return None, coats
    now, shown = weighings[0], Shown(member.studio)
    glazed = bool(coats) or now.state == WeighingState.GLAZED
    answer = None
    damp = [damp_said(row, before) for row, before in called_dry(weighings) if row == now]
    own = not glazed and now.state in DRY and not damp
    if any(coat.at > now.at for coat in coats):
        answer = _since_dip(now, coats, shown)
    elif not own and now.state != WeighingState.PLASTIC:
        answer = _over_dry(lit, shown, glazed=glazed)
    if answer is None:
        answer = _plain(now, lit, shown, glazed=glazed)
    again = damp[0] if damp else weigh_again(now, weighings, coats, shown)
    falling = "" if again else _falling(weighings, coats, shown)
    return replace(answer, falling=falling, again=again), coats
