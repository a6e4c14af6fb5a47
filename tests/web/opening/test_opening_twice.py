"""Pots that were fired twice, and all the rest judged by one tap."""

from datetime import timedelta

import pytest
from django.urls import reverse
from opened_kiln import LIT, shelves_of, verdicts

from wareboard.records.kiln import actions as kiln_actions
from wareboard.records.kiln.models import Load
from wareboard.records.people.entry import keep
from wareboard.records.shelf.models import Verdict
from wareboard.records.ware.models import Pot


@pytest.fixture
def fired_twice(member, firing):
    """Mug 0 came out bad of firing 1 and stood in firing 2, three days later."""
    keep(
        Verdict,
        member,
        entry_id="first-time",
        pot_id="mug-0",
        surface="whole",
        thumb="down",
        at=LIT + timedelta(hours=30),
    )
    again = keep(Load, member, kiln=firing.load.kiln, name="again", at=LIT + timedelta(days=2))
    kiln_actions.put_in(member, again, [Pot.objects.get(pk="mug-0")], None)
    return kiln_actions.light(member, again, at=LIT + timedelta(days=3))


def test_after_a_second_firing_the_verdict_is_its_own_and_the_first_stays(
    signed_in, firing, fired_twice
):
    signed_in.post(
        reverse("pages:thumb", args=[fired_twice.pk, "mug-0"]),
        {"thumb": "up", "entry_id": "second-time"},
    )

    first, second = (Verdict.objects.get(pk=pk) for pk in ("first-time", "second-time"))
    shown = [
        shelves_of(signed_in.get(reverse("pages:opening", args=[one.pk])))[level]["pots"][0]
        for one, level in ((firing, "top"), (fired_twice, ""))
    ]
    assert (first.thumb, second.thumb, second.corrects) == ("down", "up", None)
    assert verdicts() == [("whole", "down", []), ("whole", "up", [])]
    assert [row["thumb"] for row in shown] == ["down", "up"]


def test_a_second_word_on_the_second_firing_corrects_its_first_word_only(signed_in, fired_twice):
    url = reverse("pages:thumb", args=[fired_twice.pk, "mug-0"])

    for tap, word in (("second-time", "up"), ("on-second-thought", "sideways")):
        signed_in.post(url, {"thumb": word, "entry_id": tap})

    assert Verdict.objects.get(pk="on-second-thought").corrects_id == "second-time"
    assert verdicts() == [("whole", "down", []), ("whole", "sideways", [])]


@pytest.mark.parametrize(
    ("name", "sent"),
    [("thumb", {"thumb": "up"}), ("opened-pot", {"surface": "whole", "thumb": "up"})],
)
def test_a_pot_that_was_fired_again_is_judged_there(signed_in, firing, fired_twice, name, sent):
    reply = signed_in.post(reverse(f"pages:{name}", args=[firing.pk, "mug-0"]), sent, follow=True)

    page = reply.content.decode()
    assert "Fired again in firing 2:" in page
    assert reverse("pages:opening", args=[fired_twice.pk]) in page
    assert verdicts() == [("whole", "down", [])]


def test_a_pot_that_was_fired_again_is_not_left_to_judge(signed_in, url, fired_twice):
    Verdict.objects.filter(pk="first-time").update(undone_at=LIT)

    assert signed_in.get(url).context["left"] == 2


@pytest.fixture
def rest_url(firing):
    return reverse("pages:all-the-rest-good", args=[firing.pk])


def test_one_tap_says_of_all_the_rest_that_they_are_good(signed_in, thumb_url, rest_url, url):
    signed_in.post(thumb_url, {"thumb": "down"})

    for _ in range(2):
        reply = signed_in.post(rest_url, {"entry_id": "the-rest"})

    page = signed_in.get(url)
    assert (reply.status_code, reply.url) == (302, url)
    assert [verdicts(pot) for pot in ("mug-0", "mug-1", "mug-2")] == [
        [("whole", "down", [])],
        [("whole", "up", [])],
        [("whole", "up", [])],
    ]
    assert Verdict.objects.filter(pot__in=["mug-0", "mug-1", "mug-2"]).count() == 3
    assert page.context["title"] == "All 3 pots are judged."
    assert page.context["undo"]["say"] == "Good: the last 2 pots."
    assert "All the rest: good" not in page.content.decode()


def test_undo_takes_all_the_rest_back_together(signed_in, thumb_url, rest_url, url):
    signed_in.post(thumb_url, {"thumb": "down"})
    signed_in.post(rest_url, {"entry_id": "the-rest"})

    signed_in.post(signed_in.get(url).context["undo"]["url"], {"next": url})

    assert signed_in.get(url).context["title"] == "2 of 3 left to judge."


def test_somebody_of_another_studio_calls_nothing_good(stranger, rest_url):
    assert stranger.post(rest_url).status_code == 404
    assert verdicts() == []


def test_all_the_rest_is_no_reading_and_needs_an_id_that_is_one(signed_in, rest_url):
    assert signed_in.get(rest_url).status_code == 405
    assert signed_in.post(rest_url, {"entry_id": "x" * 41}).status_code == 404
    assert verdicts() == []


def test_the_page_is_called_as_potters_say(signed_in, url):
    assert "<title>How firing 1 came out" in signed_in.get(url).content.decode()
