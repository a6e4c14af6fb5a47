"""Gas by the scale: used so far, by stage, and what is left."""

from datetime import timedelta

import pytest
from django.urls import reverse

from wareboard.records.kiln import actions
from wareboard.records.kiln.models import FuelWeight
from wareboard.records.people.models import Studio

from .conftest import LIT


@pytest.fixture
def firing(fire):
    return fire("now", [], moments=[("sealed", 6.0)])


@pytest.fixture
def url(firing):
    return reverse("kiln:gas", args=[firing.pk])


@pytest.fixture
def weighed(member, firing):
    def at(hours, gross_kg, cylinder="", tare_kg=None):
        return actions.weigh_cylinder(
            member,
            firing,
            gross_kg=gross_kg,
            tare_kg=tare_kg,
            cylinder=cylinder,
            at=LIT + timedelta(hours=hours),
        )

    return at


def test_a_weight_is_kept_with_its_cylinder(signed_in, url, firing):
    reply = signed_in.post(url, {"gross_kg": "98,8", "tare_kg": "54.2", "cylinder": "number 1"})

    kept = FuelWeight.objects.get(firing=firing)
    assert reply.url == url
    assert (kept.gross_kg, kept.tare_kg, kept.cylinder) == (98.8, 54.2, "number 1")


def test_the_next_weighing_remembers_cylinder_and_tare(signed_in, url, weighed):
    weighed(0, 98.8, "number 1", 54.2)

    form = signed_in.get(url).context["form"]

    assert form.initial == {"cylinder": "number 1", "tare_kg": "54.2 kg"}


def test_used_so_far_is_told_by_stage_with_its_doubt(signed_in, url, weighed):
    for hours, gross_kg in ((0, 98.8), (6, 97.0), (14, 77.8)):
        weighed(hours, gross_kg, tare_kg=54.2)

    reply = signed_in.get(url)

    answer = reply.context["answer"]
    assert answer.title == "21.0 kg of gas used."
    assert answer.doubt == "(± 0.1 kg)"
    assert answer.said == [
        "Until sealed: 1.8 kg in 6 h, 0.3 kg an hour.",
        "Since: 19.2 kg in 8 h, 2.4 kg an hour.",
        "Left in it: 23.6 kg.",
    ]
    assert "Hours of candling tell nothing about the climb" in reply.content.decode()


def test_without_a_sealed_door_there_is_one_rate(signed_in, member, fire):
    firing = fire("open", [])
    for hours, gross_kg in ((0, 50.0), (5, 45.0)):
        at = LIT + timedelta(hours=hours)
        actions.weigh_cylinder(member, firing, gross_kg=gross_kg, at=at)

    said = signed_in.get(reverse("kiln:gas", args=[firing.pk])).context["answer"].said

    assert said == ["5.0 kg in 5 h, 1.0 kg an hour."]


def test_two_cylinders_are_added_and_each_says_what_is_left(signed_in, url, weighed):
    for hours, gross_kg, cylinder in (
        (0, 60.0, "A"),
        (4, 50.0, "A"),
        (4, 70.0, "B"),
        (9, 65.0, "b"),
    ):
        weighed(hours, gross_kg, cylinder, 40.0)

    answer = signed_in.get(url).context["answer"]

    assert answer.title == "15.0 kg of gas used."
    assert answer.doubt == "(± 0.2 kg)"
    assert answer.said[-2:] == ["A: Left in it: 10.0 kg.", "b: Left in it: 25.0 kg."]


def test_two_weighings_in_a_row_make_no_rate(signed_in, member, fire):
    firing = fire("open", [])
    for hours, gross_kg in ((0, 50.0), (0.1, 49.9)):
        at = LIT + timedelta(hours=hours)
        actions.weigh_cylinder(member, firing, gross_kg=gross_kg, at=at)

    answer = signed_in.get(reverse("kiln:gas", args=[firing.pk])).context["answer"]

    assert (answer.title, answer.said) == ("0.1 kg of gas used.", [])


def test_one_weighing_asks_for_another_and_none_says_when_to_weigh(signed_in, url, weighed):
    none = signed_in.get(url).content.decode()
    weighed(0, 98.8)
    one = signed_in.get(url).context["answer"]

    assert "No cylinder weighed yet." in none
    assert "Weigh the cylinder before lighting, when the door is sealed, and at the end." in none
    assert (one.title, one.known) == ("Weigh the cylinder again later.", False)


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({}, "nothing is written here; accepted is kilograms from 0 to 10000."),
        ({"gross_kg": "heavy"}, "is not a number"),
        ({"gross_kg": "0.01"}, "A cylinder weighs more than that."),
        ({"gross_kg": "50", "tare_kg": "54"}, "It cannot weigh less than empty"),
    ],
)
def test_what_cannot_be_is_explained_and_nothing_stored(signed_in, url, firing, sent, said):
    reply = signed_in.post(url, sent)

    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert not FuelWeight.objects.filter(firing=firing).exists()


def test_sent_twice_it_is_kept_once(signed_in, url, firing):
    for _ in range(2):
        signed_in.post(url, {"gross_kg": "98.8", "entry_id": "one-weight"})

    assert FuelWeight.objects.filter(firing=firing).count() == 1


def test_an_id_of_another_studio_is_refused(signed_in, url, firing, demo):
    taken = FuelWeight.objects.filter(studio=demo).first().pk

    reply = signed_in.post(url, {"gross_kg": "98.8", "entry_id": taken})

    assert reply.status_code == 422
    assert not FuelWeight.objects.filter(firing=firing).exists()


def test_undo_takes_the_weight_back(signed_in, url, firing):
    signed_in.post(url, {"gross_kg": "98.8"})
    undo = signed_in.get(url).context["undo"]

    signed_in.post(undo["url"])

    assert undo["say"] == "Kept: 98.8 kg."
    assert not FuelWeight.objects.standing().filter(firing=firing).exists()


def test_a_studio_in_pounds_types_and_reads_pounds(signed_in, url, firing, studio):
    Studio.objects.filter(pk=studio.pk).update(mass="pound")

    signed_in.post(url, {"gross_kg": "100"})

    kept = FuelWeight.objects.get(firing=firing)
    assert kept.gross_kg == pytest.approx(45.359237)  # the international pound, by definition
    assert "100.0 lb" in signed_in.get(url).content.decode()


@pytest.mark.parametrize(
    ("number", "used"), [(1, "21.0 kg"), (3, "23.0 kg")]
)  # as the demo's story has it
def test_demo_firings_took_the_gas_of_their_story(demo_client, number, used):
    page = demo_client.get(reverse("kiln:gas", args=[f"firing-{number}"])).content.decode()
    log = demo_client.get(reverse("kiln:firing", args=[f"firing-{number}"])).content.decode()

    assert f"<h1>{used} of gas used.</h1>" in page
    assert f"{used} of gas used." in log


def test_an_electric_kiln_is_not_asked_for_gas(signed_in, kiln, firing):
    type(kiln).objects.filter(pk=kiln.pk).update(fuel="electric")

    page = signed_in.get(reverse("kiln:firing", args=[firing.pk])).content.decode()

    assert reverse("kiln:gas", args=[firing.pk]) not in page


def test_the_gas_caution_defers_to_code_and_fitter(signed_in, url):
    page = signed_in.get(url).content.decode()

    assert "for a licensed fitter, and your local gas code comes first." in page
