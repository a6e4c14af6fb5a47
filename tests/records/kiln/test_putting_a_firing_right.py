"""Lit, sealed, shut off, opened: put right long after the tap, in no order that cannot be."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln.models import Firing, LogLine, Moment

from .conftest import LIT, steady

LONDON = ZoneInfo("Europe/London")


@pytest.fixture
def cooled(fire):
    """A firing of 12 hours, tapped shut off only the next morning, 24 hours after lighting."""
    moments = [("sealed", 2.0), ("shut off", 24.0), ("opened", 36.0)]
    return fire("cooled", steady(to_h=12), moments=moments)


def page_of(firing, kind):
    return reverse("kiln:happened", args=[firing.pk, kind])


def typed(hours):
    """Write an instant so long after lighting as a phone's clock field sends it."""
    return f"{timezone.localtime(LIT + timedelta(hours=hours), LONDON):%Y-%m-%dT%H:%M}"


def stands(firing, kind):
    return Moment.objects.standing().get(firing=firing, kind=kind)


def hours_of(firing, kind):
    return (stands(firing, kind).at - firing.at) / timedelta(hours=1)


def test_each_moment_of_a_firing_may_be_put_right_from_its_log(signed_in, cooled):
    page = signed_in.get(reverse("kiln:firing", args=[cooled.pk])).content.decode()

    assert page.count("put it right") == 4
    for kind in ("lit", "sealed", "shut-off", "opened"):
        assert page_of(cooled, kind) in page


def test_the_page_comes_with_what_stands_there(signed_in, cooled):
    page = signed_in.get(page_of(cooled, "shut-off")).content.decode()

    assert f'value="{typed(24)}"' in page


def test_a_late_tap_is_put_right_and_what_stood_there_is_kept(signed_in, cooled):
    old = stands(cooled, "shut off")

    reply = signed_in.post(
        page_of(cooled, "shut-off"), {"when": typed(12.5), "entry_id": "at-night"}
    )

    old.refresh_from_db()
    assert (reply.status_code, reply.url) == (302, reverse("kiln:firing", args=[cooled.pk]))
    assert hours_of(cooled, "shut off") == 12.5
    assert (old.at, old.undone_at is None) == (LIT + timedelta(hours=24), False)
    assert (
        "first it said 4 October, 07:00"
        in signed_in.get(page_of(cooled, "shut-off")).content.decode()
    )


def test_a_correction_sent_twice_is_kept_once_and_ends_on_the_same_page(signed_in, cooled):
    sent = {"when": typed(12.5), "entry_id": "at-night"}

    replies = [signed_in.post(page_of(cooled, "shut-off"), sent) for _ in range(2)]

    log = reverse("kiln:firing", args=[cooled.pk])
    assert [(one.status_code, one.url) for one in replies] == [(302, log)] * 2
    assert Moment.objects.filter(firing=cooled, kind="shut off").count() == 2


def test_an_old_correction_that_arrives_late_changes_nothing(signed_in, cooled):
    first = {"when": typed(12.5), "entry_id": "first"}
    for sent in (first, {"when": typed(13), "entry_id": "second"}):
        signed_in.post(page_of(cooled, "shut-off"), sent)

    reply = signed_in.post(page_of(cooled, "shut-off"), first)

    assert reply.status_code == 302
    assert hours_of(cooled, "shut off") == 13


def test_the_same_form_with_another_time_is_another_correction(signed_in, cooled):
    for hours in (12.5, 13):
        sent = {"when": typed(hours), "entry_id": "same-page"}
        signed_in.post(page_of(cooled, "shut-off"), sent)

    assert hours_of(cooled, "shut off") == 13


def test_a_time_that_is_not_changed_makes_no_correction(signed_in, cooled):
    signed_in.post(page_of(cooled, "shut-off"), {"when": typed(24), "entry_id": "no-change"})

    assert Moment.objects.filter(firing=cooled, kind="shut off").count() == 1


def test_undo_of_a_correction_brings_back_what_stood_there(signed_in, cooled):
    signed_in.post(page_of(cooled, "shut-off"), {"when": typed(12.5), "entry_id": "wrong"})
    log = reverse("kiln:firing", args=[cooled.pk])

    reply = signed_in.post(signed_in.get(log).context["undo"]["url"])

    assert reply.url == log
    assert hours_of(cooled, "shut off") == 24


def test_a_correction_that_was_taken_back_is_refused_when_it_comes_again(signed_in, cooled):
    sent = {"when": typed(12.5), "entry_id": "wrong"}
    signed_in.post(page_of(cooled, "shut-off"), sent)
    log = signed_in.get(reverse("kiln:firing", args=[cooled.pk]))
    signed_in.post(log.context["undo"]["url"])

    reply = signed_in.post(page_of(cooled, "shut-off"), sent)

    assert reply.status_code == 422
    assert "This was taken back. If it is right after all, reload" in reply.content.decode()
    assert hours_of(cooled, "shut off") == 24


def test_what_did_not_happen_does_not_come_back_with_an_old_page(signed_in, cooled):
    first = {"when": typed(12.5), "entry_id": "first"}
    for sent in (first, {"when": typed(13), "entry_id": "second"}, {"did": "not"}):
        signed_in.post(page_of(cooled, "shut-off"), sent)

    reply = signed_in.post(page_of(cooled, "shut-off"), first)

    assert reply.status_code == 422
    assert not Moment.objects.standing().filter(firing=cooled, kind="shut off").exists()


def test_a_moment_that_was_only_remembered_stays_so_unless_it_is_said(signed_in, cooled):
    Moment.objects.filter(firing=cooled, kind="opened").update(remembered="I think")

    signed_in.post(page_of(cooled, "opened"), {"when": typed(35)})
    kept = stands(cooled, "opened").remembered
    asked = signed_in.get(page_of(cooled, "opened")).content.decode()
    signed_in.post(page_of(cooled, "opened"), {"when": typed(35), "remembered": ""})

    assert kept == "I think"
    assert 'value="I think"' in asked
    assert stands(cooled, "opened").remembered == ""


def test_a_moment_nobody_tapped_is_told_later(signed_in, fire):
    firing = fire("untapped", steady(to_h=12), moments=[("opened", 36.0)])

    tapped = signed_in.post(reverse("kiln:moment", args=[firing.pk]), {"kind": "shut off"})
    signed_in.post(page_of(firing, "shut-off"), {"when": typed(12.5)})

    assert tapped.url == page_of(firing, "shut-off")
    assert hours_of(firing, "shut off") == 12.5


@pytest.mark.parametrize(
    ("kind", "hours", "said"),
    [
        (
            "shut-off",
            -1,
            "on 3 Oct, 06:00 would come before “lit” on 3 Oct, 07:00: look at both times.",
        ),
        ("shut-off", 1, "would come before “door sealed” on 3 Oct, 09:00"),
        ("shut-off", 40, "would come after “opened” on 4 Oct, 19:00"),
        ("opened", 20, "would come before “shut off” on 4 Oct, 07:00"),
        ("sealed", 25, "would come after “shut off” on 4 Oct, 07:00"),
        ("lit", 3, "“lit” on 3 Oct, 10:00 would come after “door sealed” on 3 Oct, 09:00"),
        ("lit", 1, "would come after “first line of its log” on 3 Oct, 07:00"),
        ("lit", 24 * 365 * 50, "has not been yet; accepted is a time up to now"),
        ("opened", 24 * 365 * 50, "has not been yet; accepted is a time up to now"),
    ],
)
def test_an_order_that_cannot_be_is_refused_in_a_sentence(signed_in, cooled, kind, hours, said):
    reply = signed_in.post(page_of(cooled, kind), {"when": typed(hours)})

    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert Moment.objects.filter(firing=cooled).count() == 3
    assert Firing.objects.get(pk=cooled.pk).at == LIT


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ("", "Nothing is written here; accepted is a day and a time."),
        ("noon", "That is no time; accepted is a day and a time"),
    ],
)
def test_what_is_no_time_is_explained_and_nothing_stored(signed_in, cooled, sent, said):
    reply = signed_in.post(page_of(cooled, "shut-off"), {"when": sent})

    assert reply.status_code == 422
    assert said in reply.content.decode()
    assert hours_of(cooled, "shut off") == 24


def test_the_lighting_is_put_right_in_place_and_its_note_says_what_stood_there(signed_in, cooled):
    for _ in range(2):
        signed_in.post(page_of(cooled, "lit"), {"when": typed(-1)})

    firing = Firing.objects.get(pk=cooled.pk)
    assert firing.at == LIT - timedelta(hours=1)
    assert firing.note == "Lit was put right; before, it said 3 Oct, 07:00."


def test_a_kiln_is_not_lit_before_the_firing_before_it(signed_in, fire, cooled):
    fire("before", [], lit=LIT - timedelta(hours=30), number=0)

    reply = signed_in.post(page_of(cooled, "lit"), {"when": typed(-31)})

    assert reply.status_code == 422
    assert "would come before “firing 0 lit” on 2 Oct, 01:00" in reply.content.decode()


@pytest.fixture
def next_lit(fire):
    """The next firing of the same kiln, lit 48 hours after the first."""
    return fire("next", [], lit=LIT + timedelta(hours=48), number=2)


def test_a_kiln_is_not_lit_after_the_firing_after_it(signed_in, fire, next_lit):
    first = fire("first", [])

    reply = signed_in.post(page_of(first, "lit"), {"when": typed(49)})

    assert reply.status_code == 422
    assert (
        "“lit” on 5 Oct, 08:00 would come after “firing 2 lit” on 5 Oct, 07:00"
        in reply.content.decode()
    )
    assert Firing.objects.get(pk=first.pk).at == LIT


def test_a_kiln_is_not_opened_when_it_was_lit_again(signed_in, fire, next_lit):
    first = fire("first", steady(to_h=12), moments=[("shut off", 12.0)])

    tapped = signed_in.post(reverse("kiln:moment", args=[first.pk]), {"kind": "opened"})
    reply = signed_in.post(page_of(first, "opened"), {"when": typed(49)})

    assert tapped.url == page_of(first, "opened")
    assert "would come after “firing 2 lit” on 5 Oct, 07:00" in reply.content.decode()
    assert not Moment.objects.filter(firing=first, kind="opened").exists()


def test_where_reduction_began_leads_to_the_line_that_says_so(signed_in, good):
    page = signed_in.get(reverse("kiln:firing", args=[good.pk]))

    (reduction,) = [one for one in page.context["answer"].said if "Reduction" in one.say]
    line = LogLine.objects.get(pk=reduction.line_id)
    assert (line.temp_c, line.flame) == (870.0, "licking")
    assert page.content.decode().count(reverse("kiln:line", args=[line.pk])) == 2


def test_a_moment_of_another_day_stands_with_its_day(signed_in, cooled):
    page = " ".join(
        signed_in.get(reverse("kiln:firing", args=[cooled.pk])).content.decode().split()
    )

    assert "<strong>door sealed</strong> 09:00" in page
    assert "<strong>shut off</strong> Sun 07:00" in page


def test_a_line_of_the_log_is_put_right_in_its_time_too(signed_in, cooled):
    line = LogLine.objects.current().filter(firing=cooled).latest("at")
    page = reverse("kiln:line", args=[line.pk])

    asked = signed_in.get(page).content.decode()
    signed_in.post(page, {"temp_c": "1220", "when": typed(11.75)})

    right = LogLine.objects.get(corrects=line)
    assert f'value="{typed(12)}"' in asked
    assert right.at == LIT + timedelta(hours=11.75)


def test_a_line_is_not_moved_to_before_the_kiln_was_lit(signed_in, cooled):
    line = LogLine.objects.current().filter(firing=cooled).latest("at")

    reply = signed_in.post(
        reverse("kiln:line", args=[line.pk]), {"temp_c": "1220", "when": typed(-2)}
    )

    assert reply.status_code == 422
    assert "accepted is a time between" in reply.content.decode()
    assert not LogLine.objects.filter(corrects=line).exists()


def test_somebody_of_another_studio_finds_no_moment(stranger, cooled):
    assert stranger.get(page_of(cooled, "shut-off")).status_code == 404
    assert stranger.post(page_of(cooled, "lit"), {"when": typed(-1)}).status_code == 404
    assert Firing.objects.get(pk=cooled.pk).at == LIT


@pytest.mark.parametrize("kind", ["peak", "shut%20off"])
def test_what_is_no_moment_of_a_firing_is_not_here(signed_in, cooled, kind):
    assert signed_in.get(page_of(cooled, "lit").replace("/lit/", f"/{kind}/")).status_code == 404


def test_a_moment_is_not_put_or_deleted(signed_in, cooled):
    assert signed_in.delete(page_of(cooled, "shut-off")).status_code == 405


def test_days_stand_by_the_clock_of_the_studio(signed_in, cooled):
    when = datetime(2026, 10, 4, 6, 0)  # noqa: DTZ001 - as it stands on the wall clock

    signed_in.post(page_of(cooled, "shut-off"), {"when": f"{when:%Y-%m-%dT%H:%M}"})

    assert hours_of(cooled, "shut off") == 23
