"""What the real server says to strangers: names, addresses, sizes."""

import socket

import pytest

from .harness import Studio, copied

pytestmark = pytest.mark.server


HOSTS = {
    b"Host: 127.0.0.1": 200,
    b"Host: localhost:8473": 200,
    b"Host: [::1]": 200,
    b"Host: evil.example": 400,
    b"Host: ": 400,
    b"X-No-Host: 1": 400,
    b"Host: 127.0.0.1\r\nHost: evil.example": 400,
    b"Host: evil.example\r\nHost: 127.0.0.1": 400,
    b"Host: 127.0.0.1.evil.example": 400,
    b"Host: 2130706433": 400,
    b"Host: localhost.": 400,
    b"Host: 127.0.0.1:0": 400,
    b"Host: evil.example\r\nX-Forwarded-Host: 127.0.0.1": 400,
    b"Host: evil.example\r\nForwarded: host=127.0.0.1": 400,
}


@pytest.fixture(scope="module")
def standing(demo_of_old, tmp_path_factory):
    studio = Studio(copied(demo_of_old, tmp_path_factory.mktemp("hosts") / "Wareboard")).start()
    yield studio
    studio.kill()


@pytest.mark.parametrize("path", [b"/health/", b"/static/wareboard/wareboard.css"])
@pytest.mark.parametrize("method", [b"GET", b"HEAD"])
@pytest.mark.parametrize("header", HOSTS)
def test_server_answers_to_its_own_names_alone(standing, method, path, header):
    assert raw(standing, method + b" " + path, header) == HOSTS[header]


@pytest.mark.parametrize("path", [b"/sign-in/", b"/static/wareboard/wareboard.css", b"/none/"])
@pytest.mark.parametrize("header", [header for header, status in HOSTS.items() if status == 400])
def test_server_takes_no_post_under_another_name(standing, path, header):
    assert raw(standing, b"POST " + path, header + b"\r\nContent-Length: 0") == 400


def raw(studio: Studio, start: bytes, header: bytes) -> int:
    """Send a request as bytes; give the code of the answer."""
    with socket.create_connection(("127.0.0.1", studio.port), timeout=10) as line:
        line.sendall(start + b" HTTP/1.1\r\n" + header + b"\r\nConnection: close\r\n\r\n")
        return int(line.makefile("rb").readline().split()[1])


@pytest.mark.parametrize(
    "path",
    [
        "/record.sqlite3",
        "/secret-key",
        "/.git/config",
        "/static/../record.sqlite3",
        "/static/%2e%2e/%2e%2e/settings/__init__.py",
        "/static/..%2f..%2fsettings/__init__.py",
        "/static/",
        "/static/wareboard/",
        "/originals/",
        "/admin/",
        "/wareboard-folder.json",
    ],
)
def test_nothing_of_the_folder_or_the_program_is_served(standing, path):
    reply = standing.ask("GET", path)

    assert reply.status == 404
    assert b"SECRET" not in reply.body
    assert str(standing.data).encode() not in reply.body


def test_two_gigabytes_are_refused_unread(standing):
    assert raw(standing, b"POST /sign-in/", b"Host: localhost\r\nContent-Length: 2000000000") == 413
