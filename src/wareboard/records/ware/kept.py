"""What was kept, in words: the foot of a page says it while it can be taken back."""

from collections.abc import Sequence
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.records.people.shown import Shown

from .models import BoardWeighing, Coat, Standing, Weighing
from .queries import Doing
from .words import DecorationKind, HopeKind, MarkKind, WeighingState

LABELS: dict[str, Any] = {"decoration": DecorationKind, "mark": MarkKind, "hope": HopeKind}


def _said(what: str, more: str, *, right: bool = False) -> str:
    text = f"{what}, {more}" if more else what
    return (_("Put right: %s.") if right else _("Kept: %s.")) % text


def _on(pots: int) -> str:
    """Say on how many pots, where there are several."""
    return ngettext("on %d pot", "on %d pots", pots) % pots if pots > 1 else ""


def kept_board_weighing(weighing: BoardWeighing, shown: Shown) -> str:
    """Say what a board weighed."""
    return _said(shown.mass(weighing.weight_g), _("plank and all"))


def kept_weighing(weighing: Weighing, shown: Shown) -> str:
    """Say which weight was kept, or put right."""
    state = str(weighing.get_state_display())
    right = weighing.corrects_id is not None
    return _said(shown.mass(weighing.weight_g), state, right=right)


def kept_coat(coat: Coat, *, pots: int = 1) -> str:
    """Say which coat was kept, or put right, and on how many pots the same tap put it."""
    glaze = coat.bucket.glaze if coat.bucket else coat.glaze
    where = _("%(glaze)s %(side)s") % {
        "glaze": glaze.name if glaze else _("a glaze"),
        "side": coat.get_side_display(),
    }
    return _said(where, _on(pots), right=coat.corrects_id is not None)


def kept_doing(one: Doing, shown: Shown, *, pots: int = 1) -> str:
    """Say what else was done to a pot, or to several at one tap.

    Parameters
    ----------
    one : Doing
        What was done.
    shown : Shown
        How this studio reads numbers.
    pots : int
        To how many pots the same tap did it.
    """
    if one.kind == "weighing" and one.weight_g is not None:
        return _said(shown.mass(one.weight_g), str(WeighingState(one.word).label))
    if one.kind == "standing":
        return _said(_("put on %s") % one.more if one.more else _("taken off its board"), "")
    if one.kind == "hope":
        return _said(str(HopeKind(one.word).label), one.more or _("in a spoken note"))
    if one.kind in LABELS:
        words = [str(LABELS[one.kind](one.word).label), one.more, _on(pots)]
        return _said(", ".join(word for word in words if word), "")
    return _said(_("a photo"), "")


def kept_moves(moves: Sequence[Standing], board_id: str) -> str:
    """Say how many pots one tap put on a board, and how many it took off."""
    on = sum(move.board_id == board_id for move in moves)
    off = len(moves) - on
    parts = [ngettext("%d pot put on", "%d pots put on", on) % on] if on else []
    parts += [ngettext("%d pot taken off", "%d pots taken off", off) % off] if off else []
    return _said(", ".join(parts), "")
