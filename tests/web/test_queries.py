"""No page asks the database more than a dozen questions, however long the record is.

Every page is looked at in two made-up records, one four times the other, and
has to ask as often in both. The pages come from the resolver: a new one is
counted as soon as it has an address. What it shows is an example out of the
record, so an address that names something new needs one (``Examples`` in
``benchmarks/decade/addresses.py``).
"""

import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.db import transaction
from joining import join

BENCHMARKS = str(Path(__file__).parents[2] / "benchmarks")
sys.path.insert(0, BENCHMARKS)

from decade.addresses import NO_PAGE, routes  # noqa: E402 - benchmarks are not installed
from decade.counting import Counted, count_all  # noqa: E402 - as above
from decade.size import Size  # noqa: E402 - as above
from decade.telling import tell  # noqa: E402 - as above

sys.path.remove(BENCHMARKS)

pytestmark = pytest.mark.django_db

MOST = 12
MANY_MORE = 40
# A comparison of thousands of pots may ask more often, though never once a pot.
MAY_ASK_MORE = {"shelf/what-changed/"}
NO_GET = 405
SMALL = Size(
    pots=200,
    firings=3,
    log_lines=30,
    materials=14,
    lots=30,
    glazes=5,
    batches=8,
    buckets=6,
    forms=4,
)
LARGE = Size(
    pots=800, firings=12, log_lines=90, materials=30, lots=90, glazes=12, batches=72, buckets=24
)
ROUTES = sorted(route for route in set(routes()) if not route.startswith(tuple(NO_PAGE)))


def looked_at(size: Size, originals: Path) -> list[Counted]:
    """Look at every page of a record that is gone again afterwards."""
    from wareboard.records.people.models import Studio  # noqa: PLC0415 - needs Django set up

    with transaction.atomic():
        studio = Studio.objects.create(id="made-up", name="Made up", time_zone="UTC")
        member = join(studio, "ann")
        tell(member, size, datetime.now(UTC), originals=originals).keep()
        found = count_all(member, warm=False)
        transaction.set_rollback(True)
    return found


@pytest.fixture(scope="module")
def counted(django_db_setup, django_db_blocker, tmp_path_factory) -> dict[str, list[list[Counted]]]:
    """For each route what was counted in the small record and in the large one."""
    originals = tmp_path_factory.mktemp("originals")
    with django_db_blocker.unblock():
        both = [looked_at(size, originals) for size in (SMALL, LARGE)]
    return {
        route: [[one for one in found if one.route.split("?")[0] == route] for found in both]
        for route in ROUTES
    }


def test_every_address_was_looked_at(counted):
    assert [route for route, (small, large) in counted.items() if not small or not large] == []


@pytest.mark.parametrize("route", ROUTES)
def test_a_page_asks_as_often_of_a_long_record_as_of_a_short_one(counted, route):
    small, large = counted[route]

    if small[0].status == NO_GET:
        pytest.skip("it takes no GET")
    more = [
        f"{b.path}: {a.queries}, then {b.queries}"
        for a, b in zip(small, large, strict=True)
        if b.queries > a.queries and route not in MAY_ASK_MORE
    ]
    assert [one.status for one in (*small, *large)] == [200] * len(small + large)
    assert more == []
    assert max(one.queries for one in large) <= (MANY_MORE if route in MAY_ASK_MORE else MOST)
