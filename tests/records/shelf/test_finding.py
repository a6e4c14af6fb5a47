"""The shelf finds a pot by any words of its story, and lists its verdicts page by page."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import text_of

from wareboard.records.people.entry import keep
from wareboard.records.people.paging import ROWS_A_PAGE
from wareboard.records.shelf.models import Verdict
from wareboard.records.shelf.views import FOUND_A_PAGE
from wareboard.records.ware.models import Pot

URL = "/shelf/"


def found(client, text, **more):
    rows = client.get(URL, {"q": text, **more}).context["rows"]
    return sorted(row["name"] for row in rows)


@pytest.fixture
def pots(shelf, member):
    """Two pots of the first firing, one of the second; the third is nobody's yet."""
    crazed = shelf.pot([(shelf.old, "inside")], [("inside", "craze")])
    sound = shelf.pot([(shelf.new, "outside")], [("outside", None)])
    second = shelf.pot([(shelf.old, "outside")], [("outside", "crawl")], loads=shelf.loads[1:])
    third = keep(Pot, member, name="Crème jug", whose="Zoë", note="tall, by the spy-hole")
    keep(Verdict, member, pot=third, surface="whole", thumb="sideways", words="a bit QUIET")
    return [crazed, sound, second, third]


@pytest.mark.parametrize(
    ("text", "finds"),
    [
        ("crazed", {0}),
        ("crazing", {0}),
        ("crawl", {2}),
        ("gannet", {0, 1, 2}),
        ("gannet crazed", {0}),
        ("crazed crawled", set()),
        ("firing 1", {0, 1}),
        ("FIRING 2 gannet crawl", {2}),
        ("small", {0, 1, 2}),
        ("L20", {2}),
        ("good", {1}),
        ("bad", {0, 2}),
        ("so-so", {3}),
        ("quiet", {3}),
        ("creme zoe", {3}),
        ("pitcher", {3}),
        ("the jug that is by the spy-hole", {3}),
        ("crazed, from the firing 1", {0}),
        ("spy-hole", {3}),
        ("old bad", {0, 2}),
        ("nothing of the kind", set()),
        ("%", set()),
    ],
)
def test_every_word_is_looked_for_in_the_whole_story(signed_in, pots, text, finds):
    assert found(signed_in, text) == sorted(pots[n].name for n in finds)


def test_a_verdict_that_was_put_right_finds_no_more(signed_in, member, shelf):
    pot = shelf.pot([(shelf.old, "inside")], [("inside", "craze")])
    wrong = Verdict.objects.get(pot=pot)
    keep(Verdict, member, pot=pot, surface="inside", thumb="up", corrects=wrong)

    assert found(signed_in, "crazed") == []


def test_what_was_found_says_its_glaze_its_firing_and_how_it_came_out(signed_in, pots):
    text = text_of(signed_in.get(URL, {"q": "crazed"}))

    assert "Pots with “crazed”" in text
    assert "Gannet · firing 1 inside: bad, crazed" in text


def test_finding_brings_back_only_the_list(signed_in, pots):
    reply = signed_in.get(URL, {"q": "crazed"}, headers={"HX-Request": "true"})

    assert "<html" not in reply.content.decode()
    assert "Pots with “crazed”" in text_of(reply)


def test_nothing_found_says_what_helps(signed_in, pots):
    assert "Fewer words find more." in text_of(signed_in.get(URL, {"q": "crazed tureen"}))


def test_older_verdicts_follow_without_a_gap(signed_in, member):
    pot, now = keep(Pot, member, name="mug"), timezone.now()
    ids = [f"v-{n:03d}" for n in range(ROWS_A_PAGE + 7)]
    for n, verdict_id in enumerate(ids):
        at = now - timedelta(minutes=n // 2)
        keep(Verdict, member, entry_id=verdict_id, pot=pot, surface="whole", thumb="up", at=at)

    first = signed_in.get(URL)
    second = signed_in.get(URL, {"after": first.context["more"]})

    shown = [row["verdicts"][0].pk for page in (first, second) for row in page.context["rows"]]
    assert "Older ones" in text_of(first)
    assert len(first.context["rows"]) == ROWS_A_PAGE
    assert sorted(shown) == ids
    assert second.context["more"] == ""


def test_older_pots_found_follow_with_the_same_words(signed_in, member):
    for n in range(FOUND_A_PAGE + 1):
        keep(Pot, member, entry_id=f"mug-{n:03d}", name="mug & saucer")

    first = signed_in.get(URL, {"q": "mug &"})
    second = signed_in.get(URL, {"q": "mug &", "after": first.context["more"]})

    assert "?q=mug%20%26&amp;after=" in first.content.decode()
    assert len(second.context["rows"]) == 1


def test_the_last_page_says_so(signed_in, member):
    verdict = keep(Verdict, member, pot=keep(Pot, member), surface="whole", thumb="up")

    assert "No older verdict." in text_of(signed_in.get(URL, {"after": verdict.pk}))


def test_another_studios_pots_are_not_found(stranger, pots):
    assert found(stranger, "crazed") == []


def test_the_wrong_method_is_refused(signed_in):
    assert signed_in.post(URL).status_code == 405


def test_what_the_ware_room_does_not_know_is_one_tap_away_on_the_shelf(signed_in):
    page = signed_in.get("/ware/", {"q": "pin holes"})

    assert "No pot here has all these words." in text_of(page)
    assert "Faults and verdicts are found on the Shelf. Find “pin holes” on the Shelf" in text_of(
        page
    )
    assert f'class="button" href="{URL}?q=pin%20holes"' in page.content.decode()
