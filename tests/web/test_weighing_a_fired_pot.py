"""The page of the scale of a pot that went through the fire: nothing is to be lit any more."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import bucket_of, coat_of, cylinder, pot_of, text_of, weighed

from wareboard.records.kiln import actions
from wareboard.records.kiln.models import Firing, Load, Placing
from wareboard.records.people.entry import keep
from wareboard.records.people.undoing import undo
from wareboard.records.ware.models import Weighing


@pytest.fixture
def pot(member):
    """A glazed pot, 3 g over its dry weight when it was last weighed."""
    pot = pot_of(member, cylinder(member))
    weighed(member, pot, 1000, "bone dry", 250)
    coat = coat_of(member, pot, bucket_of(member), 0.5)
    weighed(member, pot, round(coat.after_g) - 20, "glazed", 60)
    return pot


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/weigh/"


@pytest.fixture
def fired(member, pot):
    """Two days ago it was fired."""
    at = timezone.now() - timedelta(hours=48)
    kiln = actions.new_kiln(member, name="the small one", end_cone="9")
    load = keep(Load, member, kiln=kiln, at=at)
    keep(Placing, member, load=load, pot=pot, at=at)
    return keep(Firing, member, load=load, number=1, at=at)


def test_a_raw_pot_is_told_whether_it_may_be_lit(signed_in, url):
    page = signed_in.get(url)

    assert page.context["answer"].sign != ""


def test_a_pot_that_was_fired_since_has_no_sign_and_loses_no_water(signed_in, fired, url):
    page = signed_in.get(url)

    answer = page.context["answer"]
    assert answer.say.endswith(" g, before it was fired.")
    assert (answer.sign, answer.working, answer.falling, answer.why) == ("", "", "", [])
    assert "over" not in text_of(page)


def test_a_fired_pot_is_offered_as_fired(signed_in, fired, url):
    signed_in.post(url, {"weight_g": "960", "state": "fired"})

    page = signed_in.get(url)
    assert page.context["likely"] == "fired"
    assert page.context["answer"].say == "960 g, fired."


def test_one_that_is_glazed_anew_after_a_fire_is_not_held_to_its_raw_clay(
    signed_in, member, pot, fired, url
):
    coat_of(member, pot, bucket_of(member, "Rill"), 0.5, hours_ago=2, before_g=960)

    offered = signed_in.get(url).context["likely"]
    signed_in.post(url, {"weight_g": "970", "state": "glazed"})

    answer = signed_in.get(url).context["answer"]
    assert offered == "glazed"
    assert (answer.say, answer.sign, answer.again) == ("970 g. It was fired before.", "", "")


def test_where_the_lighting_was_taken_back_it_is_raw_again(signed_in, fired, url):
    undo(fired)

    assert signed_in.get(url).context["answer"].sign != ""


def test_one_that_was_only_weighed_as_fired_no_longer_falls(signed_in, member, pot, url):
    weighed(member, pot, 1010, "glazed", 50)

    signed_in.post(url, {"weight_g": "960", "state": "fired"})

    answer = signed_in.get(url).context["answer"]
    assert (answer.say, answer.falling) == ("960 g, fired.", "")


def test_a_fired_pot_that_was_never_weighed_is_asked_its_weight(signed_in, member, url, fired):
    undone = Weighing.objects.filter(studio=member.studio_id)
    undone.update(undone_at=timezone.now())

    page = signed_in.get(url)

    assert page.context["answer"] is None
    assert page.context["likely"] == "fired"
