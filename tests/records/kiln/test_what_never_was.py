"""What was tapped by mistake, what nobody tapped, and on which day it was."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln.cautions import OPENING
from wareboard.records.kiln.models import Moment

from .conftest import LIT, steady

UNSHUT = "It says opened, and no shut-off is written: say when it was."


def page_of(firing, kind):
    return reverse("kiln:happened", args=[firing.pk, kind])


@pytest.fixture
def tapped(fire):
    """A firing that burns; hours ago somebody tapped that it is shut off."""
    firing = fire("tapped", steady(to_h=9), moments=[("sealed", 2.0), ("shut off", 8.0)])
    Moment.objects.update(kept_at=timezone.now() - timedelta(hours=5))
    return firing


def test_a_moment_tapped_by_mistake_is_taken_away_long_after(signed_in, tapped):
    asked = signed_in.get(page_of(tapped, "shut-off")).content.decode()

    reply = signed_in.post(page_of(tapped, "shut-off"), {"did": "not"}, follow=True)

    page = reply.content.decode()
    assert "It did not happen" in asked
    assert "“shut off” is taken away: it did not happen. What stood there is kept." in page
    assert 'name="kind" value="shut off"' in page
    assert Moment._base_manager.get(firing=tapped, kind="shut off").undone_at is not None
    assert Moment.objects.standing().get(firing=tapped).kind == "sealed"


def test_taken_away_twice_is_taken_away_once_and_it_may_be_tapped_again(signed_in, tapped):
    for _ in range(2):
        reply = signed_in.post(page_of(tapped, "shut-off"), {"did": "not"})
    signed_in.post(reverse("kiln:moment", args=[tapped.pk]), {"kind": "shut off"})

    assert reply.url == reverse("kiln:firing", args=[tapped.pk])
    assert Moment.objects.standing().filter(firing=tapped, kind="shut off").count() == 1


@pytest.mark.parametrize("kind", ["lit", "opened"])
def test_lighting_and_what_was_never_tapped_are_not_taken_away(signed_in, tapped, kind):
    assert "It did not happen" not in signed_in.get(page_of(tapped, kind)).content.decode()
    assert signed_in.post(page_of(tapped, "lit"), {"did": "not"}).status_code == 422


def test_somebody_of_another_studio_takes_no_moment_away(stranger, tapped):
    assert stranger.post(page_of(tapped, "shut-off"), {"did": "not"}).status_code == 404
    assert Moment.objects.standing().filter(firing=tapped).count() == 2


@pytest.mark.parametrize(("last_h", "cautions"), [(12, [UNSHUT, str(OPENING)]), (0.5, [UNSHUT])])
def test_opened_without_a_shut_off_is_said_and_of_a_hot_kiln_cautioned(
    said, fire, last_h, cautions
):
    answer = said(fire("now", steady(to_h=last_h), moments=[("opened", last_h + 0.1)]), hours=13)

    assert answer.title == "Opened."
    assert answer.cautions[: len(cautions)] == cautions
    assert (str(OPENING) in answer.cautions) is (str(OPENING) in cautions)


def test_a_shut_off_that_opening_has_passed_is_asked_for_and_not_tapped(signed_in, fire):
    firing = fire("now", steady(to_h=12), moments=[("opened", 12.5)])

    page = signed_in.get(reverse("kiln:firing", args=[firing.pk])).content.decode()

    assert 'name="kind" value="shut off"' not in page
    assert f'<a href="{page_of(firing, "shut-off")}">say when</a>' in page
    assert reverse("pages:opening", args=[firing.pk]) in page


@pytest.mark.parametrize(
    ("hours", "title"),
    [
        (10.0, "Lit at 06:00."),
        (20.0, "Lit at 06:00 yesterday."),
        (60.0, "Lit at 06:00 on 3 October."),
    ],
)
def test_a_kiln_that_was_not_lit_today_says_on_which_day(said, fire, hours, title):
    assert said(fire("now", []), hours=hours).title == title


def test_a_line_of_yesterday_says_so_too(said, fire):
    one = said(fire("one", [(0.5, 31.0, "")], number=1), hours=20)
    more = said(fire("more", steady(to_h=2), number=2), hours=20)

    assert one.title == "31 °C at 06:30 yesterday."
    assert more.under == "220 °C at 08:00 yesterday."


def test_a_shut_off_of_yesterday_says_so(said, fire):
    firing = fire("now", steady(to_h=12), moments=[("shut off", 12.0)])

    assert said(firing, hours=20).title == "Shut off at 18:00 yesterday."


def test_while_it_burns_the_day_of_lighting_stands_beside_it(signed_in, fire):
    lit = timezone.now() - timedelta(days=1)
    firing = fire("now", [], lit=lit)

    page = signed_in.get(reverse("kiln:firing", args=[firing.pk])).content.decode()

    assert f"<strong>lit</strong> {timezone.localtime(lit):%a %H:%M}" in page


def test_before_opening_a_kiln_without_shut_off_it_is_asked_whether_the_burner_is_off(
    signed_in, fire
):
    burning = fire("burning", steady(to_h=12), number=1)
    off = fire("off", [], lit=LIT + timedelta(days=2), number=2, moments=[("shut off", 12.0)])

    pages = [
        signed_in.get(reverse("pages:opening", args=[one.pk])).content.decode()
        for one in (burning, off)
    ]

    assert ["No shut-off is written: is the burner off?" in page for page in pages] == [True, False]


def test_after_opening_it_stands_beside_the_hour(signed_in, fire):
    opened = fire("opened", [], moments=[("opened", 27.0)])

    page = signed_in.get(reverse("pages:opening", args=[opened.pk])).content.decode()

    assert f'No shut-off is written: <a href="{page_of(opened, "shut-off")}">' in page
