"""A bucket's litres do not fall by themselves: pots dipped since they were told are named."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.records.glazes.models import Bucket, Glaze, Reading
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Coat, Pot

PAGE = "/glazes/buckets/my-bucket/"
NOW = timezone.now()


def ago(days):
    return NOW - timedelta(days=days)


@pytest.fixture
def bucket(member):
    """A bucket weighed a week ago, with 7 litres in it."""
    glaze = keep(Glaze, member, name="Rill")
    bucket = keep(Bucket, member, entry_id="my-bucket", glaze=glaze, name="Rill", at=ago(30))
    bottle = {"full_g": 930, "empty_g": 200, "volume_ml": 500}
    keep(Reading, member, entry_id="r-1", bucket=bucket, in_bucket_l=7, at=ago(7), **bottle)
    return bucket


def dipped(member, bucket, pot_id, days, **facts):
    pot = Pot.objects.filter(pk=pot_id).first() or keep(Pot, member, entry_id=pot_id, name=pot_id)
    keep(Coat, member, pot=pot, bucket=bucket, side="inside", at=ago(days), **facts)


def less(client):
    return client.get(PAGE).context["less"]


def test_before_any_dip_the_litres_stand(signed_in, bucket):
    assert less(signed_in) == ""


def test_pots_dipped_since_are_named(signed_in, member, bucket):
    dipped(member, bucket, "early", days=8)
    for pot_id, days in (("one", 6), ("one", 5), ("two", 5)):
        dipped(member, bucket, pot_id, days=days)

    reply = signed_in.get(PAGE)

    say = "2 pots were dipped since: less than this is left."
    assert reply.context["less"] == say
    assert reply.content.decode().count(say) == 1


def test_they_are_taken_off_the_pots_it_will_still_do(signed_in, member, bucket):
    dipped(member, bucket, "weighed", days=6, before_g=400, after_g=430)
    before = signed_in.get(PAGE).context["pots"]
    for pot_id in ("one", "two", "three"):
        dipped(member, bucket, pot_id, days=6)

    pots = signed_in.get(PAGE).context["pots"]

    more = [
        int(said["say"].removeprefix("Enough for about ").split()[0]) for said in (before, pots)
    ]
    assert more[0] - more[1] == 3
    assert pots["working"].endswith("The pots dipped since, 4 of them, are taken off.")


def test_a_reading_without_litres_changes_nothing(signed_in, member, bucket):
    dipped(member, bucket, "one", days=6)

    signed_in.post(PAGE, {"full_g": "931"})

    assert less(signed_in) == "1 pot was dipped since: less than this is left."


def test_a_new_tide_line_counts_from_then(signed_in, member, bucket):
    dipped(member, bucket, "one", days=6)

    reply = signed_in.post(
        PAGE, {"full_g": "931", "in_bucket_l": "6.5"}, headers={"HX-Request": "true"}
    )

    assert reply.context["less"] == less(signed_in) == ""


def test_a_dip_that_was_taken_back_took_nothing(signed_in, member, bucket):
    dipped(member, bucket, "one", days=6, entry_id="c-1")
    Coat.objects.filter(pk="c-1").update(undone_at=NOW)

    assert less(signed_in) == ""


def test_where_nobody_said_how_much_there_is_nothing_to_be_less(signed_in, member, bucket):
    Reading.objects.filter(pk="r-1").update(in_bucket_l=None)
    dipped(member, bucket, "one", days=6)

    assert less(signed_in) == ""
