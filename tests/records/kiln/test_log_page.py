"""The log of a firing in the hand: a line by one thumb, its answer where the question was."""

from datetime import UTC, datetime, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln import actions
from wareboard.records.kiln.models import Firing, LogLine
from wareboard.records.people.models import Studio

from .conftest import HTMX, LIT, steady


@pytest.fixture
def burning(member, load):
    """A firing that was lit four hours ago."""
    firing = actions.light(member, load, entry_id="burning")
    Firing.objects.filter(pk=firing.pk).update(at=timezone.now() - timedelta(hours=4))
    firing.refresh_from_db()
    return firing


@pytest.fixture
def url(burning):
    return reverse("kiln:firing", args=[burning.pk])


def line_of(firing):
    return LogLine.objects.current().get(firing=firing)


def test_a_line_is_stamped_by_itself_and_only_the_section_comes_back(signed_in, url, burning):
    reply = signed_in.post(
        url,
        {
            "temp_c": "1042",
            "flame": "soft",
            "damper": "3 1/2",
            "pressure_kpa": "80 mbar",
            "note": "wind",
        },
        headers=HTMX,
    )

    page, line = reply.content.decode(), line_of(burning)
    assert reply.status_code == 200
    assert "<html" not in page
    assert "Kept: 1042 °C." in page
    assert "soft, damper 3.5, 8 kPa, wind" in page
    assert (line.temp_c, line.flame, line.damper, line.note) == (1042, "soft", 3.5, "wind")
    assert line.pressure_kpa == pytest.approx(8)
    assert timezone.now() - line.at < timedelta(minutes=1)


def test_it_works_without_javascript(signed_in, url, burning):
    reply = signed_in.post(url, {"temp_c": "88"})

    assert (reply.status_code, reply.url) == (302, url)
    assert "88 °C" in signed_in.get(url).content.decode()


def test_a_line_that_is_only_remembered_says_so(signed_in, url):
    signed_in.post(url, {"temp_c": "88", "remembered": "I think"})

    assert "remembered: I think" in signed_in.get(url).content.decode()


def test_a_flame_alone_is_a_line(signed_in, url, burning):
    signed_in.post(url, {"flame": "licking"})

    assert (line_of(burning).temp_c, line_of(burning).flame) == (None, "licking")
    assert signed_in.get(url).context["undo"]["say"] == "Kept: a line."


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({}, "This line says nothing yet: write a temperature, or tap a flame."),
        (
            {"temp_c": "hot"},
            "Pyrometer: &quot;hot&quot; is not a number; accepted is °C from -60 to 2000.",
        ),
        ({"temp_c": "2300"}, "2300: do you mean 2300 °F (1260 °C)?"),
        ({"temp_c": "900", "damper": "-1"}, "is out of range"),
        ({"temp_c": "900", "flame": "purple"}, "purple is not one of the available choices."),
        (
            {"temp_c": "900", "seen": "noon"},
            "That is no time of day; accepted is one such as 21:40.",
        ),
    ],
)
def test_what_cannot_be_is_explained_and_nothing_stored(signed_in, url, burning, sent, said):
    reply = signed_in.post(url, sent, headers=HTMX)

    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert not LogLine.objects.filter(firing=burning).exists()


def test_what_was_typed_stays_where_it_is(signed_in, url):
    page = signed_in.post(url, {"temp_c": "hot", "damper": "4"}, headers=HTMX).content.decode()

    assert 'value="hot"' in page
    assert 'value="4"' in page


def test_sent_twice_it_is_kept_once(signed_in, url, burning):
    for _ in range(2):
        signed_in.post(url, {"temp_c": "500", "entry_id": "one-line"})

    assert LogLine.objects.filter(firing=burning).count() == 1


def test_an_id_of_somebody_else_is_refused(signed_in, url, burning, demo):
    taken = LogLine.objects.filter(studio=demo).first().pk

    reply = signed_in.post(url, {"temp_c": "500", "entry_id": taken})

    assert reply.status_code == 422
    assert "an id that is taken" in reply.content.decode()
    assert not LogLine.objects.filter(firing=burning).exists()


def test_undo_takes_the_line_back(signed_in, url, burning):
    signed_in.post(url, {"temp_c": "500"})
    undo = signed_in.get(url).context["undo"]

    signed_in.post(undo["url"], {"next": url})

    assert not LogLine.objects.standing().filter(firing=burning).exists()


def test_an_earlier_time_is_the_last_one_the_firing_had(signed_in, url, burning):
    ago = timezone.localtime() - timedelta(hours=2)

    signed_in.post(url, {"temp_c": "500", "seen": f"{ago:%H:%M}"})

    assert line_of(burning).at == ago.replace(second=0, microsecond=0)


def test_a_time_before_lighting_is_explained_and_nothing_stored(signed_in, url, burning):
    before = timezone.localtime() - timedelta(hours=5)

    reply = signed_in.post(url, {"temp_c": "500", "seen": f"{before:%H:%M}"})

    assert reply.status_code == 422
    assert f"At {before:%H:%M} the kiln was not lit yet" in reply.content.decode()
    assert not LogLine.objects.filter(firing=burning).exists()


def test_a_line_added_after_the_opening_belongs_to_the_hours_of_the_firing(signed_in, good):
    signed_in.post(reverse("kiln:firing", args=[good.pk]), {"note": "rain", "seen": "17:30"})

    line = LogLine.objects.get(firing=good, note="rain")
    assert line.at == good.at.replace(hour=16, minute=30)  # by British summer time


def test_a_studio_in_fahrenheit_types_and_reads_fahrenheit(signed_in, url, burning, studio):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")

    signed_in.post(url, {"temp_c": "2300"})

    page = signed_in.get(url).content.decode()
    assert line_of(burning).temp_c == pytest.approx(1260)
    assert "2300 °F" in page
    assert "°C" not in page


def test_a_studio_in_fahrenheit_is_refused_in_a_sentence_too(signed_in, url, burning, studio):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")

    reply = signed_in.post(url, {"temp_c": "white hot"})

    assert reply.status_code == 422
    assert "white hot" in reply.content.decode()


def test_a_corrected_line_takes_the_place_of_the_old_one_which_is_kept(signed_in, url, burning):
    signed_in.post(url, {"temp_c": "142", "flame": "soft", "entry_id": "wrong"})
    line_url = reverse("kiln:line", args=["wrong"])
    asked = signed_in.get(line_url).content.decode()

    reply = signed_in.post(line_url, {"temp_c": "1042", "flame": "soft", "entry_id": "right"})

    old, new = LogLine.objects.get(pk="wrong"), LogLine.objects.get(pk="right")
    assert 'value="142"' in asked
    assert reply.url == url
    assert (old.temp_c, old.undone_at) == (142, None)
    assert (new.corrects_id, new.at, new.temp_c) == ("wrong", old.at, 1042)
    assert line_of(burning) == new


def test_a_correction_sent_twice_is_kept_once(signed_in, url, burning):
    signed_in.post(url, {"temp_c": "142", "entry_id": "wrong"})

    replies = [
        signed_in.post(
            reverse("kiln:line", args=["wrong"]), {"temp_c": "1042", "entry_id": "right"}
        )
        for _ in range(2)
    ]

    assert [reply.status_code for reply in replies] == [302, 302]
    assert LogLine.objects.filter(firing=burning).count() == 2


def test_an_impossible_correction_is_explained_and_nothing_stored(signed_in, url, burning):
    signed_in.post(url, {"temp_c": "142", "entry_id": "wrong"})

    reply = signed_in.post(reverse("kiln:line", args=["wrong"]), {"temp_c": "99999"})

    assert reply.status_code == 422
    assert line_of(burning).temp_c == 142


def test_undo_of_a_correction_brings_the_old_line_back(signed_in, url, burning):
    signed_in.post(url, {"temp_c": "142", "entry_id": "wrong"})
    signed_in.post(reverse("kiln:line", args=["wrong"]), {"temp_c": "1042", "entry_id": "right"})

    signed_in.post(reverse("kiln:log-undo", args=[burning.pk, "logline", "right"]))

    assert line_of(burning).pk == "wrong"


def test_the_last_line_stands_first_and_fifty_make_a_page(signed_in, fire):
    fire("long", steady(to_h=30, rate_c_h=20))
    url = reverse("kiln:firing", args=["long"])

    first = signed_in.get(url)
    second = signed_in.get(url, {"before": first.context["more"]})

    temps = [row["temp"] for row in first.context["rows"]]
    assert (len(temps), temps[0]) == (50, "620 °C")
    assert [row["temp"] for row in second.context["rows"]][-1] == "20 °C"
    assert len(second.context["rows"]) == 11
    assert second.context["chart"] is None


def test_a_page_before_a_line_that_is_none_of_this_firing_is_not_here(signed_in, good, url):
    assert signed_in.get(url, {"before": "good-one-3"}).status_code == 404


def test_the_page_needs_no_more_questions_for_a_long_log_than_for_a_short_one(
    signed_in, member, fire, django_assert_max_num_queries
):
    for n in range(5):
        lit = LIT - timedelta(days=30 - n)
        firing = fire(f"earlier-{n}", steady(to_h=12), lit=lit, number=n + 1, good=n == 0)
        actions.read_cones(member, firing, None, {"9": 3.0}, when_cold=True)
    fire("now", steady(to_h=10), number=9, moments=[("sealed", 2.0)])

    with django_assert_max_num_queries(12):
        signed_in.get(reverse("kiln:firing", args=["now"]))


@pytest.mark.parametrize("firing", ["firing-1", "firing-5"])
def test_demo_logs_stay_within_the_questions_too(
    demo_client, firing, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        demo_client.get(reverse("kiln:firing", args=[firing]))


@pytest.mark.parametrize("name", ["firing", "cones", "gas"])
def test_somebody_of_another_studio_finds_nothing(stranger, good, name):
    url = reverse(f"kiln:{name}", args=[good.pk])

    assert stranger.get(url).status_code == 404
    assert stranger.post(url, {"temp_c": "901", "gross_kg": "50"}).status_code == 404
    assert not LogLine.objects.filter(firing=good, temp_c=901).exists()


def test_a_line_of_another_studio_is_not_here(stranger, good):
    assert stranger.get(reverse("kiln:line", args=["good-one-0"])).status_code == 404


@pytest.mark.parametrize(
    ("name", "unknown"), [("firing", "no-such-firing"), ("line", "no-such-line")]
)
def test_what_is_unknown_is_not_here(signed_in, name, unknown):
    assert signed_in.get(reverse(f"kiln:{name}", args=[unknown])).status_code == 404


@pytest.mark.parametrize("name", ["firing", "cones", "gas"])
def test_a_log_is_not_put_or_deleted(signed_in, good, name):
    assert signed_in.put(reverse(f"kiln:{name}", args=[good.pk])).status_code == 405


def test_times_stand_by_the_clock_of_the_studio(signed_in, fire):
    fire("summer", [(0.0, 20.0, "")], lit=datetime(2026, 7, 1, 6, 0, tzinfo=UTC))

    page = signed_in.get(reverse("kiln:firing", args=["summer"])).content.decode()

    assert '<h1 id="firing-title">20 °C at 07:00 on 1 July.</h1>' in page


def test_who_may_only_read_writes_no_line(signed_in, member, url, burning):
    member.role = "reader"
    member.save()

    assert signed_in.post(url, {"temp_c": "900"}).status_code == 403
    assert not LogLine.objects.filter(firing=burning).exists()
