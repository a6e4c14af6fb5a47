"""When something goes wrong a person is told what happened and what to do, and nothing else."""

import pytest
from django.db import OperationalError
from django.test import RequestFactory

from wareboard.web import faults
from wareboard.web.sqlite.base import TAKEN_AWAY

pytestmark = pytest.mark.django_db
SECRET = "no such table: wareboard_secret_recipe"  # noqa: S105 - what a fault may say


@pytest.fixture
def request_of_somebody(rf: RequestFactory, member):
    request = rf.get("/status/", headers={"host": "localhost"})
    request.member = member
    return request


def answer_to(error: Exception, request):
    try:
        raise error
    except type(error):
        return faults.server_error(request)


@pytest.mark.parametrize(
    ("said", "status", "words"),
    [
        ("database or disk is full", 507, "MB are free"),
        ("disk I/O error", 507, "MB are free"),
        ("database is locked", 503, "Enter it once more"),
        ("attempt to write a readonly database", 503, "Reading still works"),
        (TAKEN_AWAY, 503, "gone or was replaced"),
        ("unable to open database file", 503, "gone or was replaced"),
        ("database disk image is malformed", 503, "wareboard look-over"),
    ],
)
def test_fault_of_the_record_is_said_with_what_to_do(request_of_somebody, said, status, words):
    reply = answer_to(OperationalError(said), request_of_somebody)

    assert reply.status_code == status
    assert words in reply.content.decode()


def test_busy_record_says_when_to_come_back(request_of_somebody):
    reply = answer_to(OperationalError("database is locked"), request_of_somebody)

    assert reply.headers["Retry-After"] == "2"


@pytest.mark.parametrize("error", [OperationalError(SECRET), ValueError(SECRET)])
def test_fault_shows_nothing_of_code_or_tables(request_of_somebody, error):
    page = answer_to(error, request_of_somebody).content.decode()

    assert "secret_recipe" not in page
    assert "Traceback" not in page


def test_fault_of_our_own_is_said_as_ours(request_of_somebody):
    reply = answer_to(ZeroDivisionError(), request_of_somebody)

    assert reply.status_code == 500
    assert "fault of the program" in reply.content.decode()


def test_fault_is_said_even_where_no_page_can_be_drawn(rf, settings, caplog):
    settings.TEMPLATES = [{**settings.TEMPLATES[0], "DIRS": [], "APP_DIRS": False}]

    reply = answer_to(OperationalError("database is locked"), rf.get("/"))

    assert (reply.status_code, reply.headers["Content-Type"]) == (503, "text/plain")
    assert "Enter it once more" in reply.content.decode()
    assert len(caplog.records) == 1


@pytest.mark.parametrize(
    ("view", "status"), [("bad_request", 400), ("forbidden", 403), ("not_found", 404)]
)
def test_refusal_does_not_repeat_what_was_sent(request_of_somebody, view, status):
    reply = getattr(faults, view)(request_of_somebody, ValueError(SECRET))

    assert reply.status_code == status
    assert "secret_recipe" not in reply.content.decode()
