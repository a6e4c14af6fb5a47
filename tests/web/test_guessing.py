"""Guessing gets slower, for the guesser more than for the owner."""

from datetime import timedelta

import pytest
from django.utils import timezone
from signing_in import PASSWORD, another_browser, is_in, try_password

from wareboard.records.people import attempts
from wareboard.records.people.models import Attempt

pytestmark = pytest.mark.django_db


@pytest.fixture
def potter(member):
    member.person.set_password(PASSWORD)
    member.person.save()
    return member.person


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
