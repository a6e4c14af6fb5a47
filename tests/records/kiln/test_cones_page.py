"""Cone packs by the clock, beside the log."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.core.firing.log import firing_log
from wareboard.core.firing.pack import cone_beside
from wareboard.core.firing.series import cone_series
from wareboard.records.kiln import actions
from wareboard.records.kiln.cone_answer import o_clock
from wareboard.records.kiln.models import ConeReading, Firing, Kiln, Place
from wareboard.records.people.entry import keep

from .conftest import LIT, steady

NEAR_NINE = steady(to_h=12.5, start_c=10)


@pytest.fixture
def firing(fire):
    return fire("now", NEAR_NINE, moments=[("shut off", 12.5)])


@pytest.fixture
def url(firing):
    return reverse("kiln:cones", args=[firing.pk])


def kept(firing):
    rows = ConeReading.objects.current().filter(firing=firing).order_by("cone")
    return {(row.cone, row.place.level, row.clock, row.when_cold) for row in rows}


def test_one_form_takes_a_whole_pack(signed_in, url, firing, shelf):
    reply = signed_in.post(
        url,
        {"place": shelf("top").pk, "how": "cold", "clock-8": "6.0", "clock-9": "5.0"},
    )

    assert (reply.status_code, reply.url) == (302, url)
    assert kept(firing) == {("8", "top", 6.0, True), ("9", "top", 5.0, True)}
    assert "Cone 9 at 5 o’clock top." in signed_in.get(url).content.decode()


def test_a_look_through_the_spy_hole_is_kept_as_such(signed_in, url, firing, shelf):
    signed_in.post(url, {"place": shelf("middle").pk, "how": "hot", "clock-8": "2.0"})

    assert kept(firing) == {("8", "middle", 2.0, False)}


def test_the_pack_around_the_end_cone_is_asked_for(signed_in, url):
    page = signed_in.get(url)

    assert page.context["form"].cones == ["8", "9", "10"]
    assert "12 as set" in page.content.decode()
    assert "6 down" in page.content.decode()


def test_another_cone_may_be_named_and_is_asked_for_from_then_on(signed_in, url, firing, shelf):
    signed_in.post(
        url, {"place": shelf("top").pk, "how": "hot", "other": "7", "clock_other": "6.0"}
    )

    assert kept(firing) == {("7", "top", 6.0, False)}
    assert signed_in.get(url).context["form"].cones == ["7", "8", "9", "10"]


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({}, "Tap where at least one cone points to."),
        ({"other": "7"}, "Say both of another cone: which, and where it points."),
        ({"clock_other": "3.0"}, "Say both of another cone: which, and where it points."),
        (
            {"other": "99", "clock_other": "3.0"},
            "There is no cone 99; accepted are 022 to 14.",
        ),
        ({"clock-9": "13"}, "13 is not one of the available choices."),
        ({"clock-9": "3.0", "how": "in a dream"}, "in a dream is not one of the available"),
        ({"clock-9": "3.0", "place": "elsewhere"}, "elsewhere is not one of the available"),
    ],
)
def test_what_cannot_be_is_explained_and_nothing_stored(signed_in, url, firing, shelf, sent, said):
    reply = signed_in.post(url, {"place": shelf("top").pk, "how": "cold", **sent})

    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert not ConeReading.objects.filter(firing=firing).exists()


@pytest.fixture
def asked(signed_in, url, shelf):
    """Send a pack, and once more with the word that it stands so."""

    def of(url=url, **sent):
        sent = {"place": shelf("top").pk, "how": "cold", **sent}
        first = signed_in.post(url, sent)
        return first, signed_in.post(url, {**sent, "sure": "on"})

    return of


def test_a_softer_cone_that_stands_while_a_harder_one_is_down_is_asked_about(asked, firing):
    first, sure = asked(**{"clock-8": "12.0", "clock-9": "6.0"})

    page = first.content.decode()
    assert first.status_code == 422
    assert (
        "Cone 8 at 12 o’clock and the harder cone 9 at 6: the softer one falls first. "
        "Look again which is which." in page
    )
    assert "I looked again: they stand so." in page
    assert sure.status_code == 302
    assert kept(firing) == {("8", "top", 12.0, True), ("9", "top", 6.0, True)}


@pytest.mark.parametrize("clocks", [("6.0", "5.0"), ("3.0", "3.0"), ("4.0", "5.0")])
def test_cones_that_fall_in_their_order_or_within_the_reading_are_not_asked_about(
    signed_in, url, firing, shelf, clocks
):
    sent = dict(zip(("clock-8", "clock-9"), clocks, strict=True))

    reply = signed_in.post(url, {"place": shelf("top").pk, "how": "cold", **sent})

    assert reply.status_code == 302


def test_a_cone_that_is_down_in_a_kiln_that_was_never_hot_is_asked_about(asked, fire):
    # The charts print cone 8, self-supporting, at 1249 °C for 60 °C an hour.
    cold = fire("cold", [(0, 20, ""), (2, 120, "")], number=2, moments=[("shut off", 2.0)])

    first, sure = asked(url=reverse("kiln:cones", args=[cold.pk]), **{"clock-8": "6.0"})

    assert first.status_code == 422
    assert (
        "Cone 8 falls at about 1250 °C, and the log shows no more than 120 °C. Look again which "
        "cone it is, and whether a line is missing." in first.content.decode()
    )
    assert sure.status_code == 302
    assert kept(cold) == {("8", "top", 6.0, True)}


def test_a_log_that_was_left_off_while_it_climbed_asks_nothing(signed_in, fire, shelf):
    left_off = [(0, 20, ""), (8, 800, "")]
    firing = fire("left-off", left_off, number=2, moments=[("shut off", 13.0)])

    reply = signed_in.post(
        reverse("kiln:cones", args=[firing.pk]),
        {"place": shelf("top").pk, "how": "cold", "clock-8": "6.0"},
    )

    assert reply.status_code == 302


def test_a_cone_that_stands_in_a_cold_kiln_is_no_question(signed_in, fire, shelf):
    cold = fire("cold", [(0, 20, ""), (2, 120, "")], number=2, moments=[("shut off", 2.0)])

    reply = signed_in.post(
        reverse("kiln:cones", args=[cold.pk]),
        {"place": shelf("top").pk, "how": "cold", "clock-8": "12.0"},
    )

    assert reply.status_code == 302


def test_where_pack_and_log_disagree_it_says_which_to_trust_and_why(
    signed_in, url, member, firing, shelf
):
    # By the log cone 10 hardly moved.
    actions.read_cones(member, firing, shelf("top"), {"10": 6.0}, when_cold=True)

    page = signed_in.get(url).context["trusted"]

    log = signed_in.get(reverse("kiln:firing", args=[firing.pk])).content.decode()
    assert page.startswith("The pack and the log disagree. Trust the pack: it stood among the pots")
    assert page.endswith("Where no pack stood, the log counts.")
    assert page in log


@pytest.mark.parametrize("clock", [1.0, 2.0])
def test_where_they_agree_within_the_pyrometers_doubt_nothing_is_said_of_trust(
    signed_in, url, member, firing, shelf, clock
):
    # By the log cone 9 is a little past two.
    actions.read_cones(member, firing, shelf("top"), {"9": clock}, when_cold=True)

    assert signed_in.get(url).context["trusted"] == ""


def test_sent_twice_it_is_kept_once(signed_in, url, firing, shelf):
    sent = {"place": shelf("top").pk, "how": "cold", "clock-9": "5.0", "entry_id": "a-pack"}

    signed_in.post(url, sent)
    signed_in.post(url, sent)

    assert ConeReading.objects.filter(firing=firing).count() == 1


def test_an_id_of_another_studio_is_refused(signed_in, url, firing, shelf, demo_member):
    theirs = Firing.objects.get(pk="firing-1")
    keep(ConeReading, demo_member, entry_id="taken-01", firing=theirs, cone="9", clock=3.0)

    reply = signed_in.post(
        url, {"place": shelf("top").pk, "how": "cold", "clock-9": "5.0", "entry_id": "taken"}
    )

    assert reply.status_code == 422
    assert "an id that is taken" in reply.content.decode()
    assert kept(firing) == set()


def test_undo_takes_the_whole_pack_back(signed_in, url, firing, shelf):
    signed_in.post(
        url, {"place": shelf("top").pk, "how": "cold", "clock-8": "6.0", "clock-9": "5.0"}
    )
    undo = signed_in.get(url).context["undo"]

    signed_in.post(undo["url"])

    assert undo["say"] == "Kept: 2 cones."
    assert kept(firing) == set()


def test_one_cone_that_was_kept_alone_is_named(signed_in, url, shelf):
    signed_in.post(url, {"place": shelf("top").pk, "how": "cold", "clock-9": "5.0"})

    assert signed_in.get(url).context["undo"]["say"] == "Kept: cone 9."


def test_a_cold_cone_read_again_puts_the_earlier_reading_right(member, firing, shelf):
    (first,) = actions.read_cones(member, firing, shelf("top"), {"9": 3.0}, when_cold=True)

    (second,) = actions.read_cones(member, firing, shelf("top"), {"9": 4.0}, when_cold=True)

    assert second.corrects == first
    assert kept(firing) == {("9", "top", 4.0, True)}


def test_each_look_through_the_spy_hole_is_a_reading_of_its_own(member, firing, shelf):
    for clock in (1.0, 3.0):
        actions.read_cones(member, firing, shelf("top"), {"9": clock}, when_cold=False)

    assert kept(firing) == {("9", "top", 1.0, False), ("9", "top", 3.0, False)}


def test_beside_each_cone_stands_the_log_and_the_difference(signed_in, url, member, firing, shelf):
    # By the log cone 8 is nearly down and cone 9 a little past two; cone 10 hardly moved.
    pack = {"8": 6.0, "9": 4.0, "10": 12.0}
    actions.read_cones(member, firing, shelf("middle"), pack, when_cold=True)

    told = {one.reading.cone: one for one in signed_in.get(url).context["told"]}

    assert told["9"].seen == "4"
    assert told["9"].by_log == "2"
    assert told["9"].differs.endswith("°C more than the log")
    assert told["9"].doubt.startswith("(± ")
    assert told["8"].seen == "6"
    assert (told["10"].seen, told["10"].doubt) == ("12", "")


def test_a_cone_that_points_where_the_log_has_it_says_so(signed_in, url, member, firing, shelf):
    by_log = cone_beside(cone_series().table, firing_log([0, 12.5], [10, 1260]), "9", 3).log_clock
    actions.read_cones(member, firing, shelf("top"), {"9": round(by_log, 3)}, when_cold=True)

    (told,) = signed_in.get(url).context["told"]

    assert told.differs == "as the log says"
    assert told.doubt.startswith("(± ")


def test_cones_the_log_does_not_explain_are_said_to_be_more_or_less(
    signed_in, url, member, firing, shelf
):
    actions.read_cones(member, firing, shelf("top"), {"8": 12.0, "10": 6.0}, when_cold=True)
    actions.read_cones(member, firing, shelf("bottom"), {"9": 1.0}, when_cold=True)

    told = {one.reading.cone: one.differs for one in signed_in.get(url).context["told"]}

    assert told["8"] == "less than the log says"
    assert told["10"] == "more than the log says"
    assert told["9"].endswith("°C less than the log")


def test_a_pack_is_told_from_the_top_shelf_down_and_cold_before_hot(
    signed_in, url, member, firing, shelf
):
    looked = LIT + timedelta(hours=12)
    actions.read_cones(member, firing, shelf("top"), {"8": 2.0}, when_cold=False, at=looked)
    actions.read_cones(member, firing, shelf("bottom"), {"9": 3.0}, when_cold=True)
    actions.read_cones(member, firing, shelf("top"), {"10": 1.0, "9": 5.0}, when_cold=True)

    told = signed_in.get(url).context["told"]

    assert [(one.reading.cone, one.reading.place.level) for one in told] == [
        ("9", "top"),
        ("10", "top"),
        ("9", "bottom"),
        ("8", "top"),
    ]


def test_without_a_log_cones_are_kept_and_nothing_is_held_against_them(
    signed_in, member, fire, shelf
):
    firing = fire("silent", [])
    actions.read_cones(member, firing, shelf("top"), {"9": 5.0}, when_cold=True)

    page = signed_in.get(reverse("kiln:cones", args=[firing.pk]))

    assert "There is no log to hold them against." in page.content.decode()
    assert [(one.by_log, one.differs) for one in page.context["told"]] == [("", "")]


def test_a_look_before_the_second_line_is_held_against_nothing(signed_in, member, fire, shelf):
    firing = fire("now", NEAR_NINE)
    actions.read_cones(member, firing, shelf("top"), {"9": 12.0}, when_cold=False, at=LIT)

    (told,) = signed_in.get(reverse("kiln:cones", args=[firing.pk])).context["told"]

    assert told.by_log == ""


def test_a_cone_that_is_on_no_chart_is_kept_and_held_against_nothing(
    signed_in, url, member, firing, shelf
):
    actions.read_cones(member, firing, shelf("top"), {"pet": 3.0}, when_cold=True)

    (told,) = signed_in.get(url).context["told"]

    assert (told.seen, told.by_log) == ("3", "")


def test_while_it_burns_the_spy_hole_and_the_middle_are_offered_first(signed_in, fire, shelf):
    firing = fire("burning", NEAR_NINE)

    reply = signed_in.get(reverse("kiln:cones", args=[firing.pk]))

    given = reply.context["form"].initial
    assert given == {"how": "hot", "place": shelf("middle").pk}
    assert "Never look into the spy-hole with bare eyes" in reply.content.decode()


def test_in_the_cold_kiln_the_first_shelf_without_a_reading_is_offered(
    signed_in, url, member, firing, shelf
):
    actions.read_cones(member, firing, shelf("top"), {"9": 5.0}, when_cold=True)

    given = signed_in.get(url).context["form"].initial

    assert given == {"how": "cold", "place": shelf("middle").pk}


def test_a_kiln_without_places_or_end_cone_takes_any_cone(signed_in, member, fire, kiln):
    firing = fire("now", NEAR_NINE)
    Place.objects.filter(kiln=kiln).update(undone_at=timezone.now())
    Kiln.objects.filter(pk=kiln.pk).update(end_cone="")
    url = reverse("kiln:cones", args=[firing.pk])

    signed_in.post(url, {"how": "cold", "other": "8", "clock_other": "3.0"})

    reading = ConeReading.objects.get(firing=firing)
    assert (reading.cone, reading.place) == ("8", None)
    assert "Cone 8 at 3 o’clock." in signed_in.get(url).content.decode()


@pytest.mark.parametrize(
    ("clock", "written"), [(0.0, "12"), (12.0, "12"), (0.5, "12½"), (3.0, "3"), (5.4, "5½")]
)
def test_hours_are_written_to_the_half(clock, written):
    assert o_clock(clock) == written


def test_the_page_asks_the_same_few_questions(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        demo_client.get(reverse("kiln:cones", args=["firing-5"]))
