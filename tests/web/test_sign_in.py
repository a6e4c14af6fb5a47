"""Coming in and going out: one-time keys, passwords, guessing, and where one is sent on."""

from datetime import timedelta

import pytest
from django.contrib.auth.models import AnonymousUser
from django.contrib.sessions.models import Session
from django.test import Client
from django.utils import timezone

from wareboard.records.people import attempts, keys
from wareboard.records.people.models import Attempt, Member, Person, SignInKey

PASSWORD = "  drei Töpfe, trocken 🏺 "  # noqa: S105 - a made-up one
pytestmark = pytest.mark.django_db


@pytest.fixture
def potter(member):
    member.person.set_password(PASSWORD)
    member.person.save()
    return member.person


def another_browser() -> Client:
    return Client(headers={"host": "localhost"})


def try_password(client, person, password, *, address="192.168.1.9", **more):
    return client.post(
        "/sign-in/",
        {"name": person.username, "password": password, **more},
        REMOTE_ADDR=address,
    )


def is_in(client) -> bool:
    return client.get("/status/").status_code == 200


# One-time keys


def test_key_opens_the_studio_once(client, member):
    key = keys.make_key(member)

    first, second = client.get(f"/sign-in/{key}/"), another_browser().get(f"/sign-in/{key}/")

    assert (first.status_code, first.headers["Location"]) == (302, "/")
    assert is_in(client)
    assert second.status_code == 403


def test_key_is_used_up_even_when_two_browsers_come_at_once(member):
    key = keys.make_key(member)

    assert [keys.use_key(key), keys.use_key(key)] == [member, None]


def test_key_is_kept_as_a_hash_alone(member):
    key = keys.make_key(member)

    (kept,) = SignInKey.objects.all()
    assert kept.key_hash == keys.key_hash(key)
    assert key not in kept.key_hash


def test_key_is_long_enough_not_to_be_guessed(member):
    assert len(keys.make_key(member)) >= 43


@pytest.mark.parametrize(("minutes", "opens"), [(9, True), (11, False), (-5, False)])
def test_key_lives_ten_minutes(client, member, minutes, opens):
    key = keys.make_key(member)
    SignInKey.objects.update(made_at=timezone.now() - timedelta(minutes=minutes))

    client.get(f"/sign-in/{key}/")

    assert is_in(client) is opens


def test_old_keys_go_when_a_new_one_is_made(member):
    keys.make_key(member)
    SignInKey.objects.update(made_at=timezone.now() - timedelta(hours=1))

    keys.make_key(member)

    assert SignInKey.objects.count() == 1


@pytest.mark.parametrize("address", ["192.168.1.9", "10.0.0.3", "fe80::1", "", "nonsense"])
def test_key_opens_nothing_from_another_machine(client, member, address):
    key = keys.make_key(member)

    reply = client.get(f"/sign-in/{key}/", REMOTE_ADDR=address)

    assert reply.status_code == 403
    assert not is_in(client)
    assert keys.use_key(key) == member


@pytest.mark.parametrize("method", ["head", "post", "options"])
def test_key_is_not_used_up_by_anything_but_opening_it(client, member, method):
    key = keys.make_key(member)

    getattr(client, method)(f"/sign-in/{key}/")

    assert keys.use_key(key) == member


def test_unknown_key_shows_the_sign_in_page(client):
    reply = client.get("/sign-in/guessed/")

    assert reply.status_code == 403
    assert "older than ten minutes" in reply.content.decode()


def test_key_of_somebody_who_was_locked_out_opens_nothing(client, member):
    key = keys.make_key(member)
    Person.objects.filter(pk=member.person_id).update(is_active=False)

    client.get(f"/sign-in/{key}/")

    assert not is_in(client)


# Passwords


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


# Guessing


def guess(person, times, *, address="192.168.1.9"):
    """Try wrong passwords one after the other without waiting; give the answers' codes."""
    client = another_browser()
    return [try_password(client, person, "x", address=address).status_code for _ in range(times)]


def test_guessing_has_to_wait(potter):
    assert guess(potter, 7) == [422] * 5 + [429, 429]


def test_whoever_has_to_wait_is_told_how_long(client, potter):
    guess(potter, 8)

    reply = try_password(client, potter, PASSWORD)

    assert reply.status_code == 429
    assert 1 <= int(reply.headers["Retry-After"]) <= attempts.LONGEST_WAIT_S
    assert f"Wait {reply.headers['Retry-After']} seconds" in reply.content.decode()


def test_wait_doubles_and_never_exceeds_a_minute(potter):
    now, waits = timezone.now(), []
    for _ in range(20):
        wait_s = attempts.seconds_to_wait("potter", "192.168.1.9", now)
        waits.append(wait_s)
        Attempt.objects.create(name="potter", address="192.168.1.9", at=now)

    assert waits == [0] * 5 + [1, 2, 4, 8, 16, 32] + [60] * 9


def test_prankster_does_not_keep_the_owner_out(client, potter):
    guess(potter, 30, address="192.168.1.66")

    try_password(client, potter, PASSWORD, address="192.168.1.9")

    assert is_in(client)


def test_guesses_over_many_accounts_have_to_wait(client):
    codes = [
        client.post("/sign-in/", {"name": f"n{n}", "password": "x"}).status_code
        for n in range(attempts.FREE_FOR_ADDRESS + 1)
    ]

    assert codes[-2:] == [422, 429]


def test_guesses_from_many_addresses_have_to_wait_a_little(potter):
    codes = [guess(potter, 1, address=f"10.0.0.{n}")[0] for n in range(52)]

    assert codes[:50] == [422] * 50
    assert codes[51] == 429
    assert attempts.WAIT_FOR_ACCOUNT_S <= 2


def test_right_password_strikes_out_earlier_slips(client, potter):
    guess(potter, 4)

    try_password(client, potter, PASSWORD)

    assert Attempt.objects.count() == 0


def test_slips_are_forgotten_after_an_hour(potter):
    guess(potter, 10)
    Attempt.objects.update(at=timezone.now() - timedelta(hours=1, seconds=1))

    assert guess(potter, 1) == [422]
    assert Attempt.objects.count() == 1


def test_ten_thousand_guesses_take_days(potter):
    """At the longest wait a day has 1,440 tries, and the common passwords are not allowed."""
    seconds = 10_000 * attempts.LONGEST_WAIT_S

    assert seconds / 86_400 > 6


# Where one is sent on


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


# Going out, and other sessions


def test_sign_out_ends_the_session(signed_in):
    signed_in.post("/sign-out/")

    assert not is_in(signed_in)


def test_sign_out_by_a_link_does_nothing(signed_in):
    reply = signed_in.get("/sign-out/")

    assert reply.status_code == 405
    assert is_in(signed_in)


def test_session_gets_a_new_name_on_coming_in(client, potter):
    client.get("/sign-in/")
    client.session["planted"] = True
    client.session.save()
    before = client.session.session_key

    try_password(client, potter, PASSWORD)

    assert client.session.session_key != before


def test_cookies_are_this_programs_own_and_out_of_reach_of_scripts(client, potter):
    client.get("/sign-in/")
    try_password(client, potter, PASSWORD)

    kept = {
        name: (cookie["httponly"], cookie["samesite"]) for name, cookie in client.cookies.items()
    }
    assert kept == {"wareboard_session": (True, "Lax"), "wareboard_csrf": (True, "Lax")}


NEW = "four wet bowls"


def new_password(client, password, again, **present):
    return client.post("/sign-in/password/", {"password": password, "again": again, **present})


def test_changed_password_ends_the_other_sessions_and_keeps_this_one(potter):
    here, there = another_browser(), another_browser()
    try_password(here, potter, PASSWORD)
    try_password(there, potter, PASSWORD)

    reply = new_password(here, NEW, NEW, present=PASSWORD)

    assert reply.status_code == 302
    assert (is_in(here), is_in(there)) == (True, False)


@pytest.mark.parametrize(
    ("present", "password", "again", "say"),
    [
        ({"present": "x"}, NEW, NEW, "not the present"),
        ({"present": PASSWORD}, "short", "short", "too short"),
        ({"present": PASSWORD}, "password1", "password1", "too common"),
        ({"present": PASSWORD}, NEW, f"{NEW}!", "do not agree"),
        ({}, NEW, NEW, "required"),
    ],
)
def test_password_that_will_not_do_is_explained_and_nothing_changed(
    client, potter, present, password, again, say
):
    client.force_login(potter)

    reply = new_password(client, password, again, **present)

    potter.refresh_from_db()
    assert reply.status_code == 422
    assert say in reply.content.decode()
    assert potter.check_password(PASSWORD)


def test_first_password_asks_for_no_present_one(client, member):
    member.person.set_unusable_password()
    member.person.save()
    client.force_login(member.person)

    new_password(client, NEW, NEW)

    member.person.refresh_from_db()
    assert member.person.check_password(NEW)


def test_reader_may_change_the_own_password_and_nothing_else(client, member):
    Member.objects.filter(pk=member.pk).update(role="reader")
    member.person.set_unusable_password()
    member.person.save()
    client.force_login(member.person)

    page = client.get("/sign-in/password/")
    reply = new_password(client, NEW, NEW)

    assert (page.status_code, reply.status_code) == (200, 302)
    assert client.post("/status/").status_code == 403


def test_locked_out_person_is_out_at_once(signed_in, member):
    assert is_in(signed_in)

    Person.objects.filter(pk=member.person_id).update(is_active=False)

    assert not is_in(signed_in)


def test_person_of_no_studio_is_a_stranger(client, db):
    person = Person(username="nobody's")
    person.save()
    client.force_login(person)

    assert client.get("/status/").status_code == 302


def test_first_run_cannot_be_claimed_by_a_stranger(client, db):
    """Where nobody ever set a password, there is nothing on the network that makes one."""
    before = Person.objects.count()

    pages = [client.get(path) for path in ("/sign-in/password/", "/", "/status/")]
    posts = [client.post("/sign-in/password/", {"password": "mine now", "again": "mine now"})]

    assert {reply.status_code for reply in pages + posts} == {302}
    assert Person.objects.count() == before


# What strangers may ask, and what members see


def test_health_answers_strangers(client):
    reply = client.get("/health/")

    assert (reply.status_code, reply.content) == (200, b"ok")


def test_health_takes_no_post(client):
    assert client.post("/health/").status_code == 405


def test_status_shows_how_the_studio_stands(signed_in):
    page = signed_in.get("/status/").content.decode()

    assert "Write-ahead log" in page
    assert "none yet" in page
    assert "not let in" in page


def test_nobody_is_signed_in_by_looking(client):
    client.get("/sign-in/")

    assert Session.objects.count() == 0
    assert isinstance(client.get("/sign-in/").wsgi_request.user, AnonymousUser)
