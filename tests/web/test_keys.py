"""One-time keys: they open the studio once, soon, and from this machine alone."""

from datetime import timedelta

import pytest
from django.utils import timezone
from signing_in import another_browser, is_in

from wareboard.records.people import keys
from wareboard.records.people.models import Person, SignInKey

pytestmark = pytest.mark.django_db


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
