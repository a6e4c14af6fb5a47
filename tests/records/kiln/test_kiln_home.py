"""The front page of the kiln room."""

from datetime import timedelta

import pytest
from django.urls import reverse

from wareboard.records.kiln import actions, happened
from wareboard.records.kiln.models import Firing, Kiln, Load, Place
from wareboard.records.people.entry import keep

from .conftest import LIT

HOME = reverse("kiln:home")


def test_demo_lists_its_firings_newest_first_with_hours_cones_and_the_good_one(demo_client):
    page = demo_client.get(HOME).content.decode()

    at = [page.index(f">Firing {n}<") for n in (5, 4, 3, 2, 1)]
    assert at == sorted(at)
    assert "15 h 35 · cone 9 at 5 o’clock top and middle, 3 bottom" in page
    assert "14 h 50 · cone 9 at 6 o’clock on every shelf" in page
    assert page.count("the good one") == 1
    assert page.index("the good one") > at[-1]


def test_a_new_studio_is_told_to_take_its_kiln_in(signed_in):
    page = signed_in.get(HOME).content.decode()

    assert "Nothing waits for the kiln." in page
    assert "No kiln yet: take yours in first." in page
    assert "New load" not in page


def test_a_kiln_comes_with_three_shelves(signed_in, studio):
    reply = signed_in.post(
        reverse("kiln:new-kiln"),
        {"name": "the box", "end_cone": "04", "fuel": "electric", "cones": "large"},
    )

    kiln = Kiln.objects.get(studio=studio)
    assert (reply.status_code, reply.url) == (302, HOME)
    assert (kiln.name, kiln.end_cone, kiln.fuel, kiln.cones) == (
        "the box",
        "04",
        "electric",
        "large",
    )
    assert sorted(Place.objects.filter(kiln=kiln).values_list("level", flat=True)) == [
        "bottom",
        "middle",
        "top",
    ]
    assert "electricity, to cone 04, top · middle · bottom" in signed_in.get(HOME).content.decode()


def test_a_kiln_without_a_name_is_refused_and_nothing_stored(signed_in, studio):
    reply = signed_in.post(reverse("kiln:new-kiln"), {"fuel": "propane", "cones": "large"})

    assert reply.status_code == 422
    assert "What is it called? Nothing is written here yet." in reply.content.decode()
    assert not Kiln.objects.filter(studio=studio).exists()


@pytest.mark.parametrize("name", ["new-kiln", "new-load"])
def test_an_id_of_another_studio_is_refused_in_a_sentence(signed_in, kiln, demo, name):
    sent = {"name": "x", "fuel": "wood", "cones": "large", "kiln": kiln.pk, "entry_id": "load-1"}
    keep(Kiln, kiln.by, entry_id="load-1-00", name="taken")
    Kiln.objects.filter(pk="load-1-00").update(studio=demo)

    reply = signed_in.post(reverse(f"kiln:{name}"), sent)

    assert reply.status_code == 422
    assert "This entry came with an id that is taken." in reply.content.decode()


def test_one_tap_begins_a_load_where_there_is_one_kiln(signed_in, kiln):
    sent = {"kiln": kiln.pk, "entry_id": "a-new-load"}

    first = signed_in.post(reverse("kiln:new-load"), sent)
    again = signed_in.post(reverse("kiln:new-load"), sent)

    assert first.url == again.url == reverse("kiln:load", args=["a-new-load"])
    assert Load.objects.filter(kiln=kiln).count() == 1
    assert f'name="kiln" value="{kiln.pk}"' in signed_in.get(HOME).content.decode()


def test_two_kilns_are_asked_about(signed_in, member, kiln):
    keep(Kiln, member, name="the other one")

    page = signed_in.get(reverse("kiln:new-load")).content.decode()

    assert "In which kiln?" in page
    assert page.index("the other one") < page.index("the small one")


def test_a_load_in_a_kiln_of_another_studio_is_refused(stranger, kiln):
    keep_own = stranger.post(
        reverse("kiln:new-kiln"), {"name": "own", "fuel": "wood", "cones": "large"}
    )

    reply = stranger.post(reverse("kiln:new-load"), {"kiln": kiln.pk})

    assert keep_own.status_code == 302
    assert reply.status_code == 422
    assert not Load.objects.filter(kiln=kiln).exists()


def test_without_a_kiln_a_new_load_leads_to_taking_one_in(signed_in):
    assert signed_in.get(reverse("kiln:new-load")).url == reverse("kiln:new-kiln")


def test_a_load_that_waits_leads_to_the_question_whether_it_may_be_lit(
    signed_in, member, load, pots, shelf
):
    actions.put_in(member, load, pots, shelf("top"))

    page = signed_in.get(HOME).content.decode()

    assert "Friday’s load waits with 5 pots." in page
    assert f'href="{reverse("kiln:before-lighting", args=[load.pk])}"' in page
    assert reverse("kiln:light", args=[load.pk]) not in page


def test_a_kiln_that_burns_says_for_how_long_and_one_that_cools_says_so(signed_in, fire):
    burning = fire("burning", [])
    Firing.objects.filter(pk=burning.pk).update(at=LIT)

    burns = signed_in.get(HOME).content.decode()
    happened.keep_moment(burning.by, burning, "shut off")
    cools = signed_in.get(HOME).content.decode()

    assert "<h1>Firing 1 is " in burns
    assert " in.</h1>" in burns
    assert "Firing 1 is cooling." in cools


def test_fifty_firings_a_page_and_the_rest_behind_a_link(signed_in, member, kiln):
    for n in range(52):
        load = keep(Load, member, kiln=kiln, name=f"load {n}")
        keep(Firing, member, load=load, number=n + 1, at=LIT + timedelta(days=n))

    first = signed_in.get(HOME)
    last_shown = first.context["more"]
    second = signed_in.get(HOME, {"after": last_shown})

    assert [row["firing"].number for row in first.context["firings"]] == list(range(52, 2, -1))
    assert [row["firing"].number for row in second.context["firings"]] == [2, 1]
    assert "Earlier firings" in second.content.decode()


@pytest.mark.parametrize("known", ["no-such-firing", "firing-1"])
def test_a_page_after_a_firing_of_nobody_or_of_another_studio_is_not_here(stranger, demo, known):
    assert stranger.get(HOME, {"after": known}).status_code == 404


def test_however_many_firings_the_page_asks_the_same_few_questions(
    demo_client, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        demo_client.get(HOME)


def test_the_page_is_for_reading(signed_in):
    assert signed_in.post(HOME).status_code == 405
