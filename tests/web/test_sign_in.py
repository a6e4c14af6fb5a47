"""Passwords, and where one is sent on."""

import pytest
from signing_in import PASSWORD, is_in, try_password

from wareboard.records.people.models import Attempt

pytestmark = pytest.mark.django_db


@pytest.fixture
def potter(member):
    member.person.set_password(PASSWORD)
    member.person.save()
    return member.person


def test_right_password_opens_the_studio(client, potter):
    reply = try_password(client, potter, PASSWORD)

    assert (reply.status_code, reply.headers["Location"]) == (302, "/")
    assert is_in(client)


@pytest.mark.parametrize(
    "wrong",
    [
        PASSWORD.strip(),
        PASSWORD[:-1],
        PASSWORD + "x",
        PASSWORD.casefold(),
        PASSWORD.replace("ö", "o\u0308"),
        "x",
    ],
)
def test_password_is_compared_exactly_as_typed(client, potter, wrong):
    reply = try_password(client, potter, wrong)

    assert reply.status_code == 422
    assert "do not go together" in reply.content.decode()
    assert not is_in(client)


@pytest.mark.parametrize("length", [72, 73, 200, 1024])
def test_long_password_is_not_cut(client, potter, length):
    long = "ä" * (length - 1) + "!"
    potter.set_password(long)
    potter.save()

    try_password(client, potter, long[:-1])
    assert not is_in(client)

    try_password(client, potter, long)
    assert is_in(client)


def test_password_beyond_all_bounds_is_refused_before_it_is_hashed(client, potter):
    reply = try_password(client, potter, "x" * 2000)

    assert reply.status_code == 422
    assert Attempt.objects.count() == 0


def test_unknown_name_is_told_the_same_as_a_wrong_password(client, potter):
    unknown = client.post("/sign-in/", {"name": "nobody", "password": "x"})
    wrong = try_password(client, potter, "x")

    assert "Name and password do not go together" in unknown.content.decode()
    assert (unknown.status_code, wrong.status_code) == (422, 422)


def test_what_was_typed_as_name_stays_and_the_password_does_not(client, potter):
    page = try_password(client, potter, "a wrong one").content.decode()

    assert potter.username in page
    assert "a wrong one" not in page


def test_person_without_a_password_cannot_come_in_by_one(client, member):
    member.person.set_unusable_password()
    member.person.save()

    replies = [try_password(client, member.person, word) for word in ("", "!", "None")]

    assert {reply.status_code for reply in replies} == {422}


@pytest.mark.parametrize(
    "outside",
    [
        "//evil.example",
        "/\\evil.example",
        "\\\\evil.example",
        "https:evil.example",
        "https://evil.example/",
        "http:///evil.example",
        "javascript:alert(1)",
        " //evil.example",
        "/\t/evil.example",
        "///evil.example",
        "evil.example",
        "",
    ],
)
def test_sign_in_never_leads_outside(client, potter, outside):
    reply = try_password(client, potter, PASSWORD, next=outside)

    assert reply.headers["Location"] == "/"


def test_sign_in_leads_on_to_the_page_that_was_wanted(client, potter):
    wanted = client.get("/status/?open=all").headers["Location"]
    page = client.get(wanted).content.decode()

    reply = try_password(client, potter, PASSWORD, next="/status/?open=all")

    assert wanted == "/sign-in/?next=%2Fstatus%2F%3Fopen%3Dall"
    assert 'value="/status/?open=all"' in page
    assert reply.headers["Location"] == "/status/?open=all"


def test_fragment_is_told_where_to_sign_in(client):
    reply = client.get("/status/", headers={"HX-Request": "true"})

    assert (reply.status_code, reply.headers["HX-Redirect"]) == (401, "/sign-in/?next=%2Fstatus%2F")
