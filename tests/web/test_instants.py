"""Instants come back from the record as they went in."""

from datetime import UTC, datetime, timedelta, timezone

from django.db.models import Max
from hypothesis import given
from hypothesis import strategies as st

from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Pot
from wareboard.web.sqlite.base import instant

OVER_THERE = timezone(timedelta(hours=-5))
MOMENT = datetime(2026, 11, 25, 7, 40, 12, 345678, tzinfo=OVER_THERE)


def test_what_was_kept_is_read_to_the_microsecond(member):
    pot = keep(Pot, member, at=MOMENT)

    read = Pot.objects.get(pk=pot.pk).at

    assert read == MOMENT
    assert read.tzinfo is UTC


def test_an_instant_out_of_an_expression_knows_its_zone(member):
    keep(Pot, member, at=MOMENT)

    newest = Pot.objects.filter(studio=member.studio_id).aggregate(newest=Max("at"))["newest"]

    assert newest == MOMENT
    assert newest.tzinfo is UTC


def test_an_instant_that_never_was_stays_none(member):
    pot = keep(Pot, member)

    assert Pot.objects.get(pk=pot.pk).undone_at is None


@given(st.datetimes())
def test_text_is_read_as_the_time_in_utc(moment):
    assert instant(str(moment)) == moment.replace(tzinfo=UTC)


def test_text_that_names_its_zone_is_taken_at_its_word():
    assert instant("2026-11-25 07:40:00+01:00") == datetime(2026, 11, 25, 6, 40, tzinfo=UTC)
