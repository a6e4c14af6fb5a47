"""What a weighing or a coat was before it was put right, in words."""

from datetime import datetime
from typing import cast

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from wareboard.records.people.shown import Shown, day

from .models import Coat
from .words import WeighingState

WEIGHTS = {
    "before_g": gettext_lazy("%s before the dip"),
    "after_g": gettext_lazy("%s after it"),
    "dried_g": gettext_lazy("%s when dry again"),
}
WORDS = ("side", "extent", "how", "beneath")


def put_right(kept_at: datetime, was: list[str]) -> str:
    """Say when something was put right, and what it was."""
    when = _("put right on %s") % day(kept_at, "j M")
    return _("%(when)s; was %(was)s") % {"when": when, "was": ", ".join(was)} if was else when


def weighing_was(
    now_g: float, now_state: str, was_g: float, was_state: str, shown: Shown
) -> list[str]:
    """Say what differs in a weighing that was put right."""
    was = [shown.mass(was_g)] if was_g != now_g else []
    return was + ([str(WeighingState(was_state).label)] if was_state != now_state else [])


def coat_was(coat: Coat, shown: Shown) -> list[str]:
    """Say what differs in a coat that was put right; the first one at hand with its bucket."""
    wrong = cast("Coat | None", coat.corrects)
    if wrong is None:
        return []
    was = []
    if (wrong.bucket_id, wrong.glaze_id) != (coat.bucket_id, coat.glaze_id):
        from_where = wrong.bucket or wrong.glaze
        was.append(from_where.name if from_where else "")
    was += [
        str(getattr(wrong, f"get_{name}_display")())
        for name in WORDS
        if getattr(wrong, name) != getattr(coat, name)
    ]
    for name, say in WEIGHTS.items():
        weight_g = getattr(wrong, name)
        if weight_g != getattr(coat, name):
            was.append(
                str(say) % (shown.mass(weight_g) if weight_g is not None else _("not weighed"))
            )
    if wrong.seconds != coat.seconds and wrong.seconds is not None:
        was.append(_("%s seconds") % f"{wrong.seconds:g}")
    return was
