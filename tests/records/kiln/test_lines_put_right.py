"""A line of the log put right: one line stands in its place, and what was not changed is kept."""

from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.kiln.models import LogLine
from wareboard.records.people.entry import keep
from wareboard.records.people.models import Studio

from .conftest import LIT, steady

LONDON = ZoneInfo("Europe/London")


def typed(hours):
    """Write an instant so long after lighting as a phone's clock field sends it."""
    return f"{timezone.localtime(LIT + timedelta(hours=hours), LONDON):%Y-%m-%dT%H:%M}"


@pytest.fixture
def firing(fire):
    """A firing of 12 hours that was opened after 36."""
    return fire("cooled", steady(to_h=12), moments=[("shut off", 12.0), ("opened", 36.0)])


@pytest.fixture
def url(firing):
    """Where the line after ten hours is put right; it says 1020 °C."""
    return reverse("kiln:line", args=["cooled-20"])


@pytest.fixture
def send(signed_in, url):
    """Change some answers of the page as it stands, and send it."""

    def of(page=None, **changed):
        form = (page or signed_in.get(url)).context["form"]
        begun = {one.name: one.value() for one in form if one.name not in {"sure", "when"}}
        begun["when"] = typed((form.stood - LIT) / timedelta(hours=1))
        return signed_in.post(url, begun | changed)

    return of


def after_ten_hours(firing):
    """The lines that stand where the one of 1020 °C was written."""
    return LogLine.objects.current().filter(
        firing=firing, at__range=(LIT + timedelta(hours=9.75), LIT + timedelta(hours=10.25))
    )


def test_an_old_page_sent_again_with_another_number_leaves_one_line(signed_in, firing, url, send):
    page = signed_in.get(url)

    replies = [send(page, temp_c=temp) for temp in ("1042", "1044", "1044", "1042")]

    log = signed_in.get(reverse("kiln:firing", args=[firing.pk]))
    chain = LogLine.objects.filter(firing=firing, corrects__isnull=False).order_by("kept_at")
    assert [reply.status_code for reply in replies] == [302] * 4
    assert [line.temp_c for line in chain] == [1042, 1044]
    assert [line.corrects_id for line in chain] == ["cooled-20", chain[0].pk]
    assert after_ten_hours(firing).get().temp_c == 1044
    assert log.context["answer"].cautions == []


def test_an_old_page_sent_again_with_another_time_is_another_correction(
    signed_in, firing, url, send
):
    page = signed_in.get(url)

    for hours in (9.9, 10.1):
        send(page, temp_c="1030", when=typed(hours))

    right = after_ten_hours(firing).get()
    assert (right.temp_c, right.at) == (1030, LIT + timedelta(hours=10.1))


def test_an_old_address_shows_what_stands_now(signed_in, url, send):
    send(temp_c="1042")

    assert signed_in.get(url).context["form"]["temp_c"].value() == "1042"


def test_what_was_only_remembered_stays_only_remembered(member, firing, send):
    LogLine.objects.filter(pk="cooled-20").update(remembered="I think")

    send(temp_c="1042")

    assert after_ten_hours(firing).get().remembered == "I think"


def test_how_it_is_remembered_can_be_put_right(signed_in, firing, url, send):
    LogLine.objects.filter(pk="cooled-20").update(remembered="I think")
    asked = signed_in.get(url).content.decode()

    send(remembered="")

    right = after_ten_hours(firing).get()
    assert 'value="I think"' in asked
    assert (right.temp_c, right.remembered) == (1020, "")


def test_nothing_changed_is_nothing_kept(firing, send):
    reply = send()

    assert reply.url == reverse("kiln:firing", args=[firing.pk])
    assert not LogLine.objects.filter(firing=firing, corrects__isnull=False).exists()


def test_a_temperature_that_is_not_changed_keeps_its_last_digit(studio, firing, send):
    Studio.objects.filter(pk=studio.pk).update(temperature="fahrenheit")
    LogLine.objects.filter(pk="cooled-20").update(temp_c=1020.123)

    send(note="wind")

    right = after_ten_hours(firing).get()
    assert (right.temp_c, right.note) == (1020.123, "wind")


def test_a_line_is_not_moved_to_after_the_kiln_was_opened(firing, send):
    reply = send(when=typed(46))

    (say,) = reply.context["form"].errors["when"]
    assert reply.status_code == 422
    assert say == ("The firing went from 3 Oct, 07:00 to 4 Oct, 19:00: accepted is a time between.")
    assert after_ten_hours(firing).get().pk == "cooled-20"


def test_a_number_that_stood_before_is_not_asked_about_again(signed_in, member, firing, send):
    LogLine.objects.filter(pk="cooled-20").update(temp_c=102)

    replies = [send(flame="soft"), send(when=typed(10.1))]

    # It was kept as it is: only another temperature or another time is looked at.
    assert [reply.status_code for reply in replies] == [302, 422]
    assert after_ten_hours(firing).get().flame == "soft"


def test_a_correction_that_was_taken_back_is_refused_when_it_comes_again(
    signed_in, firing, url, send
):
    page = signed_in.get(url)
    send(page, temp_c="1042")
    kept = after_ten_hours(firing).get()
    signed_in.post(reverse("kiln:log-undo", args=[firing.pk, "logline", kept.pk]))

    reply = send(page, temp_c="1042")

    assert reply.status_code == 422
    assert "This was taken back." in reply.content.decode()
    assert after_ten_hours(firing).get().pk == "cooled-20"


def test_a_line_that_was_taken_back_is_not_here(signed_in, member, firing):
    gone = keep(LogLine, member, firing=firing, at=LIT + timedelta(hours=3.1), temp_c=330.0)
    LogLine.objects.filter(pk=gone.pk).update(undone_at=timezone.now())

    assert signed_in.get(reverse("kiln:line", args=[gone.pk])).status_code == 404
