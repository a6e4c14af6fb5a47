"""People who join a studio, for tests that need more than one."""


def join(studio, name: str, role: str = "owner"):
    """Give a studio a member who can sign in."""
    from wareboard.records.people.models import Member, Person  # noqa: PLC0415 - needs Django set up

    person = Person.objects.create_user(username=f"{name} of {studio.pk}")
    return Member.objects.create(
        id=f"{name}-of-{studio.pk}", studio=studio, person=person, name=name, role=role
    )
