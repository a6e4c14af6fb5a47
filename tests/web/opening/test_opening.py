"""The opening: every pot by shelf, one tap each, faults, hopes and fears."""

from datetime import timedelta

import pytest
from django.urls import reverse
from opened_kiln import HTMX, LIT, shelves_of, verdicts

from wareboard.records.kiln import actions as kiln_actions
from wareboard.records.kiln.models import Load
from wareboard.records.people.entry import keep
from wareboard.records.shelf.models import HopeAnswer, Verdict
from wareboard.records.ware.models import Hope, Pot


def test_pots_stand_by_shelf_and_each_shelf_asks_for_a_photo_first(signed_in, url):
    reply = signed_in.get(url)

    page = reply.content.decode()
    shelves = shelves_of(reply)
    assert [row["pot"].pk for row in shelves["top"]["pots"]] == ["mug-0", "mug-1"]
    assert [row["pot"].pk for row in shelves["bottom"]["pots"]] == ["mug-2"]
    assert page.count("First a photo, before anything is touched") == 2
    assert page.index("First a photo") < page.index('id="pot-mug-0"')
    assert "How did firing 1 come out?" in page


def test_before_it_is_opened_it_says_when_not_to_and_defers_to_usual_practice(
    signed_in, member, url, firing
):
    at = LIT + timedelta(hours=20)
    kiln_actions.write_line(member, firing, temp_c=178.0, at=at)

    page = signed_in.get(url).content.decode()

    assert "Not before it is below 100 °C inside" in page
    assert "Your own usual practice and the kiln maker’s manual come first." in page
    assert "The last line of its log says 178 °C." in page


def test_a_kiln_that_is_cool_by_its_log_is_not_said_to_be_hot(signed_in, member, url, firing):
    kiln_actions.write_line(member, firing, temp_c=88.0, at=LIT + timedelta(hours=28))

    assert "The last line of its log says" not in signed_in.get(url).content.decode()


def test_one_tap_says_that_it_is_open_and_comes_back_here(signed_in, url, firing):
    reply = signed_in.post(
        reverse("kiln:moment", args=[firing.pk]), {"kind": "opened", "next": url}
    )

    page = signed_in.get(url).content.decode()
    assert reply.url == url
    assert "Opened " in page
    assert "I have opened it" not in page


def test_one_tap_judges_a_pot_and_only_that_pot_comes_back(signed_in, thumb_url):
    reply = signed_in.post(thumb_url, {"thumb": "up"}, headers=HTMX)

    page = reply.content.decode()
    assert reply.status_code == 200
    assert "<html" not in page
    assert page.count('<li id="pot-') == 1
    assert "mug: good. 2 of 3 left to judge." in page
    assert "What is wrong with it?" not in page
    assert verdicts() == [("whole", "up", [])]


@pytest.mark.parametrize("word", ["sideways", "down"])
def test_of_a_pot_that_is_not_good_it_asks_at_once_what_is_wrong(signed_in, thumb_url, word):
    page = signed_in.post(thumb_url, {"thumb": word}, headers=HTMX).content.decode()

    assert "What is wrong with it?" in page
    assert "pinholes" in page
    assert verdicts() == [("whole", word, [])]


def test_without_javascript_a_good_pot_leads_back_to_its_place_and_a_bad_one_to_its_faults(
    signed_in, url, thumb_url, pot_url
):
    good = signed_in.post(thumb_url, {"thumb": "up"})
    bad = signed_in.post(thumb_url, {"thumb": "down"})

    assert good.url == f"{url}#pot-mug-0"
    assert bad.url == pot_url
    assert verdicts() == [("whole", "down", [])]
    assert Verdict.objects.filter(pot="mug-0").count() == 2


def test_a_tap_sent_twice_is_kept_once(signed_in, thumb_url):
    for _ in range(2):
        signed_in.post(thumb_url, {"thumb": "up", "entry_id": "one-tap"})

    assert Verdict.objects.filter(pot="mug-0").count() == 1


def test_undo_takes_a_verdict_back(signed_in, url, thumb_url):
    signed_in.post(thumb_url, {"thumb": "up"})
    undo = signed_in.get(url).context["undo"]

    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert undo["say"] == "mug: good."
    assert reply.url == url
    assert verdicts() == []


def test_undo_from_a_fragment_leads_back_to_the_opening(signed_in, url, thumb_url):
    reply = signed_in.post(thumb_url, {"thumb": "up"}, headers=HTMX)

    assert reply.context["undo"]["next"] == url


@pytest.mark.parametrize("sent", [{}, {"thumb": "perhaps"}, {"thumb": "up", "entry_id": "x" * 41}])
def test_what_is_no_thumb_is_not_here(signed_in, thumb_url, sent):
    assert signed_in.post(thumb_url, sent).status_code == 404
    assert verdicts() == []


def test_an_id_of_another_studio_is_refused_in_a_sentence(signed_in, thumb_url, demo):
    taken = Verdict.objects.filter(studio=demo).first().pk
    sent = {"thumb": "up", "entry_id": taken}

    plain = signed_in.post(thumb_url, sent, follow=True)
    scripted = signed_in.post(thumb_url, sent, headers=HTMX)

    assert "This entry came with an id that is taken." in plain.content.decode()
    assert scripted.headers["HX-Refresh"] == "true"
    assert verdicts() == []


def test_faults_are_tapped_by_surface(signed_in, thumb_url, pot_url):
    signed_in.post(thumb_url, {"thumb": "down"})

    reply = signed_in.post(
        pot_url,
        {
            "surface": "outside",
            "thumb": "down",
            "faults": ["pinhole", "stony"],
            "words": "worst at the foot",
        },
        headers=HTMX,
    )

    page = reply.content.decode()
    assert "outside: bad, pinholes, stony, worst at the foot" in page
    assert "What is wrong with it?" not in page
    assert verdicts() == [("outside", "down", ["pinhole", "stony"]), ("whole", "down", [])]


def test_faults_of_the_whole_pot_stand_beside_its_thumb(signed_in, url, pot_url):
    signed_in.post(
        pot_url,
        {"surface": "whole", "thumb": "sideways", "faults": ["warped"], "words": "rim"},
    )

    row = shelves_of(signed_in.get(url))["top"]["pots"][0]
    assert (row["thumb"], row["faults"], row["words"]) == ("sideways", ["warped"], "rim")


def test_faults_work_without_javascript(signed_in, url, pot_url):
    asked = signed_in.get(pot_url).content.decode()

    reply = signed_in.post(pot_url, {"surface": "inside", "thumb": "down", "faults": ["crawl"]})

    assert "Which surface?" in asked
    assert reply.url == f"{url}#pot-mug-0"
    assert verdicts() == [("inside", "down", ["crawl"])]


@pytest.mark.parametrize(
    "sent",
    [
        {},
        {"surface": "lid", "thumb": "down"},
        {"surface": "inside", "thumb": "down", "faults": ["ugly"]},
    ],
)
def test_what_cannot_be_judged_is_explained_and_nothing_stored(signed_in, pot_url, sent):
    reply = signed_in.post(pot_url, sent, headers=HTMX)

    assert reply.status_code == 422
    assert 'class="error"' in reply.content.decode()
    assert verdicts() == []


def test_faults_with_an_id_of_another_studio_are_refused(signed_in, pot_url, demo):
    taken = Verdict.objects.filter(studio=demo).first().pk

    reply = signed_in.post(pot_url, {"surface": "whole", "thumb": "up", "entry_id": taken})

    assert reply.status_code == 422
    assert "an id that is taken" in reply.content.decode()
    assert verdicts() == []


def test_the_page_counts_what_is_left(signed_in, firing, url, thumb_url):
    signed_in.post(thumb_url, {"thumb": "up"})
    some = signed_in.get(url).context["title"]
    for pot in ("mug-1", "mug-2"):
        signed_in.post(
            reverse("pages:opened-pot", args=[firing.pk, pot]),
            {"surface": "inside", "thumb": "up"},
        )

    assert some == "2 of 3 left to judge."
    assert signed_in.get(url).context["title"] == "All 3 pots are judged."


@pytest.mark.parametrize(
    ("kind", "answer", "asked", "told"),
    [
        ("feared", "yes", "You feared: a narrow foot. Did it come true?", "It came true."),
        ("hoped", "no", "You hoped: a narrow foot. Did it come true?", "It did not come true."),
    ],
)
def test_hopes_and_fears_are_asked_back(signed_in, member, firing, url, kind, answer, asked, told):
    pot = Pot.objects.get(pk="mug-0")
    hope = keep(Hope, member, entry_id="a-hope", pot=pot, kind=kind, words="a narrow foot")
    before = " ".join(signed_in.get(url).content.decode().split())
    answer_url = reverse("pages:hope-answered", args=[firing.pk, hope.pk])

    reply = signed_in.post(answer_url, {"came_true": answer}, headers=HTMX)

    assert asked in before
    assert told in reply.content.decode()
    assert HopeAnswer.objects.get(hope=hope).came_true is (answer == "yes")


def test_an_answer_works_without_javascript_is_kept_once_and_may_be_undone(
    signed_in, member, firing, url
):
    pot = Pot.objects.get(pk="mug-0")
    hope = keep(Hope, member, entry_id="a-hope", pot=pot, words="red")
    answer_url = reverse("pages:hope-answered", args=[firing.pk, hope.pk])

    replies = [
        signed_in.post(answer_url, {"came_true": "yes", "entry_id": "answer"}) for _ in range(2)
    ]
    kept = HopeAnswer.objects.filter(hope=hope).count()
    signed_in.post(reverse("pages:undo", args=["hopeanswer", "answer"]))

    assert [reply.url for reply in replies] == [f"{url}#pot-mug-0"] * 2
    assert kept == 1
    assert not HopeAnswer.objects.standing().filter(hope=hope).exists()


def test_what_is_no_answer_is_not_here_and_a_foreign_id_is_refused(signed_in, member, firing, demo):
    pot = Pot.objects.get(pk="mug-0")
    hope = keep(Hope, member, entry_id="a-hope", pot=pot, words="red")
    answer_url = reverse("pages:hope-answered", args=[firing.pk, hope.pk])
    taken = HopeAnswer.objects.filter(studio=demo).first().pk

    perhaps = signed_in.post(answer_url, {"came_true": "perhaps"})
    refused = signed_in.post(answer_url, {"came_true": "yes", "entry_id": taken}, follow=True)

    assert perhaps.status_code == 404
    assert "This entry came with an id that is taken." in refused.content.decode()
    assert not HopeAnswer.objects.filter(hope=hope).exists()


def test_a_hope_for_a_pot_of_another_load_is_not_here(signed_in, member, firing):
    hope = keep(Hope, member, pot=keep(Pot, member, name="elsewhere"), words="red")

    reply = signed_in.post(
        reverse("pages:hope-answered", args=[firing.pk, hope.pk]), {"came_true": "yes"}
    )

    assert reply.status_code == 404


def test_a_load_in_which_nothing_stood_says_so(signed_in, member, firing):
    empty = keep(Load, member, kiln=firing.load.kiln, name="empty")
    fired = kiln_actions.light(member, empty)

    reply = signed_in.get(reverse("pages:opening", args=[fired.pk]))

    assert reply.context["title"] == "Nothing stood in firing 2."


def test_demo_opening_asks_the_same_few_questions(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        reply = demo_client.get(reverse("pages:opening", args=["firing-2"]))

    page = " ".join(reply.content.decode().split())
    assert "You feared: two coats that move, on a narrow foot. It came true." in page


def test_somebody_of_another_studio_finds_nothing_and_judges_nothing(stranger, firing):
    urls = [
        reverse("pages:opening", args=[firing.pk]),
        reverse("pages:opened-pot", args=[firing.pk, "mug-0"]),
    ]
    posts = [
        reverse("pages:thumb", args=[firing.pk, "mug-0"]),
        reverse("pages:opened-pot", args=[firing.pk, "mug-0"]),
        reverse("pages:shelf-photo", args=[firing.pk, "top"]),
    ]

    assert [stranger.get(one).status_code for one in urls] == [404, 404]
    assert [stranger.post(one, {"thumb": "up"}).status_code for one in posts] == [404] * 3
    assert verdicts() == []


def test_what_is_unknown_is_not_here(signed_in, firing):
    unknown = [
        reverse("pages:opening", args=["no-such-firing"]),
        reverse("pages:opened-pot", args=[firing.pk, "no-such-pot"]),
    ]

    assert [signed_in.get(url).status_code for url in unknown] == [404, 404]


def test_judging_is_no_reading_and_reading_no_judging(signed_in, firing, url, thumb_url):
    refused = [
        signed_in.post(url),
        signed_in.get(thumb_url),
        signed_in.get(reverse("pages:shelf-photo", args=[firing.pk, "top"])),
        signed_in.get(reverse("pages:hope-answered", args=[firing.pk, "any"])),
        signed_in.put(reverse("pages:opened-pot", args=[firing.pk, "mug-0"])),
    ]

    assert [reply.status_code for reply in refused] == [405] * 5


def test_a_pot_judged_before_it_was_fired_again_is_still_to_judge(signed_in, member, firing):
    for n in range(3):
        judged_at = LIT + timedelta(hours=30)
        keep(Verdict, member, pot_id=f"mug-{n}", surface="whole", thumb="down", at=judged_at)
    again = keep(Load, member, kiln=firing.load.kiln, name="again", at=LIT + timedelta(days=2))
    kiln_actions.put_in(member, again, [Pot.objects.get(pk="mug-0")], None)
    second = kiln_actions.light(member, again, at=LIT + timedelta(days=3))

    first_page = signed_in.get(reverse("pages:opening", args=[firing.pk]))
    page = signed_in.get(reverse("pages:opening", args=[second.pk]))

    assert first_page.context["title"] == "All 3 pots are judged."
    assert page.context["title"] == "How did firing 2 come out?"
