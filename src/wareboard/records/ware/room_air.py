"""The air a pot stands in: what was said of it, day by day."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from wareboard.core.drying import Air as CoreAir
from wareboard.core.drying import air_by_hygrometer, air_by_word
from wareboard.core.errors import CoreError
from wareboard.records.people.models import Member

from .models import Air

AIR_LASTS = timedelta(hours=24)
"""How long one tap on the air counts (common practice)."""


def core_air(air: Air) -> CoreAir:
    """Turn the day's air into what the core knows of it."""
    if air.rh_percent is None:
        return air_by_word(air.word)
    try:
        return air_by_hygrometer(air.rh_percent)
    except CoreError:
        # An instrument that shows what no room has is not believed; the word is.
        return air_by_word(air.word)


def airs_until(member: Member, when: datetime, *, since: datetime | None = None) -> list[Air]:
    """Give what was said of the air, newest first; all of it, or what counted since a time."""
    airs = Air.objects.seen_by(member).filter(at__lte=when)
    if since is not None:
        airs = airs.filter(at__gte=since - AIR_LASTS)
    return list(airs.order_by("-at")[:400])


def air_at(airs: Sequence[Air], when: datetime) -> Air | None:
    """Give the air that was said within the day before an instant."""
    return next((a for a in airs if a.at <= when and when - a.at <= AIR_LASTS), None)
