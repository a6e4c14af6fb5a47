"""A load that went in wet: the log keeps saying so until the steam is gone."""

from datetime import timedelta

import pytest
from django.urls import reverse

from wareboard.records.kiln import actions, happened
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Air, Pot, Weighing

from .conftest import LIT


@pytest.fixture
def weigh(member):
    def of(pot, weight_g, state, *, hours):
        at = LIT + timedelta(hours=hours)
        keep(Weighing, member, pot=pot, weight_g=weight_g, state=state, at=at)

    return of


@pytest.fixture
def lit(member, load):
    """Light a load of some pots in dry air, at six in the morning."""
    keep(Air, member, word="crisp", at=LIT - timedelta(hours=1))

    def of(*pots):
        actions.put_in(member, load, pots, None)
        return actions.light(member, load, entry_id="lit", at=LIT)

    return of


@pytest.fixture
def casserole(member):
    return keep(Pot, member, entry_id="casserole", name="casserole")


@pytest.fixture
def wet(casserole, weigh, lit):
    """A casserole that was bone dry at 1600 g and weighed 1664 g when it went in."""
    weigh(casserole, 1600.0, "bone dry", hours=-30)
    weigh(casserole, 1664.0, "leather-hard", hours=-2)
    return lit(casserole)


def line_on_top(client, firing):
    return client.get(reverse("kiln:firing", args=[firing.pk])).context["slow_start"]


def write(member, firing, temp_c, hours):
    actions.write_line(member, firing, temp_c=temp_c, at=LIT + timedelta(hours=hours))


def test_a_pot_that_said_stop_is_named_with_what_it_held(signed_in, wet):
    page = signed_in.get(reverse("kiln:firing", args=[wet.pk]))

    assert page.context["slow_start"] == (
        "Below 95 °C until the steam has gone: “casserole” was 64 g (61–67) over its dry weight."
    )
    assert page.context["slow_start"] in page.content.decode()


def test_the_line_stays_until_the_log_shows_a_hundred_degrees(signed_in, member, wet):
    write(member, wet, 24.0, 0.5)
    write(member, wet, 99.0, 3)
    below = line_on_top(signed_in, wet)
    write(member, wet, 100.0, 4)

    past = line_on_top(signed_in, wet)

    assert below != ""
    assert past == ""


def test_the_line_goes_when_the_fire_is_out(signed_in, member, wet):
    happened.keep_moment(member, wet, "shut off", at=LIT + timedelta(hours=1))

    assert line_on_top(signed_in, wet) == ""


def test_of_several_wet_pots_the_wettest_is_named(signed_in, casserole, pots, weigh, lit):
    weigh(casserole, 1600.0, "bone dry", hours=-30)
    weigh(casserole, 1664.0, "leather-hard", hours=-2)
    weigh(pots[0], 300.0, "bone dry", hours=-30)
    weigh(pots[0], 330.0, "leather-hard", hours=-2)

    said = line_on_top(signed_in, lit(casserole, pots[0]))

    assert said == (
        "Below 95 °C until the steam has gone: “casserole” was 64 g (61–67) over its dry weight, "
        "1 more was wet too."
    )


def test_pots_that_were_never_weighed_are_no_go_either(signed_in, pots, lit):
    said = line_on_top(signed_in, lit(*pots[:2]))

    assert said == (
        "Below 95 °C until the steam has gone: of 2 pots it could not be told whether they were "
        "dry."
    )


def test_a_load_in_which_every_pot_was_a_go_says_nothing(signed_in, casserole, weigh, lit):
    weigh(casserole, 1600.0, "bone dry", hours=-30)
    weigh(casserole, 1601.0, "bone dry", hours=-2)

    assert line_on_top(signed_in, lit(casserole)) == ""


def test_a_studio_in_fahrenheit_reads_it_in_fahrenheit(signed_in, studio, wet):
    studio.temperature = "fahrenheit"
    studio.save()

    assert line_on_top(signed_in, wet).startswith("Below 203 °F until the steam has gone")


def test_after_lighting_the_log_asks_the_same_few_questions(
    signed_in, member, load, casserole, weigh, good, django_assert_max_num_queries
):
    weigh(casserole, 1600.0, "bone dry", hours=-30)
    weigh(casserole, 1664.0, "leather-hard", hours=-2)
    actions.put_in(member, load, [casserole], None)
    lit = signed_in.post(reverse("kiln:light", args=[load.pk]))

    with django_assert_max_num_queries(12):
        page = signed_in.get(lit.url)

    assert "over its dry weight" in page.context["slow_start"]
