"""Today, the front door: what waits in each room, most urgent first, on one screen."""

from pathlib import Path
from typing import Any

from django.conf import settings
from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.safestring import mark_safe
from django.views.decorators.http import require_safe

from wareboard.core.drying import Sign
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.last_backup import last_backup
from wareboard.records.kiln.lighting import CSS, last_weighed, sign_of, urgency
from wareboard.records.kiln.queries import waiting_load
from wareboard.records.people.requests import StudioRequest
from wareboard.records.people.shown import Shown
from wareboard.records.shelf.queries import clock_with_verdicts, newest_and_good_readings
from wareboard.records.ware.drawn import draw_pots, names_of
from wareboard.records.ware.drying import judge_pots

from .today_answer import Question, before, drifted, kiln_clock, running

MOST = 4
ON_PLANK = 6


@require_safe
def today(request: StudioRequest) -> HttpResponse:
    """Show what waits today."""
    member, now = request.member, timezone.now()
    shown = Shown(member.studio)
    firings = clock_with_verdicts(member)
    clock = kiln_clock(firings)
    placings = waiting_load(member)
    newest = firings[0] if firings else None
    question: Question | None = None
    plank: list[dict[str, Any]] = []
    load = placings[0].load if placings else None
    if placings:
        lits, _air, coats = judge_pots(member, [p.pot for p in placings], now)
        question = before(lits, clock, now, shown)
        first = sorted(lits, key=urgency)[:ON_PLANK]
        drawings = draw_pots([lit.pot for lit in first], coats, {})
        names = names_of([placing.pot for placing in placings])
        plank = [
            {
                "pot": lit.pot,
                "name": names[lit.pot.pk],
                "sign": CSS[sign_of(lit)],
                "weighed": last_weighed(lit),
                "drawing": mark_safe(drawings[lit.pot.pk]),  # noqa: S308 - our own drawing, every text in it escaped
            }
            for lit in first
        ]
    if newest is not None and newest.opened_at is None:
        question = running(newest, kiln_clock(firings[1:]), now)
    backup = last_backup(DataFolder(Path(settings.DATA)))
    buckets = drifted(*newest_and_good_readings(member), shown)
    return render(
        request,
        "today.html",
        {
            "question": question,
            "load": load,
            "pots": len(placings),
            "plank": plank,
            "buckets": buckets[:MOST],
            "more_buckets": len(buckets) - MOST,
            "weigh": [one for one in plank if one["sign"] != CSS[Sign.GO]][:MOST],
            "newest": newest,
            "burning": newest is not None and newest.opened_at is None,
            "backup": backup,
            "backup_old": backup is None or backup.same_disk or backup.is_old(now),
        },
    )
