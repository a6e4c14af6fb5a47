"""Lighting, and what happens once in a firing: one tap each, stamped by itself."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions, happened
from wareboard.records.kiln.models import Firing, GoodFiring, Kiln, Load, Moment
from wareboard.records.people.entry import keep


@pytest.fixture
def light_url(load):
    return reverse("kiln:light", args=[load.pk])


def test_one_tap_makes_the_next_firing_of_this_kiln(signed_in, light_url, member, load, fire):
    fire("earlier", [], number=7)
    other = keep(Load, member, kiln=keep(Kiln, member, name="the other"), name="elsewhere")
    keep(Firing, member, load=other, number=30)

    reply = signed_in.post(light_url, {"entry_id": "the-tap"})

    firing = Firing.objects.get(pk="the-tap")
    assert reply.url == reverse("kiln:firing", args=["the-tap"])
    assert (firing.number, firing.load_id) == (8, load.pk)
    assert timezone.now() - firing.at < timedelta(minutes=1)


def test_the_first_firing_of_a_kiln_has_number_one(member, load):
    assert actions.light(member, load).number == 1


def test_the_same_tap_sent_twice_lights_once(signed_in, light_url, load):
    first = signed_in.post(light_url, {"entry_id": "the-tap"})
    second = signed_in.post(light_url, {"entry_id": "the-tap"})

    assert first.url == second.url
    assert Firing.objects.filter(load=load).count() == 1


def test_a_load_is_lit_once(signed_in, light_url, member, load):
    actions.light(member, load)

    reply = signed_in.post(light_url, {"entry_id": "another-tap"})

    assert reply.status_code == 422
    assert "This load was lit already: it is firing 1." in reply.content.decode()
    assert Firing.objects.filter(load=load).count() == 1


def test_an_id_that_is_none_is_refused_and_nothing_lit(signed_in, light_url, load):
    reply = signed_in.post(light_url, {"entry_id": "../../etc"})

    assert reply.status_code == 422
    assert not Firing.objects.filter(load=load).exists()


def test_undo_takes_the_lighting_back_and_leads_to_the_load(signed_in, light_url, load):
    signed_in.post(light_url, {"entry_id": "the-tap"})
    undo = signed_in.get(reverse("kiln:firing", args=["the-tap"])).context["undo"]

    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert undo["say"] == "Lit."
    assert reply.url == reverse("kiln:load", args=[load.pk])
    assert not Firing.objects.standing().filter(load=load).exists()


def test_after_an_undo_the_load_may_be_lit_again(signed_in, light_url, member, load):
    actions.light(member, load, entry_id="first")
    signed_in.post(reverse("pages:undo", args=["firing", "first"]))

    signed_in.post(light_url, {"entry_id": "second"})

    assert [firing.pk for firing in Firing.objects.standing().filter(load=load)] == ["second"]


@pytest.mark.parametrize("kind", ["candle", "sealed", "shut off", "opened"])
def test_a_moment_is_one_tap_and_stands_with_its_time(signed_in, member, load, kind):
    firing = actions.light(member, load)
    url = reverse("kiln:moment", args=[firing.pk])

    reply = signed_in.post(url, {"kind": kind, "entry_id": "a-moment"})

    moment = Moment.objects.get(firing=firing)
    page = signed_in.get(reverse("kiln:firing", args=[firing.pk])).content.decode()
    assert reply.url == reverse("kiln:firing", args=[firing.pk])
    assert moment.kind == kind
    assert timezone.now() - moment.at < timedelta(minutes=1)
    assert f'name="kind" value="{kind}"' not in page
    assert f"<strong>{moment.get_kind_display()}</strong>" in page


def test_a_moment_happens_once(signed_in, member, load):
    firing = actions.light(member, load)
    url = reverse("kiln:moment", args=[firing.pk])

    for tap in ("first", "first", "second"):
        signed_in.post(url, {"kind": "sealed", "entry_id": tap})

    assert [moment.pk for moment in Moment.objects.filter(firing=firing)] == ["first"]


def test_undo_takes_a_moment_back(signed_in, member, load):
    firing = actions.light(member, load)
    happened.keep_moment(member, firing, "shut off")
    undo = signed_in.get(reverse("kiln:firing", args=[firing.pk])).context["undo"]

    signed_in.post(undo["url"])

    assert undo["say"] == "Kept: shut off."
    assert not Moment.objects.standing().filter(firing=firing).exists()


@pytest.mark.parametrize("sent", [{"kind": "lunch"}, {}, {"kind": "sealed", "entry_id": "x" * 41}])
def test_what_is_no_moment_is_not_here(signed_in, member, load, sent):
    firing = actions.light(member, load)

    reply = signed_in.post(reverse("kiln:moment", args=[firing.pk]), sent)

    assert reply.status_code == 404
    assert not Moment.objects.filter(firing=firing).exists()


def test_a_moment_tapped_elsewhere_leads_back_there_and_nowhere_else(signed_in, member, load):
    firing = actions.light(member, load)
    url, home = reverse("kiln:moment", args=[firing.pk]), reverse("kiln:home")

    there = signed_in.post(url, {"kind": "candle", "next": home})
    away = signed_in.post(url, {"kind": "sealed", "next": "https://elsewhere.example/"})

    assert there.url == home
    assert away.url == reverse("kiln:firing", args=[firing.pk])


def test_one_tap_calls_a_firing_the_good_one(signed_in, good, fire):
    later = fire("later", [], number=2, moments=[("shut off", 12.0)])
    url = reverse("kiln:good", args=[later.pk])

    signed_in.post(url, {"entry_id": "called"})
    signed_in.post(url, {"entry_id": "called-again"})

    reply = signed_in.get(reverse("kiln:firing", args=[later.pk]))
    assert list(GoodFiring.objects.filter(firing=later).values_list("pk", flat=True)) == ["called"]
    assert reply.context["course"].is_good
    assert reply.context["undo"]["say"] == "Called the good one."


def test_undo_brings_the_good_one_before_back(signed_in, good, fire):
    later = fire("later", [], number=2, moments=[("shut off", 12.0)])
    signed_in.post(reverse("kiln:good", args=[later.pk]), {"entry_id": "called"})

    signed_in.post(reverse("kiln:log-undo", args=[later.pk, "goodfiring", "called"]))

    course = signed_in.get(reverse("kiln:firing", args=[later.pk])).context["course"]
    assert course.good == good
    assert not course.is_good


def test_a_good_one_with_an_id_that_is_none_is_not_called(signed_in, good, fire):
    later = fire("later", [], number=2)

    reply = signed_in.post(reverse("kiln:good", args=[later.pk]), {"entry_id": "x" * 41})

    assert reply.status_code == 404
    assert not GoodFiring.objects.filter(firing=later).exists()


@pytest.mark.parametrize(("name", "taken"), [("moment", Moment), ("good", GoodFiring)])
def test_a_tap_with_an_id_of_another_studio_is_refused_in_a_sentence(
    signed_in, fire, demo, name, taken
):
    firing = fire("later", [], number=2)
    sent = {"kind": "sealed", "entry_id": taken.objects.filter(studio=demo).first().pk}

    reply = signed_in.post(reverse(f"kiln:{name}", args=[firing.pk]), sent, follow=True)

    assert "This entry came with an id that is taken." in reply.content.decode()
    assert not taken.objects.filter(firing=firing).exists()


@pytest.mark.parametrize("name", ["moment", "good"])
def test_taps_are_no_reading(signed_in, good, name):
    assert signed_in.get(reverse(f"kiln:{name}", args=[good.pk])).status_code == 405


@pytest.mark.parametrize("name", ["moment", "good"])
def test_somebody_of_another_studio_taps_nothing(stranger, good, name):
    reply = stranger.post(reverse(f"kiln:{name}", args=[good.pk]), {"kind": "candle"})

    assert reply.status_code == 404
    assert not Moment.objects.filter(firing=good, kind="candle").exists()
