"""Every answer carries the headers that keep a page to itself."""

import pytest
from django.urls import URLPattern, get_resolver

from wareboard.web import headers
from wareboard.web.limits import LARGEST_BODY_BYTES

OPEN_TO_STRANGERS = {
    "wareboard.web.sign_in.views.sign_in",
    "wareboard.web.sign_in.views.use_key",
    "wareboard.web.sign_in.views.health",
}
EXAMPLES = {"slug": "none", "str": "none", "int": "1", "uuid": "0" * 32, "path": "none"}


def patterns(resolver=None, prefix=""):
    """Give every address of the program, with something made up in place of its parts."""
    for found in (resolver or get_resolver()).url_patterns:
        route = prefix + str(found.pattern)
        if isinstance(found, URLPattern):
            yield route, found
        else:
            yield from patterns(found, route)


def callback_name(found: URLPattern) -> str:
    return f"{found.callback.__module__}.{found.callback.__qualname__}"


ALL = sorted({callback_name(found): (route, found) for route, found in patterns()}.items())


def address(route: str, found: URLPattern) -> str:
    """Make an address that the pattern takes."""
    converters = found.pattern.converters
    if not converters and found.pattern.regex.groups:
        return "/pictures/none/small/"
    for name, converter in converters.items():
        kind = type(converter).__name__.removesuffix("Converter").lower().replace("string", "str")
        for spelled in (f"<{kind}:{name}>", f"<{name}>"):
            route = route.replace(spelled, EXAMPLES.get(kind, "none"))
    return f"/{route}"


@pytest.mark.django_db
@pytest.mark.parametrize("case", [case for _, case in ALL], ids=[name for name, _ in ALL])
def test_every_address_sends_the_headers(client, case):
    reply = client.get(address(*case))

    assert {name: reply.headers.get(name) for name in headers.COMPANIONS} == headers.COMPANIONS
    assert "no-store" in reply.headers["Cache-Control"]


@pytest.mark.django_db
@pytest.mark.parametrize("case", ALL, ids=[name for name, _ in ALL])
@pytest.mark.parametrize("method", ["get", "post"])
def test_strangers_are_sent_to_the_sign_in_page(client, case, method):
    name, (route, found) = case
    if name in OPEN_TO_STRANGERS:
        pytest.skip("open to strangers, and tested by itself")

    reply = getattr(client, method)(address(route, found))

    assert reply.status_code == 302
    assert reply.headers["Location"].startswith("/sign-in/?next=")


def test_nothing_else_is_open_to_strangers():
    marked = {
        name for name, (_, found) in ALL if getattr(found.callback, "open_to_strangers", False)
    }

    assert marked == OPEN_TO_STRANGERS


def test_refusal_of_a_host_carries_the_headers_too(client):
    reply = client.get("/health/", headers={"host": "evil.example"})

    assert {name: reply.headers.get(name) for name in headers.COMPANIONS} == headers.COMPANIONS


def test_policy_lets_no_page_frame_or_script_this_one():
    parts = dict(part.split(" ", 1) for part in headers.POLICY.split("; "))

    assert (parts["default-src"], parts["frame-ancestors"]) == ("'none'", "'none'")
    assert "unsafe" not in headers.POLICY


@pytest.mark.parametrize("length", [str(LARGEST_BODY_BYTES + 1), "9" * 30, "-1", "1e3", "x"])
def test_body_that_announces_too_much_is_refused_unread(client, length):
    reply = client.generic("POST", "/sign-in/", b"", CONTENT_LENGTH=length)

    assert reply.status_code == 413


@pytest.mark.django_db
def test_page_that_is_not_there_says_so_in_a_sentence(client):
    reply = client.get("/no/such/page/")

    assert reply.status_code == 404
    assert "There is no such page" in reply.content.decode()
    assert "/no/such/page/" not in reply.content.decode()


@pytest.mark.django_db
def test_form_from_a_foreign_page_is_refused():
    from django.test import Client  # noqa: PLC0415 - the only client that checks forms

    strict = Client(enforce_csrf_checks=True, headers={"host": "localhost"})
    strict.get("/sign-in/")

    replies = [
        strict.post("/sign-in/", {"name": "potter", "password": "x"}, headers=sent)
        for sent in ({}, {"origin": "null"}, {"origin": "http://evil.example"})
    ]

    assert [reply.status_code for reply in replies] == [403, 403, 403]
    assert "Reload the page" in replies[0].content.decode()
