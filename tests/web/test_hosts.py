"""Only names that cannot be pointed elsewhere are answered, on every method and path."""

import pytest

from wareboard.web import hosts

KNOWN = (
    "127.0.0.1",
    "127.0.0.1:8473",
    "localhost",
    "LOCALHOST:8473",
    "[::1]",
    "[::1]:8473",
    "192.168.1.20",
    "10.0.0.7:8473",
    "172.16.4.4",
    "169.254.7.7",
    "[fe80::1]",
    "[fd12:3456::1]:8473",
)
UNKNOWN = (
    "",
    "evil.example",
    "127.0.0.1.evil.example",
    "localhost.evil.example",
    "localhost.",
    "127.0.0.1.",
    ".localhost",
    "2130706433",
    "0x7f000001",
    "0177.0.0.1",
    "127.1",
    "0.0.0.0",  # noqa: S104 - asked for by name, not listened on
    "8.8.8.8",
    "172.32.0.1",
    "192.169.0.1",
    "100.64.0.1",
    "::1",
    "[::]",
    "[::ffff:8.8.8.8]",
    "[2001:db8::1]",
    "[127.0.0.1]",
    "127.0.0.1:0",
    "127.0.0.1:65536",
    "127.0.0.1:99999999",
    "127.0.0.1:",
    "127.0.0.1:80:80",
    "127.0.0.1,evil.example",
    "127.0.0.1 evil.example",
    "evil@127.0.0.1",
    "127.0.0.1/",
    "127.0.0.1\n",
    "\uff11\uff12\uff17.0.0.1",
    "a" * 300,
)
PATHS = ("/health/", "/sign-in/", "/", "/static/wareboard/wareboard.css", "/no/such/page/")


@pytest.mark.parametrize("host", KNOWN)
def test_own_names_are_known(host):
    assert hosts.is_known(host, frozenset({"localhost"}))


@pytest.mark.parametrize("host", UNKNOWN)
def test_other_names_are_not(host):
    assert not hosts.is_known(host, frozenset({"localhost"}))


def test_this_machine_knows_its_own_name():
    names = hosts.own_names()

    assert all(hosts.is_known(name, names) for name in names)


@pytest.mark.parametrize("method", ["get", "head", "post", "put", "options"])
@pytest.mark.parametrize("path", PATHS)
def test_a_name_from_elsewhere_gets_nothing_anywhere(client, method, path):
    reply = getattr(client, method)(path, headers={"host": "evil.example"})

    assert reply.status_code == 400
    assert reply.content in {b"", b"This address is not one of this studio's.\n"}


@pytest.mark.django_db
@pytest.mark.parametrize("path", ["/health/", "/sign-in/"])
def test_what_a_proxy_says_of_the_host_is_not_believed(client, path):
    reply = client.get(path, headers={"host": "localhost", "x-forwarded-host": "evil.example"})

    assert (reply.status_code, b"evil.example" in reply.content) == (200, False)


def test_a_host_that_is_only_forwarded_is_not_enough(client):
    reply = client.get(
        "/health/", headers={"host": "evil.example", "x-forwarded-host": "localhost"}
    )

    assert reply.status_code == 400
