"""A kiln that its log says is hot is asked about before it is kept as opened."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln.models import Moment
from wareboard.records.people.models import Studio

from .conftest import HTMX, steady

ASKED = "The last line says 1250 °C: is it open?"


@pytest.fixture
def just_shut(fire):
    """A firing that came to 1250 °C and was shut off this minute."""
    lit = timezone.now() - timedelta(hours=12.3)
    lines = [*steady(to_h=12), (12.3, 1250.0, "")]
    return fire("hot", lines, lit=lit, moments=[("shut off", 12.3)])


@pytest.fixture
def tap_url(just_shut):
    return reverse("kiln:moment", args=[just_shut.pk])


@pytest.fixture
def page_url(just_shut):
    return reverse("kiln:happened", args=[just_shut.pk, "opened"])


def opened(kind="opened"):
    return Moment.objects.standing().filter(studio="test-studio", kind=kind).count()


def now():
    return f"{timezone.localtime():%Y-%m-%dT%H:%M}"


def test_a_tap_on_a_hot_kiln_is_asked_about_and_not_kept_yet(signed_in, tap_url, page_url):
    reply = signed_in.post(tap_url, {"kind": "opened"})

    page = signed_in.get(page_url).content.decode()
    assert reply.url == page_url
    assert ASKED in page
    assert "It is open." in page
    assert opened() == 0


def test_with_scripts_it_is_asked_on_the_same_page(signed_in, tap_url, page_url):
    reply = signed_in.post(tap_url, {"kind": "opened"}, headers=HTMX)

    assert reply.headers["HX-Redirect"] == page_url
    assert opened() == 0


def test_whoever_is_sure_is_asked_once(signed_in, page_url):
    first = signed_in.post(page_url, {"when": now()})
    sure = signed_in.post(page_url, {"when": now(), "sure": "on"})

    assert first.status_code == 422
    assert ASKED in first.content.decode()
    assert sure.status_code == 302
    assert opened() == 1


def test_a_tap_at_the_opening_leads_back_to_it(signed_in, just_shut, tap_url, page_url):
    opening = reverse("pages:opening", args=[just_shut.pk])

    asked = signed_in.post(tap_url, {"kind": "opened", "next": opening})
    sure = signed_in.post(asked.url, {"when": now(), "sure": "on"})

    assert asked.url == f"{page_url}?next={opening}"
    assert sure.url == opening


def test_it_leads_to_no_foreign_page(signed_in, just_shut, page_url):
    reply = signed_in.post(f"{page_url}?next=https://example.org/", {"when": now(), "sure": "on"})

    assert reply.url == reverse("kiln:firing", args=[just_shut.pk])


def test_a_kiln_that_had_the_time_to_cool_is_not_asked_about(signed_in, fire):
    lit = timezone.now() - timedelta(hours=30)
    cooled = fire("cooled", [*steady(to_h=12)], lit=lit, moments=[("shut off", 12.0)])

    signed_in.post(reverse("kiln:moment", args=[cooled.pk]), {"kind": "opened"})

    assert opened() == 1


def test_a_kiln_without_a_line_is_not_asked_about(signed_in, fire):
    unread = fire("unread", [], lit=timezone.now() - timedelta(hours=1))

    signed_in.post(reverse("kiln:moment", args=[unread.pk]), {"kind": "opened"})

    assert opened() == 1


def test_a_hot_kiln_may_be_shut_off_and_is_not_asked_about(signed_in, fire):
    lit = timezone.now() - timedelta(hours=12)
    burning = fire("burning", steady(to_h=12), lit=lit)

    signed_in.post(reverse("kiln:moment", args=[burning.pk]), {"kind": "shut off"})

    assert opened("shut off") == 1


def test_what_was_opened_already_is_not_asked_about_again(signed_in, tap_url, page_url, just_shut):
    signed_in.post(page_url, {"when": now(), "sure": "on"})

    reply = signed_in.post(tap_url, {"kind": "opened"})

    assert reply.url == reverse("kiln:firing", args=[just_shut.pk])
    assert opened() == 1


def test_it_is_asked_in_the_unit_of_the_studio(signed_in, studio, page_url):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")

    # 1250 °C is 2282 °F.
    assert "The last line says 2282 °F: is it open?" in signed_in.get(page_url).content.decode()
