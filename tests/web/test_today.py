"""Today, the front door."""

from datetime import datetime, timedelta

import pytest
from django.utils import timezone

from wareboard.records.kiln.models import Firing, Kiln, Load, Moment, Placing
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Air, Pot, Weighing
from wareboard.web.pages.today_answer import kiln_clock


def test_the_demo_says_when_it_would_be_off_and_open(demo_client):
    question = demo_client.get("/").context["question"]

    assert question.title.startswith("Lit by ")
    assert " it would be off about " in question.title
    assert ", open about " in question.title
    assert question.n == 5


def test_it_names_the_bucket_that_drifted(demo_client):
    buckets = demo_client.get("/").context["buckets"]

    assert [(b["id"], b["say"]) for b in buckets] == [
        ("limpet-bucket-2", "thin: 1.47, its good pots had 1.50")
    ]


def test_it_takes_at_most_twelve_queries(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        demo_client.get("/")


def test_an_empty_studio_is_told_what_to_do(signed_in):
    reply = signed_in.get("/")

    assert reply.context["question"] is None
    assert b"Put pots into a load" in reply.content


@pytest.fixture
def load(member):
    kiln = keep(Kiln, member, name="the kiln")
    return keep(Load, member, kiln=kiln, name="Friday")


def put_in(member, load, *, dry_g: float, now_g: float) -> Pot:
    """Put a pot into a load, with its bone-dry weight and one of today."""
    pot = keep(Pot, member, name="casserole")
    day = timedelta(days=1)
    keep(Weighing, member, pot=pot, weight_g=dry_g, state="bone dry", at=timezone.now() - 3 * day)
    keep(Weighing, member, pot=pot, weight_g=now_g, state="leather-hard")
    keep(Placing, member, load=load, pot=pot)
    return pot


def test_without_a_past_firing_it_says_so(signed_in, member, load):
    put_in(member, load, dry_g=1000, now_g=1005)
    keep(Air, member, word="crisp")

    question = signed_in.get("/").context["question"]

    assert question.title == "The load waits."
    assert "no past firing of this kiln" in question.text


def test_a_dry_load_is_told_to_light(signed_in, member, load):
    put_in(member, load, dry_g=1800, now_g=1810)
    keep(Air, member, word="ordinary")
    past = keep(Load, member, kiln=load.kiln)
    lit = timezone.now() - timedelta(days=9)
    old = keep(Firing, member, load=past, number=1, at=lit)
    keep(Moment, member, firing=old, kind="shut off", at=lit + timedelta(hours=14))
    keep(Moment, member, firing=old, kind="opened", at=lit + timedelta(hours=32))

    question = signed_in.get("/").context["question"]

    assert question.title.startswith("Light by ")
    assert " and it is off about " in question.title


def test_a_pot_that_is_too_wet_stops_the_load(signed_in, member, load):
    put_in(member, load, dry_g=1800, now_g=1896)
    keep(Air, member, word="fog", rh_percent=87)

    question = signed_in.get("/").context["question"]

    assert question.title == "Not tonight as it stands."
    assert question.text.startswith("The casserole is the wettest: 64 g more than this air")


def test_a_running_firing_takes_the_door(signed_in, member, load):
    keep(Firing, member, load=load, number=1, at=timezone.now() - timedelta(hours=5))

    question = signed_in.get("/").context["question"]

    assert question.title == "Firing 1 is 5 hours in."


def test_a_cooling_kiln_says_when_it_was_opened_before(signed_in, member, load):
    past = keep(Load, member, kiln=load.kiln)
    lit = timezone.now() - timedelta(days=9)
    old = keep(Firing, member, load=past, number=1, at=lit)
    keep(Moment, member, firing=old, kind="shut off", at=lit + timedelta(hours=14))
    keep(Moment, member, firing=old, kind="opened", at=lit + timedelta(hours=32))
    firing = keep(Firing, member, load=load, number=2, at=timezone.now() - timedelta(hours=15))
    keep(Moment, member, firing=firing, kind="shut off", at=timezone.now() - timedelta(hours=1))

    question = signed_in.get("/").context["question"]

    assert question.title.startswith("Firing 2 is cooling. Open at about ")
    assert question.n == 1


def test_the_hours_of_a_kiln_are_its_own_shortest_usual_and_longest():
    lit = datetime(2026, 9, 13, 6, tzinfo=timezone.get_current_timezone())

    class Past:
        """A firing as the query gives it."""

        def __init__(self, up: float, down: float | None) -> None:
            self.at = lit
            self.shut_at = lit + timedelta(hours=up)
            self.opened_at = None if down is None else self.shut_at + timedelta(hours=down)

    clock = kiln_clock([Past(14, 18), Past(15, None), Past(13, 20)])

    assert clock.firing_h == pytest.approx((13, 14, 15))
    assert clock.cooling_h == pytest.approx((18, 19, 20))
    assert clock.n == 3


def test_a_studio_without_a_backup_is_told_so(demo_client):
    assert b"No backup yet." in demo_client.get("/").content
