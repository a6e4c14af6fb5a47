"""Who asks: person, member and studio found together, in one look."""

from typing import Any

from django.contrib.auth.backends import ModelBackend

from .models import Member, Person


class MemberBackend(ModelBackend):
    """Sign-in by name and password; each later request finds its member at once."""

    def get_user(self, user_id: Any) -> Person | None:
        """Give the person of a session, his membership and studio at hand; one query."""
        member = membership_of(user_id)
        if member is None or member.person is None:
            return None
        member.person.asks_as = member
        return member.person if self.user_can_authenticate(member.person) else None


def membership_of(person_id: Any) -> Member | None:
    """Give the membership of a person, person and studio at hand; one query."""
    memberships = Member.objects.select_related("studio", "person").filter(person_id=person_id)
    return memberships.order_by("pk").first()
