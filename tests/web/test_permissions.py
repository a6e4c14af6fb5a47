"""Nobody in from the first day: every address is listed here, with who may ask.

The list is held against the resolver itself: a new address fails until
somebody has thought about it.
"""

import pytest
from addresses import example, patterns

OPEN_TO_STRANGERS = {"sign-in/", "sign-in/<str:key>/", "health/"}


ROUTES = sorted(route for route, _pattern in patterns())


def test_the_open_doors_are_the_ones_we_mean():
    marked = {
        route for route, entry in patterns() if getattr(entry.callback, "open_to_strangers", False)
    }

    assert marked == OPEN_TO_STRANGERS


@pytest.mark.parametrize("method", ["get", "post", "put", "delete"])
@pytest.mark.parametrize("route", [r for r in ROUTES if r not in OPEN_TO_STRANGERS])
def test_a_stranger_is_sent_to_the_door(client, db, route, method):
    reply = getattr(client, method)(example(route))

    assert reply.status_code == 302
    assert reply.headers["Location"].startswith("/sign-in/")


@pytest.mark.parametrize("route", [r for r in ROUTES if r != "sign-in/<str:key>/"])
def test_no_address_answers_a_get_with_a_fault(demo_client, route):
    reply = demo_client.get(example(route))

    assert reply.status_code in {200, 302, 404, 405, 409, 410, 415}


@pytest.mark.parametrize("route", [r for r in ROUTES if r not in OPEN_TO_STRANGERS])
def test_a_reader_changes_nothing(client, reader, route):
    if route == "sign-out/" or route.startswith("sign-in/"):
        pytest.skip("what is a reader's own, he may change")
    client.force_login(reader.person)

    assert client.post(example(route)).status_code in {403, 405}
