"""A temperature that cannot follow from the last line is asked about before it is kept."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln.models import LogLine
from wareboard.records.people.models import Studio

from .conftest import HTMX, steady

LOOK = "look at the temperature and the time again."


@pytest.fixture
def at_870(fire):
    """A firing that climbed to 870 °C and was read there twenty minutes ago."""
    lit = timezone.now() - timedelta(hours=8.5, minutes=20)
    return fire("now", steady(to_h=8.5), lit=lit)


@pytest.fixture
def write(signed_in, at_870):
    url = reverse("kiln:firing", args=[at_870.pk])

    def of(**sent):
        return signed_in.post(url, sent, headers=HTMX)

    return of


def newest(firing):
    return LogLine.objects.current().filter(firing=firing).order_by("kept_at").last()


def asked(reply):
    (say,) = reply.context["form"].errors["temp_c"]
    return say


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        # A last digit lost, a first one lost, two swapped, one tapped twice.
        ("115", "115 °C, 20 minutes after 870 °C: do you mean 1150 °C?"),
        ("89", "89 °C, 20 minutes after 870 °C: do you mean 890 °C?"),
        ("187", "187 °C, 20 minutes after 870 °C: do you mean 817 °C?"),
        (
            "20",
            f"20 °C, 20 minutes after 870 °C, is faster than a kiln falls: {LOOK}",
        ),
        (
            "1390",
            f"1390 °C, 20 minutes after 870 °C, is faster than a kiln climbs: {LOOK}",
        ),
    ],
)
def test_what_no_kiln_can_have_by_then_is_asked_about_with_what_was_meant(
    write, at_870, typed, said
):
    reply = write(temp_c=typed)

    assert (reply.status_code, asked(reply)) == (422, said)
    assert f"I looked again: it is {typed} °C." in reply.content.decode()
    assert newest(at_870).temp_c == 870


@pytest.mark.parametrize("typed", ["700", "855", "870", "905", "960"])
def test_what_a_kiln_can_do_is_not_asked_about(write, at_870, typed):
    assert write(temp_c=typed).status_code == 200
    assert newest(at_870).temp_c == float(typed)


def test_what_was_looked_at_again_is_kept(write, at_870):
    reply = write(temp_c="115", sure="on")

    assert reply.status_code == 200
    assert newest(at_870).temp_c == 115


def test_a_flame_alone_is_not_asked_about(write):
    assert write(flame="licking").status_code == 200


def test_a_first_line_is_not_asked_about(signed_in, fire):
    cold = fire("cold", [], lit=timezone.now() - timedelta(hours=1))

    reply = signed_in.post(reverse("kiln:firing", args=[cold.pk]), {"temp_c": "400"})

    assert reply.status_code == 302


def test_a_line_of_the_same_minute_says_so(signed_in, fire):
    now = fire("now", [(0.0, 20.0, "")], lit=timezone.now())

    reply = signed_in.post(reverse("kiln:firing", args=[now.pk]), {"temp_c": "200"}, headers=HTMX)

    assert asked(reply) == "200 °C, just after 20 °C: do you mean 20 °C?"


def test_where_the_last_line_is_the_odd_one_that_one_is_asked_about(signed_in, write, at_870):
    write(temp_c="115", sure="on")
    LogLine.objects.filter(pk=newest(at_870).pk).update(at=timezone.now() - timedelta(minutes=10))

    assert asked(write(temp_c="900")) == (
        "900 °C, 10 minutes after 115 °C: if 115 °C was wrong, put that line right first."
    )


def test_a_line_of_an_earlier_time_is_held_against_the_one_that_follows_it(signed_in, fire):
    lit = (timezone.now() - timedelta(hours=9)).replace(second=0, microsecond=0)
    late = fire("late", [(8.0, 870.0, "")], lit=lit)
    earlier = timezone.localtime(lit + timedelta(hours=7.5))

    reply = signed_in.post(
        reverse("kiln:firing", args=[late.pk]), {"temp_c": "84", "seen": f"{earlier:%H:%M}"}
    )

    assert asked(reply) == "84 °C, 30 minutes before 870 °C: do you mean 840 °C?"


def test_while_it_burns_a_kiln_falls_slowly_and_after_shut_off_faster(signed_in, fire):
    lit = timezone.now() - timedelta(hours=12)
    lines = [(0.0, 20.0, ""), (2.0, 400.0, ""), (10.0, 1000.0, "")]
    on = fire("on", lines, lit=lit, number=1)
    off = fire("off", lines, lit=lit, number=2, moments=[("shut off", 10.0)])

    # In two hours no burning kiln falls from 1000 °C to 200 °C; one with its burner out may.
    replies = [
        signed_in.post(reverse("kiln:firing", args=[one.pk]), {"temp_c": "200"})
        for one in (on, off)
    ]

    assert [reply.status_code for reply in replies] == [422, 302]


def test_a_kiln_that_is_known_to_be_slow_is_asked_sooner(signed_in, good, at_870, write):
    # The good one climbed 100 °C an hour: twice that, and at least 250, is not 350 °C an hour.
    assert asked(write(temp_c="1040")).startswith("1040 °C, 20 minutes after 870 °C")


def test_a_studio_in_fahrenheit_is_asked_in_fahrenheit(signed_in, studio, write):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")

    # 870 °C is 1598 °F.
    assert asked(write(temp_c="162")) == ("162 °F, 20 minutes after 1598 °F: do you mean 1620 °F?")


def test_a_line_put_right_is_asked_about_as_well(signed_in, at_870):
    url = reverse("kiln:line", args=["now-10"])
    stood = LogLine.objects.get(pk="now-10")
    sent = {"temp_c": "53", "entry_id": "right"}

    first = signed_in.post(url, sent)
    sure = signed_in.post(url, {**sent, "sure": "on"})

    assert stood.temp_c == 520
    assert first.status_code == 422
    assert asked(first) == "53 °C, 30 minutes after 470 °C: do you mean 530 °C?"
    assert "I looked again: it is 53 °C." in first.content.decode()
    assert sure.status_code == 302
    assert LogLine.objects.get(pk="right").temp_c == 53


def test_a_wrong_line_may_be_put_right_although_its_neighbours_are_far_off(signed_in, fire):
    slipped = [*steady(to_h=8.5), (9.0, 92.0, ""), *steady(from_h=9.5, to_h=11)]
    firing = fire("slipped", slipped)
    wrong = LogLine.objects.get(firing=firing, temp_c=92)

    reply = signed_in.post(reverse("kiln:line", args=[wrong.pk]), {"temp_c": "920"})

    assert reply.status_code == 302


def test_what_was_most_likely_meant_is_a_button_that_keeps_it(write, at_870):
    page = write(temp_c="115").content.decode()

    reply = write(temp_c="115", damper="4", meant="1150 °C")

    line = newest(at_870)
    assert '<button type="submit" name="meant" value="1150 °C">1150 °C</button>' in page
    assert reply.status_code == 200
    assert (line.temp_c, line.damper) == (1150, 4)


def test_the_button_works_without_scripts_and_in_fahrenheit(signed_in, studio, at_870):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")
    url = reverse("kiln:firing", args=[at_870.pk])
    page = signed_in.post(url, {"temp_c": "162"}).content.decode()

    reply = signed_in.post(url, {"temp_c": "162", "meant": "1620 °F"})

    assert 'name="meant" value="1620 °F"' in page
    assert reply.status_code == 302
    # 1620 °F less the 32 of its zero, by 1.8, is 882.22 °C.
    assert newest(at_870).temp_c == pytest.approx(882.22, abs=0.01)


def test_where_nothing_can_have_been_meant_there_is_no_such_button(write):
    assert 'name="meant"' not in write(temp_c="20").content.decode()


def test_what_is_meant_and_no_temperature_is_explained_and_nothing_stored(write, at_870):
    reply = write(temp_c="115", meant="hot")

    assert reply.status_code == 422
    assert newest(at_870).temp_c == 870


def test_a_line_put_right_has_the_button_too(signed_in, at_870):
    url = reverse("kiln:line", args=["now-10"])

    page = signed_in.post(url, {"temp_c": "53"}).content.decode()
    signed_in.post(url, {"temp_c": "53", "meant": "530 °C", "entry_id": "right"})

    assert 'name="meant" value="530 °C"' in page
    assert LogLine.objects.get(pk="right").temp_c == 530


def test_what_is_asked_about_stays_typed(write):
    page = write(temp_c="115", damper="4", note="wind").content.decode()

    assert 'value="115"' in page
    assert 'value="4"' in page
    assert 'value="wind"' in page
