"""What was ticked or kept of a pot stays when a thumb is tapped."""

import pytest
from django.urls import reverse
from opened_kiln import HTMX

from wareboard.records.shelf.models import Verdict


def stands():
    verdict = Verdict.objects.current().get(pot="mug-0", surface="whole")
    faults = [(fault.word, fault.where) for fault in verdict.faults.all()]
    return verdict.thumb, faults, verdict.words


def test_what_was_ticked_and_not_kept_stays_ticked_when_the_thumb_changes(signed_in, thumb_url):
    ticked = {"surface": "inside", "faults": ["crawl", "pinhole"], "words": "at the foot"}

    reply = signed_in.post(thumb_url, {"thumb": "sideways", **ticked}, headers=HTMX)

    form = reply.context["verdict_form"]
    assert {name: form[name].value() for name in ticked} == ticked
    assert stands() == ("sideways", [], "")


def test_a_good_pot_with_faults_ticked_is_still_asked_about_them(signed_in, thumb_url):
    sent = {"thumb": "up", "surface": "whole", "faults": ["stony"], "words": ""}

    reply = signed_in.post(thumb_url, sent, headers=HTMX)

    assert reply.context["verdict_form"]["faults"].value() == ["stony"]


def test_another_thumb_does_not_wipe_out_the_faults_that_were_kept(signed_in, thumb_url, pot_url):
    kept = {"surface": "whole", "thumb": "down", "faults": ["warped"], "where": "rim"}
    signed_in.post(pot_url, {**kept, "words": "leaned on its neighbour"})

    scripted = signed_in.post(thumb_url, {"thumb": "up"}, headers=HTMX)
    plain = signed_in.post(thumb_url, {"thumb": "sideways"})

    assert scripted.context["verdict_form"]["faults"].value() == ["warped"]
    assert plain.url == pot_url
    assert stands() == ("sideways", [("warped", "rim")], "leaned on its neighbour")


def test_what_was_unticked_stays_unticked(signed_in, thumb_url, pot_url):
    signed_in.post(pot_url, {"surface": "whole", "thumb": "down", "faults": ["warped"]})
    unticked = {"thumb": "sideways", "surface": "whole", "words": ""}

    reply = signed_in.post(thumb_url, unticked, headers=HTMX)

    assert reply.context["verdict_form"]["faults"].value() == []


def test_the_questions_of_a_pot_start_from_what_was_kept_of_it(signed_in, pot_url):
    signed_in.post(pot_url, {"surface": "whole", "thumb": "down", "faults": ["warped"]})

    form = signed_in.get(pot_url).context["verdict_form"]

    assert (form["thumb"].value(), form["faults"].value()) == ("down", ["warped"])


def test_each_pot_has_questions_with_ids_of_their_own(signed_in, pot_url):
    page = signed_in.get(pot_url).content.decode()

    assert 'id="id_mug-0_faults_0"' in page
    assert 'id="id_faults_0"' not in page


def test_a_tap_on_a_thumb_sends_what_is_ticked_along(signed_in, pot_url):
    asked = signed_in.get(pot_url, headers=HTMX).content.decode()

    assert (
        'hx-include="#wrong-mug-0 [name=surface], '
        '#wrong-mug-0 [name=faults], #wrong-mug-0 [name=words]"'
    ) in asked


def test_the_questions_of_a_pot_bad_on_one_side_start_from_that_side(signed_in, pot_url):
    kept = {"surface": "outside", "thumb": "sideways", "faults": ["pinhole"], "words": "foot"}
    signed_in.post(pot_url, kept)

    form = signed_in.get(pot_url).context["verdict_form"]

    assert {name: form[name].value() for name in kept} == kept


def test_what_was_said_last_is_where_the_questions_start(signed_in, pot_url):
    signed_in.post(pot_url, {"surface": "whole", "thumb": "down"})
    signed_in.post(pot_url, {"surface": "inside", "thumb": "down", "faults": ["crawl"]})

    form = signed_in.get(pot_url).context["verdict_form"]

    assert (form["surface"].value(), form["faults"].value()) == ("inside", ["crawl"])


def test_keeping_the_questions_again_does_not_lose_where_a_fault_is(signed_in, pot_url):
    kept = {"surface": "outside", "thumb": "down", "faults": ["run"]}
    signed_in.post(pot_url, {**kept, "where": "at the foot", "amount_mm": "4"})

    signed_in.post(pot_url, {**kept, "words": "sanded off"})

    fault = Verdict.objects.current().get(pot="mug-0").faults.get()
    assert (fault.where, fault.amount_mm) == ("at the foot", 4.0)


@pytest.mark.parametrize(
    ("sides", "lit"),
    [
        ({"outside": "down"}, "down"),
        ({"inside": "up", "outside": "sideways"}, "sideways"),
        ({"inside": "down", "outside": "up"}, "down"),
        ({"outside": "down", "whole": "sideways"}, "sideways"),
    ],
)
def test_a_pot_judged_by_its_sides_lights_the_worst_of_them_unless_the_whole_was_judged(
    signed_in, url, pot_url, sides, lit
):
    for surface, word in sides.items():
        signed_in.post(pot_url, {"surface": surface, "thumb": word})

    page = signed_in.get(url).content.decode()

    assert page.count(f'value="{lit}" aria-pressed="true"') == 1
    assert page.count('aria-pressed="true"') == 1


def test_what_is_left_to_judge_is_counted_once_on_the_page(signed_in, url, thumb_url):
    signed_in.post(thumb_url, {"thumb": "up"})

    page = signed_in.get(url).content.decode()

    assert page.count("to judge") == page.count("2 of 3 left to judge") == 1


def test_when_the_last_pot_is_judged_the_rest_is_not_offered_any_more(signed_in, firing, thumb_url):
    first = signed_in.post(thumb_url, {"thumb": "up"}, headers=HTMX).content.decode()
    for pot in ("mug-1", "mug-2"):
        tap = reverse("pages:thumb", args=[firing.pk, pot])
        last = signed_in.post(tap, {"thumb": "up"}, headers=HTMX).content.decode()

    assert 'id="the-rest"' not in first
    assert '<div id="the-rest" hx-swap-oob="true"></div>' in last
