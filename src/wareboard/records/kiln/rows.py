"""What the kiln's front page lists: kilns, loads that wait, firings."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from . import spoken
from .bridge import hours_since
from .cone_answer import pack_words, place_words
from .models import ConeReading, Firing, Kiln, Load, Place


def load_name(load: Load) -> str:
    """Give what a load is called: its name, else its day."""
    if load.name:
        return load.name
    return _("load of %s") % date_format(localtime(load.at), "j F")


def kiln_rows(kilns: Sequence[Kiln], places: Mapping[str, Sequence[Place]]) -> list[dict[str, Any]]:
    """Give each kiln with what is known of it in a line.

    Parameters
    ----------
    kilns : sequence of Kiln
        In order.
    places : mapping of str to sequence of Place
        By kiln, from the top.
    """
    rows = []
    for kiln in kilns:
        parts = [str(kiln.get_fuel_display())]
        if kiln.volume_l:
            parts.append(f"{kiln.volume_l:.0f} l")
        if kiln.end_cone:
            parts.append(_("to cone %s") % kiln.end_cone)
        if kiln.pk in places:
            parts.append(" · ".join(place_words(place) for place in places[kiln.pk]))
        rows.append({"kiln": kiln, "more": ", ".join(parts)})
    return rows


def load_rows(loads: Sequence[Load]) -> list[dict[str, Any]]:
    """Give each load that waits with how many pots it has."""
    rows = []
    for load in loads:
        pots = load.pots or 0
        count = ngettext("%(n)d pot", "%(n)d pots", pots) % {"n": pots}
        rows.append({"load": load, "name": load_name(load), "pots": count})
    return rows


def firing_rows(
    firings: Sequence[Firing],
    cones: Mapping[tuple[str, str], Sequence[ConeReading]],
    good: set[str],
) -> list[dict[str, Any]]:
    """Give each firing with its hours and its cones.

    Parameters
    ----------
    firings : sequence of Firing
        With ``shut_at`` and ``opened_at``.
    cones : mapping of (firing, level) to sequence of ConeReading
        As read cold.
    good : set of str
        Which firings are the good ones.
    """
    rows = []
    for firing in firings:
        read = [one for (pk, _level), some in cones.items() if pk == firing.pk for one in some]
        parts = []
        if firing.shut_at:
            parts.append(spoken.long(hours_since(firing.at, firing.shut_at)))
        if read:
            parts.append(pack_words(read, firing.load.kiln.end_cone))
        if firing.weather:
            parts.append(firing.weather)
        rows.append(
            {
                "firing": firing,
                "more": " · ".join(parts),
                "good": firing.pk in good,
                "state": state_of(firing),
            }
        )
    return rows


def state_of(firing: Firing) -> str:
    """Say whether a firing burns, cools, or is over."""
    if firing.opened_at:
        return ""
    return _("cooling") if firing.shut_at else _("burning")


def title_of(firings: Sequence[Firing], loads: Sequence[Load], now: datetime) -> str:
    """Say in one sentence how the kiln room stands.

    Parameters
    ----------
    firings : sequence of Firing
        Newest first, with ``shut_at`` and ``opened_at``.
    loads : sequence of Load
        Those that wait, newest first, with ``pots``.
    now : datetime
        At which moment.
    """
    newest = firings[0] if firings else None
    if newest is not None and newest.opened_at is None:
        if newest.shut_at is not None:
            return _("Firing %d is cooling.") % newest.number
        hours = spoken.long(hours_since(newest.at, now))
        return _("Firing %(n)d is %(hours)s in.") % {"n": newest.number, "hours": hours}
    waiting = [load for load in loads if load.pots]
    if waiting:
        pots = waiting[0].pots or 0
        count = ngettext("%(n)d pot", "%(n)d pots", pots) % {"n": pots}
        name = load_name(waiting[0])
        facts = {"load": name[:1].upper() + name[1:], "pots": count}
        return _("%(load)s waits with %(pots)s.") % facts
    return _("Nothing waits for the kiln.")
