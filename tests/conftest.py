"""What tests of the record and its pages stand on.

The demo studio is taken in once for the whole run; a test's own studio is a
second one beside it, so each page is also tried with somebody else's data
present.
"""

from pathlib import Path

import pytest
from joining import join

QUIET = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
DEMO = Path(__file__).parent.parent / "src" / "wareboard" / "demo"


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup, django_db_blocker):
    """Take the demo studio in, like anybody's data."""
    from wareboard.records.keeping.take_in import take_in  # noqa: PLC0415 - needs Django set up

    with django_db_blocker.unblock():
        take_in(DEMO, None)


@pytest.fixture
def client():
    """A browser that calls this machine by its own name, as a studio's does."""
    from django.test import Client  # noqa: PLC0415 - as above

    return Client(headers={"host": "localhost"})


@pytest.fixture
def reader(demo):
    """Somebody who may read the demo studio's record, and no more."""
    return join(demo, "reader", role="reader")


@pytest.fixture
def studio(db):
    """A studio of its own, with nothing in it."""
    from wareboard.records.people.models import Studio  # noqa: PLC0415 - as above

    return Studio.objects.create(id="test-studio", name="Test studio", time_zone="Europe/London")


@pytest.fixture
def member(studio):
    """Its owner."""
    return join(studio, "ann")


@pytest.fixture
def signed_in(client, member):
    """A browser of its owner."""
    client.force_login(member.person)
    return client


@pytest.fixture
def demo(db):
    """The demo studio."""
    from wareboard.records.people.models import Studio  # noqa: PLC0415 - as above

    return Studio.objects.get(pk="culverhythe")


@pytest.fixture
def demo_member(demo):
    """A potter of the demo studio."""
    return join(demo, "bea")


@pytest.fixture
def demo_client(client, demo_member):
    """A browser of that potter."""
    client.force_login(demo_member.person)
    return client


@pytest.fixture
def stranger(db, client):
    """A browser of somebody from another studio."""
    from wareboard.records.people.models import Studio  # noqa: PLC0415 - as above

    other = Studio.objects.create(id="other-studio", name="Other studio", time_zone="UTC")
    client.force_login(join(other, "eve").person)
    return client


@pytest.fixture
def form(member):
    """A cylinder whose outside is π dm²."""
    from ware_samples import cylinder  # noqa: PLC0415 - needs Django set up

    return cylinder(member)


@pytest.fixture
def pot(member, form):
    """A pot of that form, made a week ago."""
    from ware_samples import pot_of  # noqa: PLC0415 - as above

    return pot_of(member, form)


@pytest.fixture
def bucket(member):
    """A bucket of Limpet at SG 1.5, its bottle weighed a month ago."""
    from ware_samples import bucket_of  # noqa: PLC0415 - as above

    return bucket_of(member)


@pytest.fixture(scope="session")
def browser():
    """The one Chromium of a test run; two at once do not get along in one process."""
    from find_browser import find  # noqa: PLC0415 - the tool that `make test` uses too
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - slow, only for journeys

    path = find()
    assert path, "no Chromium was found: run `python tools/find_browser.py --install`"
    with sync_playwright() as running:
        chromium = running.chromium.launch(executable_path=path, args=QUIET)
        yield chromium
        chromium.close()
