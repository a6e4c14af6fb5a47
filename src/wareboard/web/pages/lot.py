"""One bag, sack or jar: what it is made of, and every batch it went into."""

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from wareboard.records.glazes.queries import batch_lines_from
from wareboard.records.people.paging import cut
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown, day
from wareboard.records.stores import queries
from wareboard.records.stores.bridge import Sheets
from wareboard.records.stores.models import Lot

from .material import caution_line, undo_of
from .sheet_answer import known_of


def opened(lot: Lot) -> str:
    """Say when a lot was opened, and how that is known."""
    if lot.remembered:
        how = {"day": day(lot.at), "how": lot.remembered}
        return _("Opened %(day)s, remembered: %(how)s.") % how
    return _("Opened %s.") % day(lot.at)


@require_safe
def lot_page(request: StudioRequest, lot_id: str) -> HttpResponse:
    """Show a lot."""
    member = request.member
    shown = Shown(member.studio)
    lot = get_object_or_404(queries.lots_for(member), pk=lot_id)
    sheets = Sheets([lot.material])
    sheet, own = sheets.sheet_for(lot.material, lot), sheets.own_of(lot)
    lines = cut(
        batch_lines_from(member, lot),
        by="batch__at",
        after=request.GET.get("after", ""),
        newest_first=True,
    )
    counts = queries.counts_of(member, lot)
    left = ""
    if counts:
        left = _("%(left)s left on %(day)s.") % {
            "left": shown.mass(counts[0].left_g),
            "day": day(counts[0].at, "j F"),
        }
    return render(
        request,
        "stores/lot.html",
        {
            "lot": lot,
            "opened": opened(lot),
            "left": left,
            "own": own is not None,
            "caution": caution_line(lot.material),
            "known": known_of(lot.material, lot, sheet, own=own is not None),
            "batches": [
                {
                    "batch": line.batch,
                    "name": str(line.batch),
                    "grams": Shown.weighed(line.weighed_g) if line.weighed_g is not None else "",
                }
                for line in lines.rows
            ],
            "more": lines.more,
            "counts": [{"left": shown.mass(c.left_g), "at": c.at} for c in counts],
            "undo": undo_of([*counts[:1], *([own] if own else []), lot]),
        },
    )
