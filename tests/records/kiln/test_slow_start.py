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
    """Give the sentence that the log asks for beside itself."""
    return client.get(reverse("kiln:slow-start", args=[firing.pk])).context["slow_start"]


def holds_low(client, firing):
    return client.get(reverse("kiln:firing", args=[firing.pk])).context["hold_below"] != ""


def write(member, firing, temp_c, hours):
    actions.write_line(member, firing, temp_c=temp_c, at=LIT + timedelta(hours=hours))


def test_a_pot_that_said_stop_is_named_with_what_it_held(signed_in, wet):
    asked = signed_in.get(reverse("kiln:slow-start", args=[wet.pk]))

    assert asked.context["slow_start"] == (
        "Below 95 °C until the steam has gone: “casserole” was 64 g (61–67) over its dry weight."
    )
    assert asked.context["slow_start"] in asked.content.decode()


def test_the_log_asks_for_it_and_says_to_hold_low_without_scripts_too(signed_in, wet):
    page = signed_in.get(reverse("kiln:firing", args=[wet.pk])).content.decode()

    assert f'hx-get="{reverse("kiln:slow-start", args=[wet.pk])}"' in page
    assert "Below 95 °C until the steam has gone." in page
    assert f'href="{reverse("kiln:before-lighting", args=[wet.load_id])}"' in page


def test_an_empty_kiln_says_nothing_of_pots(signed_in, lit):
    asked = signed_in.get(reverse("kiln:slow-start", args=[lit().pk]))

    assert asked.context["slow_start"] is None
    assert "Every pot" not in asked.content.decode()


def test_the_line_stays_until_the_log_shows_a_hundred_degrees(signed_in, member, wet):
    write(member, wet, 24.0, 0.5)
    write(member, wet, 99.0, 3)
    below = holds_low(signed_in, wet)
    write(member, wet, 100.0, 4)

    past = holds_low(signed_in, wet)

    assert below
    assert not past


def test_heat_that_comes_too_soon_drove_no_steam_out(signed_in, member, wet):
    write(member, wet, 120.0, 0.25)

    page = signed_in.get(reverse("kiln:firing", args=[wet.pk])).context

    assert page["hold_below"] != ""
    assert page["too_soon"] == (
        "It passed 95 °C 15 minutes after lighting: turn it down if pots went in wet."
    )


def test_a_kiln_turned_down_after_heat_too_soon_is_still_told_of(signed_in, member, wet):
    write(member, wet, 120.0, 1 / 60)
    write(member, wet, 80.0, 0.5)

    page = signed_in.get(reverse("kiln:firing", args=[wet.pk])).context

    assert page["too_soon"].startswith("It passed 95 °C 1 minute after lighting")


def test_heat_after_a_slow_start_ends_what_was_said_of_heat_too_soon(signed_in, member, wet):
    write(member, wet, 120.0, 0.25)
    write(member, wet, 110.0, 2.5)

    page = signed_in.get(reverse("kiln:firing", args=[wet.pk])).context

    assert (page["hold_below"], page["too_soon"]) == ("", "")


def test_the_line_goes_when_the_fire_is_out(signed_in, member, wet):
    happened.keep_moment(member, wet, "shut off", at=LIT + timedelta(hours=1))

    assert not holds_low(signed_in, wet)


def test_a_weight_put_right_after_lighting_is_seen(signed_in, member, wet):
    weighed = Weighing.objects.get(weight_g=1664.0, pot="casserole")
    keep(
        Weighing,
        member,
        pot=weighed.pot,
        weight_g=1601.0,
        state="bone dry",
        at=weighed.at,
        corrects=weighed,
    )

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


@pytest.mark.parametrize("page", ["kiln:firing", "kiln:slow-start"])
def test_neither_asks_more_than_twelve_questions(
    signed_in, wet, good, page, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        reply = signed_in.get(reverse(page, args=[wet.pk]))

    assert reply.status_code == 200


def test_of_a_firing_of_another_studio_nothing_is_told(stranger, wet):
    assert stranger.get(reverse("kiln:slow-start", args=[wet.pk])).status_code == 404
