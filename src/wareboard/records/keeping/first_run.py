"""A new record's studio and its owner."""

from collections.abc import Callable
from pathlib import Path

from django.apps import apps
from django.db import transaction

import wareboard
from wareboard.records.people.entry import Entry
from wareboard.records.people.models import Member, MemberRole, Person, Studio

STUDIO = "studio"
OWNER = "owner"
POTTER = "potter"
DEMO = "demo"


@transaction.atomic
def owner() -> Member:
    """Give the studio's owner; make studio and owner where there is none.

    Nobody is asked for a name: the owner is "the potter" until somebody
    changes it, and has no password until one is wanted for the phones.
    """
    found = (
        Member.objects.select_related("person", "studio")
        .filter(role=MemberRole.OWNER, person__isnull=False, person__is_active=True)
        .order_by("pk")
        .first()
    )
    if found is not None:
        return found
    studio = Studio.objects.order_by("pk").first() or Studio.objects.create(
        id=STUDIO, name="The pottery"
    )
    person = Person.objects.filter(username=POTTER).first() or new_person(POTTER)
    nameless = studio.members.filter(role=MemberRole.OWNER, person__isnull=True).first()
    if nameless is not None:
        nameless.person = person
        nameless.save(update_fields=["person"])
        return nameless
    return Member.objects.create(
        id=OWNER, studio=studio, person=person, name="the potter", role=MemberRole.OWNER
    )


def new_person(name: str) -> Person:
    """Make somebody who can sign in, though not by a password yet."""
    person = Person(username=name)
    person.set_unusable_password()
    person.save()
    return person


def fill_with_demo(*, say: Callable[[str], None]) -> None:
    """Take the demo studio's record in, where nothing was entered yet."""
    studio = owner().studio
    if holds_entries(studio):
        return
    demo = Path(wareboard.__file__).parent / DEMO
    if not demo.is_dir():
        say("This installation has no demo record; the studio starts empty.")
        return
    from .take_in import take_in  # noqa: PLC0415 - loads every table's reader

    take_in(demo, studio)


def holds_entries(studio: Studio) -> bool:
    """Say whether anything was ever entered in a studio."""
    kinds = (model for model in apps.get_models() if issubclass(model, Entry))
    return any(model._base_manager.filter(studio=studio).exists() for model in kinds)
