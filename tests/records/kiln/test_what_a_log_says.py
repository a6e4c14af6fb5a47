"""What a firing log says: behind or ahead, when, reduction, steam, cooling."""

from datetime import timedelta

import pytest

from wareboard.records.kiln.cautions import OPENING
from wareboard.records.people.models import Studio

from .conftest import LIT, sentences, steady, told


# The good one climbs 100 °C an hour from 20 °C: it passes 520 °C after 5 hours.
def late(minutes):
    """A log as steep as the good one that comes so many minutes later; at 520 °C in the end."""
    return [(0.0, 20.0, "clear")] + [
        (hours + minutes / 60, 20.0 + 100 * hours, "clear") for hours in (1, 2, 3, 4, 5)
    ]


@pytest.mark.parametrize(
    ("minutes", "title"),
    [
        (25, "25 minutes behind the good one. Fine."),
        (44, "45 minutes behind the good one. Fine."),
        (60, "60 minutes behind the good one."),
        (150, "2 h 30 behind the good one."),
        (5, "On the line of the good one, within the doubt of the pyrometer."),
        (-30, "30 minutes ahead of the good one. Fine."),
    ],
)
def test_minutes_behind_are_taken_at_the_same_temperature(said, good, fire, minutes, title):
    answer = said(fire("now", late(minutes), number=2))

    assert answer.title == title
    assert answer.trust == "worked-out"


def test_under_the_title_stand_temperature_time_and_rate_and_the_doubt_of_the_minutes(
    said, good, fire
):
    answer = said(fire("now", late(24), number=2))

    assert answer.under == "520 °C at 11:24, climbing 100 °C an hour."
    # Six degrees each from firing to firing at 100 °C an hour: 1.645 · 6 · √2 · 0.6 minutes.
    assert answer.doubt == "(± 10 minutes)"


@pytest.mark.parametrize(
    ("rate_c_h", "minutes", "title"),
    [
        # 1.645 · 6 · √2 · 60 / rate: at 25 °C an hour 34 minutes, at 200 °C an hour 4 minutes.
        (25, 30, "On the line of the good one, within the doubt of the pyrometer."),
        (25, 40, "40 minutes behind the good one. Fine."),
        (200, 3, "On the line of the good one, within the doubt of the pyrometer."),
        (200, 6, "On the line of the good one."),
        (200, 10, "10 minutes behind the good one. Fine."),
    ],
)
def test_no_minutes_are_told_that_lie_within_the_doubt(said, fire, rate_c_h, minutes, title):
    # A good one that climbs at this rate and passes 520 °C after 5 hours.
    slope = [(0.0, 20.0, ""), (4.0, 520.0 - rate_c_h, ""), (6.0, 520.0 + rate_c_h, "")]
    fire("good-one", slope, lit=LIT - timedelta(days=14), good=True)
    at = 5 + minutes / 60
    log = [(0.0, 20.0, ""), (at - 1, 420.0, ""), (at, 520.0, "")]

    answer = said(fire("now", log, number=2))

    assert answer.title == title


def held_back(rate_c_h, minutes):
    """A log that stands at 520 °C so many minutes later than the good one, its last hour slow."""
    at = 5 + minutes / 60
    return [(0.0, 20.0, ""), (at - 1.5, 520.0 - rate_c_h, ""), (at, 520.0 + rate_c_h / 2, "")]


@pytest.mark.parametrize(
    ("rate_c_h", "minutes", "title"),
    [
        (3, 235, "It hardly climbs: 3 h 55 behind the good one."),
        (0, 235, "It hardly climbs: 3 h 55 behind the good one."),
        (-8, 235, "It falls: 3 h 55 behind the good one."),
        (3, 40, "It hardly climbs: 40 minutes behind the good one."),
        (3, 5, "It hardly climbs, and is not behind the good one yet."),
        (3, -40, "It hardly climbs: 40 minutes ahead of the good one."),
    ],
)
def test_a_kiln_that_stands_still_is_on_no_line(said, good, fire, rate_c_h, minutes, title):
    answer = said(fire("now", held_back(rate_c_h, minutes), number=2))

    assert answer.title == title
    # The good one climbs 100 °C an hour there: when it truly passed is known to eight minutes.
    assert answer.doubt == "(± 10 minutes)"


def test_a_kiln_is_not_blamed_for_standing_still_where_the_good_one_did(said, fire):
    hold = [(0.0, 20.0, ""), (5.0, 520.0, ""), (7.0, 520.0, ""), (12.0, 1020.0, "")]
    fire("good-one", hold, lit=LIT - timedelta(days=14), good=True)

    answer = said(fire("now", [*steady(to_h=5), (6.0, 520.0, "")], number=2))

    assert answer.title == "It hardly climbs, and here the good one was slow too."
    assert answer.under == "520 °C at 12:00, standing still."


def test_without_a_good_one_the_rate_is_the_answer(said, fire):
    answer = said(fire("now", steady(to_h=5)))

    assert answer.title == "Climbing 100 °C an hour."
    assert answer.under == "520 °C at 11:00."


def test_a_temperature_the_good_one_never_had_leaves_the_rate(said, good, fire):
    answer = said(fire("now", steady(to_h=12.5), number=2))

    assert answer.title == "Climbing 100 °C an hour."


def test_a_kiln_that_falls_back_says_so(said, fire):
    answer = said(fire("now", [*steady(to_h=5), (5.5, 470.0, ""), (6.0, 420.0, "")]))

    assert answer.title == "Falling 100 °C an hour."


def test_a_firing_without_a_line_says_when_it_was_lit(said, fire):
    answer = said(fire("now", []))

    assert (answer.title, answer.under) == ("Lit at 06:00.", "Write the first line below.")
    assert answer.why == []


def test_one_line_is_no_log_yet(said, fire):
    answer = said(fire("now", [(0.5, 31.0, "soft")]))

    assert answer.title == "31 °C at 06:30."


def test_two_temperatures_at_one_instant_are_said_and_break_nothing(said, fire):
    answer = said(fire("now", [(0.0, 20.0, ""), (1.0, 80.0, ""), (1.0, 90.0, "")]))

    assert answer.cautions == ["At 1 h the log has both 80 °C and 90 °C."]
    assert answer.title == "90 °C at 07:00."


def test_the_next_thing_to_wait_for_has_its_hour(said, good, fire):
    cold = said(fire("cold", steady(to_h=0.5), number=2))
    warm = said(fire("warm", steady(to_h=4), number=3))
    hot = said(fire("hot", steady(to_h=7.5), number=4))

    assert told(cold, "Next:").say == "Next: 100 °C, steam, at about 06:50."
    assert told(warm, "Next:").say == "Next: 573 °C, the quartz change, at about 11:30."
    # The good one's first line in reduction stands at 870 °C.
    assert told(hot, "Next:").say == (
        "Next: 870 °C, where the good one went into reduction, at about 14:30."
    )
    assert told(hot, "Next:").doubt == "(14:00–15:00)"


def test_nothing_is_waited_for_in_a_kiln_that_stands_still_or_is_hours_away(said, good, fire):
    still = said(fire("still", [(0.0, 90.0, ""), (2.0, 90.0, "")], number=2))
    slow = said(fire("slow", steady(to_h=2, rate_c_h=5, start_c=150), number=3))

    assert not [say for answer in (still, slow) for say in sentences(answer) if "Next" in say]


def reducing_from(temp_c, to_h):
    return [
        (hour, temp, "licking" if temp >= temp_c else "clear")
        for hour, temp, _ in steady(to_h=to_h)
    ]


def test_reduction_later_than_in_the_good_one_is_a_caution(said, good, fire):
    answer = said(fire("now", reducing_from(970, to_h=11), number=2))

    assert told(answer, "Reduction").say == "Reduction from 15:30 at 970 °C, 90 minutes in all."
    assert answer.cautions == ["Reduction began at 970 °C, 100 °C hotter than in the good one."]


def test_reduction_earlier_than_in_the_good_one_is_a_caution_too(said, good, fire):
    answer = said(fire("now", reducing_from(770, to_h=9), number=2))

    assert answer.cautions == ["Reduction began at 770 °C, 100 °C cooler than in the good one."]


def test_reduction_as_in_the_good_one_is_no_caution(said, good, fire):
    answer = said(fire("now", reducing_from(870, to_h=8.5), number=2))

    assert told(answer, "Reduction").say == "Reduction from 14:30 at 870 °C."
    assert answer.cautions == []


def test_reduction_that_has_not_begun_where_the_good_one_was_in_it_is_a_caution(said, good, fire):
    answer = said(fire("now", reducing_from(2000, to_h=9), number=2))

    assert answer.cautions == ["The good one was in reduction from 870 °C on; this one is not yet."]


def test_reduction_without_a_temperature_is_told_by_its_time(said, fire):
    answer = said(fire("now", [*steady(to_h=9), (9.25, None, "full"), (10.0, 1020.0, "full")]))

    assert told(answer, "Reduction").say == "Reduction from 15:15, 45 minutes in all."


def test_a_flame_alone_already_tells_of_reduction(said, fire):
    answer = said(fire("now", [(9.0, None, "smoky")]))

    assert sentences(answer) == ["Reduction from 15:00."]


def test_a_fast_rise_where_steam_leaves_is_a_caution_that_defers_to_the_mirror(said, fire):
    fast = said(fire("fast", steady(to_h=1.5, rate_c_h=70, start_c=10), number=1))
    slow = said(fire("slow", steady(to_h=4, rate_c_h=25), number=2))

    (caution,) = fast.cautions
    assert caution.startswith("Rising 70 °C an hour below 200 °C: water in the pots can burst")
    assert caution.endswith("Hold below 95 °C until a cold mirror at the spy-hole stays clear.")
    assert slow.cautions == []


def test_a_lost_digit_is_asked_about(said, fire):
    answer = said(fire("now", [*steady(to_h=10), (10.25, 104.0, "")]))

    assert answer.cautions[0] == (
        "104 °C, 15 minutes after 1020 °C: if a digit slipped, put that line right."
    )


def test_a_kiln_that_fell_while_it_burns_is_not_called_ahead(said, good, fire):
    answer = said(fire("now", [*steady(to_h=9), (11.0, 500.0, "")], number=2))

    assert answer.title == "Falling 210 °C an hour."
    assert answer.under == "500 °C at 17:00."


def test_a_long_gap_is_no_lost_digit(said, fire):
    answer = said(fire("now", [(0.0, 20.0, ""), (1.0, 60.0, ""), (4.0, 400.0, "")]))

    assert answer.cautions == []


def test_after_shut_off_it_says_when_it_is_cool_by_the_good_one(said, good, fire):
    firing = fire(
        "now",
        [*steady(to_h=12), (13.0, 1140.0, "")],
        number=2,
        moments=[("shut off", 12.0)],
    )

    answer = said(firing, hours=13)

    assert answer.title == "Cooling: 1140 °C at 19:00."
    # The good one falls 80 °C an hour from 1220 °C: 100 °C after 14 h.
    assert answer.under == (
        "If it cools as the good one did, it is below 100 °C at about Sun 08:30."
    )
    assert answer.trust == "usual"
    assert told(answer, "By the log at shut-off").trust == "worked-out"
    assert told(answer, "With the cooling").trust == "worked-out"


def test_without_a_good_one_cooling_is_only_what_was_read(said, fire):
    firing = fire("now", steady(to_h=12), moments=[("shut off", 12.0)])

    answer = said(firing, hours=12.5)

    assert (answer.title, answer.under) == ("Shut off at 18:00.", "")


def test_a_good_one_that_was_never_followed_to_the_cold_says_nothing_of_cooling(said, fire):
    fire(
        "short",
        steady(to_h=12),
        lit=LIT - timedelta(days=3),
        moments=[("shut off", 12.0)],
        good=True,
    )
    firing = fire("now", steady(to_h=12), number=2, moments=[("shut off", 12.0)])

    assert said(firing, hours=12.5).under == ""


def test_a_shut_off_outside_the_log_is_taken_at_its_nearest_line(said, fire):
    early = fire("early", steady(to_h=12), number=1, moments=[("shut off", -1.0)])
    late_on = fire("late", steady(to_h=12), number=2, moments=[("shut off", 14.0)])

    assert told(said(late_on), "By the log at shut-off").say
    assert said(early).title == "Shut off at 05:00."


@pytest.mark.parametrize(
    ("hours", "title", "under"),
    [
        (12.0, "12 h from lighting to shut-off.", "As long as the good one."),
        (12.5, "12 h 30 from lighting to shut-off.", "30 minutes longer than the good one."),
        (9.0, "9 h from lighting to shut-off.", "3 h shorter than the good one."),
    ],
)
def test_a_firing_that_is_over_is_held_against_the_good_one(said, good, fire, hours, title, under):
    firing = fire("now", steady(to_h=12), number=2, moments=[("shut off", hours), ("opened", 27.0)])

    answer = said(firing, hours=30)

    assert (answer.title, answer.under, answer.trust) == (title, under, "measured")


def test_the_good_one_says_that_it_is(said, good):
    assert said(good, hours=30).under == "This is the good one."


def test_a_first_firing_has_nothing_to_be_held_against(said, fire):
    firing = fire("now", steady(to_h=12), moments=[("shut off", 12.0), ("opened", 27.0)])

    assert said(firing, hours=30).under == ""


def test_a_firing_of_which_nobody_kept_the_shut_off_is_just_opened(said, fire):
    assert said(fire("now", [], moments=[("opened", 27.0)]), hours=30).title == "Opened."


@pytest.mark.parametrize(("opened", "cautioned"), [(12.2, True), (27.0, False)])
def test_a_kiln_opened_while_it_must_still_be_hot_brings_the_caution(said, fire, opened, cautioned):
    moments = [("shut off", 12.0), ("opened", opened)]

    answer = said(fire("now", steady(to_h=12), moments=moments), hours=30)

    assert (str(OPENING) in answer.cautions) is cautioned


def test_one_minute_is_not_called_minutes(said, fire):
    firing = fire("now", steady(to_h=12), moments=[("shut off", 1 / 60), ("opened", 27.0)])

    assert said(firing, hours=30).title == "1 minute from lighting to shut-off."


def test_a_studio_in_fahrenheit_is_told_in_fahrenheit(said, member, good, fire):
    Studio.objects.filter(pk=member.studio_id).update(temperature="fahrenheit")
    member.studio.refresh_from_db()

    answer = said(fire("now", reducing_from(970, to_h=11), number=2))

    assert answer.under == "2048 °F at 17:00, climbing 180 °F an hour."
    assert answer.cautions == ["Reduction began at 1778 °F, 180 °F hotter than in the good one."]
