"""A whole board on the scale: how much water it holds, and whether it still falls."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.core.doubt import NORMAL_90
from wareboard.core.drying import is_falling
from wareboard.core.drying.dry_weight import SCALE_SD
from wareboard.records.people.models import Member
from wareboard.records.people.shown import Shown

from .books import coats_of, work_out_all
from .dry_known import own_dry
from .drying import coat_on, weighings_until
from .models import Board, BoardWeighing, Pot
from .planks import numbered
from .queries import pot_ids_on
from .room_air import airs_until
from .weighing_answer import when_said

NAMED = 3


@dataclass(frozen=True)
class BoardAnswer:
    """What stands where the question was.

    Attributes
    ----------
    say : str
        The sentence.
    working : str
        One line of arithmetic.
    doubt : str
        The span.
    trust : str
        One of the five words.
    falling : str
        Whether it still loses weight, and what that is worth.
    why : list of str
        Sentences behind "why?".
    """

    say: str
    working: str = ""
    doubt: str = ""
    trust: str = ""
    falling: str = ""
    why: tuple[str, ...] = ()


def _falling(
    board: Board,
    pots: Sequence[Pot],
    rows: Sequence[BoardWeighing],
    dips: Sequence[datetime],
    shown: Shown,
) -> str:
    """Say whether a board lost weight between its last two weighings."""
    if len(rows) < 2:  # noqa: PLR2004 - a fall needs two weighings
        return _("Weigh it again in an hour or two, and it can be said whether it still falls.")
    now, was = rows[0], rows[1]
    facts = {"g": shown.mass(was.weight_g - now.weight_g), "when": when_said(was.at)}
    if pot_ids_on(board, was.at) != {pot.pk for pot in pots}:
        say = _("Other pots stood on it %(when)s: whether it falls cannot be told yet.")
        return say % facts
    if any(was.at < at <= now.at for at in dips):
        return _("Weighed %(when)s and dipped since: whether it falls cannot be told.") % facts
    if is_falling(was.weight_g, now.weight_g, scale_step_g=shown.studio.scale_step_g):
        return _("Still falling: %(g)s less than %(when)s. A falling board is never a go.") % facts
    return (
        _("No lighter than %(when)s. That says nothing of each pot: one wet casserole hides ")
        + _("among six dry bowls. Weigh them by name before you light.")
    ) % facts


def _listed(names: Sequence[str]) -> str:
    """Name a few, and say how many more there are."""
    first = list(names[:NAMED])
    if len(names) > NAMED:
        return _("%(first)s and %(n)d more") % {
            "first": ", ".join(first),
            "n": len(names) - NAMED,
        }
    return (
        _("%(first)s and %(last)s")
        % {
            "first": ", ".join(first[:-1]),
            "last": first[-1],
        }
        if len(first) > 1
        else first[0]
    )


def _since_then(
    board: Board, pots: Sequence[Pot], last: BoardWeighing, dips: Sequence[datetime]
) -> str:
    """Say what is otherwise than when a board was weighed; empty where nothing is."""
    then = pot_ids_on(board, last.at)
    if then != {pot.pk for pot in pots}:
        if len(then) == len(pots):
            return _("with other pots on it than now")
        with_n = ngettext("with %d pot on it", "with %d pots on it", len(then)) % len(then)
        return _("%(then)s, %(now)d now") % {"then": with_n, "now": len(pots)}
    return _("and was dipped since") if any(at > last.at for at in dips) else ""


def board_weight(
    board: Board,
    pots: Sequence[Pot],
    last: BoardWeighing,
    dips: Sequence[datetime],
    shown: Shown,
) -> str:
    """Say what a board weighed last, and what is otherwise now."""
    say = _("%(g)s, plank and all, %(when)s") % {
        "g": shown.mass(last.weight_g),
        "when": when_said(last.at),
    }
    since = _since_then(board, pots, last, dips)
    return f"{say}, {since}: " + _("weigh it again.") if since else f"{say}."


def board_answer(
    member: Member, board: Board, pots: Sequence[Pot], rows: Sequence[BoardWeighing]
) -> BoardAnswer | None:
    """Say what the newest weighing of a board means; None where it was never weighed.

    Parameters
    ----------
    member : Member
        Who asks.
    board : Board
        The plank.
    pots : sequence of Pot
        What stands on it now.
    rows : sequence of BoardWeighing
        Its weighings, newest first.
    """
    if not rows:
        return None
    now, shown = rows[0], Shown(member.studio)
    step_g = member.studio.scale_step_g
    coats = coats_of(member, [pot.pk for pot in pots])
    dips = [coat.at for found in coats.values() for coat in found]
    weight = shown.mass(now.weight_g)
    since = _since_then(board, pots, now, dips)
    if since:
        working = _("It was %(g)s %(when)s, %(since)s.")
        facts = {"g": weight, "when": when_said(now.at), "since": since}
        return BoardAnswer(_("Weigh it again."), working % facts, trust="measured")
    if not pots:
        return BoardAnswer(_("%s, with nothing on it.") % weight, trust="measured")
    falling = _falling(board, pots, rows, dips, shown)
    if board.tare_g is None:
        why = (_("What the empty plank weighs is not known: say it once, below."),)
        return BoardAnswer(_("%s, plank and all.") % weight, "", "", "measured", falling, why)
    weighings, airs = weighings_until(pots, now.at), airs_until(member, now.at)
    worked = work_out_all(member, coats, with_area=False, with_batches=False)
    dry = {pot.pk: own_dry(weighings[pot.pk], coats.get(pot.pk, ()), airs, step_g) for pot in pots}
    names = numbered(pots)
    unknown = [names[key] for key, found in dry.items() if found is None]
    if unknown:
        say = _("%s. How wet it is cannot be told.") % shown.mass(now.weight_g - board.tare_g)
        working = _("Never weighed dry: %s.") % _listed(unknown)
        return BoardAnswer(say, working, "", "measured", falling)
    known = [found for found in dry.values() if found is not None]
    glaze = [coat_on(worked.get(pot.pk, ())) for pot in pots]
    clay_g, coat_g = math.fsum(d.dry_clay_g for d in known), math.fsum(g for g, _sd in glaze)
    over_g = now.weight_g - board.tare_g - clay_g - coat_g
    variance = math.fsum(d.sd_g**2 for d in known) + math.fsum(sd**2 for _g, sd in glaze)
    half_g = NORMAL_90 * math.sqrt(variance + 2 * (SCALE_SD * step_g) ** 2)
    ends = [shown.mass(max(end, 0.0)) for end in (over_g - half_g, over_g + half_g)]
    working = _("%(all)s − %(plank)s plank − %(clay)s dry clay%(coat)s = %(over)s.") % {
        "all": weight,
        "plank": shown.mass(board.tare_g),
        "clay": shown.mass(clay_g),
        "coat": _(" − %s coats") % shown.mass(coat_g) if coat_g else "",
        "over": shown.mass(over_g),
    }
    return BoardAnswer(
        say=_("%s of water over dry.") % shown.mass(max(over_g, 0.0)),
        working=working,
        doubt=f"({ends[0]}–{ends[1]})",
        trust="worked-out",
        falling=falling,
        why=(
            _("Each pot's own dry weight and its coats are taken off; what is left is water."),
            _("Part of it is the air's: in damp air dry clay keeps one to three per cent."),
        ),
    )
