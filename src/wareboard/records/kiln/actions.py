"""What a potter does in the kiln room: each is kept whole or not at all."""

from typing import Any

from wareboard.records.people.entry import keep
from wareboard.records.people.models import Member
from wareboard.records.ware.models import Air


def say_air(member: Member, **facts: Any) -> Air:
    """Keep how the air is today."""
    return keep(Air, member, **facts)
