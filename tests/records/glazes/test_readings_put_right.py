"""A reading put right, and a bottle put right in every reading that was taken with it."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.records.glazes.models import Bucket, Glaze, Reading
from wareboard.records.people.entry import keep
from wareboard.records.people.shown import day

BUCKET = "/glazes/buckets/my-bucket/"
BOTTLE = f"{BUCKET}bottle/"
RIGHT = "/glazes/readings/r-1/"
TOLD = {
    "entry_id": "c-1",
    "full_g": "939",
    "empty_g": "200",
    "volume_ml": "500",
    "in_bucket_l": "7",
    "flow": "as usual",
    "remembered": "I think",
}
LAST_WEEK = timezone.now() - timedelta(days=7)


@pytest.fixture
def bucket(member):
    """A bucket weighed a week ago, with a slip: 930.25 for 939."""
    glaze = keep(Glaze, member, entry_id="my-rill", name="Rill")
    bucket = keep(Bucket, member, entry_id="my-bucket", glaze=glaze, name="Rill")
    weigh(member, bucket, "r-1", full_g=930.25, in_bucket_l=7, flow="as usual")
    Reading.objects.filter(pk="r-1").update(remembered="I think", kept_at=LAST_WEEK)
    return bucket


def weigh(member, bucket, entry_id, **facts):
    bottle = {"empty_g": 200, "volume_ml": 500, "at": LAST_WEEK, **facts}
    return keep(Reading, member, entry_id=entry_id, bucket=bucket, **bottle)


def current():
    return Reading.objects.current().filter(studio="test-studio").order_by("bucket", "at", "pk")


def test_the_page_of_the_bucket_leads_to_it(signed_in, bucket):
    assert f'href="{RIGHT}"' in signed_in.get(BUCKET).content.decode()


def test_what_it_begins_with_is_not_asked_about(signed_in, member, bucket):
    weigh(member, bucket, "r-2", full_g=512.125, empty_g=38.125, volume_ml=365.125)
    form = signed_in.get("/glazes/readings/r-2/").context["form"]
    begun = {name: form[name].value() for name in ("full_g", "empty_g", "volume_ml")}

    reply = signed_in.post("/glazes/readings/r-2/", {**begun, "in_bucket_l": "7"})

    assert reply.status_code == 302
    assert Reading.objects.current().get(corrects="r-2").volume_ml == 365.125


def test_it_begins_with_what_was_written(signed_in, bucket):
    form = signed_in.get(RIGHT).context["form"]

    names = ("full_g", "empty_g", "volume_ml", "in_bucket_l", "flow", "remembered")
    assert {name: form[name].value() for name in names} == {
        "full_g": "930.25",
        "empty_g": "200",
        "volume_ml": "500",
        "in_bucket_l": "7",
        "flow": "as usual",
        "remembered": "I think",
    }


def test_a_second_reading_names_the_first_and_keeps_its_time(signed_in, bucket):
    reply = signed_in.post(RIGHT, TOLD)

    right = current().get()
    assert (reply.status_code, reply["Location"]) == (302, BUCKET)
    assert (right.corrects_id, right.full_g, right.at) == ("r-1", 939, LAST_WEEK)
    assert (right.in_bucket_l, right.flow, right.remembered) == (7, "as usual", "I think")
    assert Reading.objects.get(pk="r-1").full_g == 930.25


def test_the_same_page_sent_twice_ends_alike_and_is_kept_once(signed_in, bucket):
    replies = [signed_in.post(RIGHT, TOLD) for _ in range(2)]

    assert [(reply.status_code, reply["Location"]) for reply in replies] == [(302, BUCKET)] * 2
    assert Reading.objects.filter(bucket=bucket).count() == 2


def test_an_old_page_puts_right_what_stands_now(signed_in, bucket):
    signed_in.post(RIGHT, TOLD)

    page = signed_in.get(RIGHT).context
    signed_in.post(RIGHT, {**TOLD, "entry_id": "c-2", "full_g": "940"})
    signed_in.post(RIGHT, {**TOLD, "full_g": "941"})

    chain = list(Reading.objects.filter(bucket=bucket).order_by("kept_at"))
    assert page["was"] == "939 g"
    assert [reading.full_g for reading in chain] == [930.25, 939, 940, 941]
    assert [reading.corrects_id for reading in chain] == [None, *(r.pk for r in chain[:3])]
    assert current().get().full_g == 941


def test_nothing_changed_is_nothing_kept(signed_in, bucket):
    reply = signed_in.post(RIGHT, {**TOLD, "full_g": "930.25"})

    assert (reply.status_code, reply["Location"]) == (302, BUCKET)
    assert Reading.objects.filter(bucket=bucket).count() == 1


def test_it_is_taken_back_from_the_foot_of_the_bucket(signed_in, member, bucket):
    weigh(member, bucket, "r-2", full_g=935, at=LAST_WEEK + timedelta(days=1))
    Reading.objects.filter(pk="r-2").update(kept_at=LAST_WEEK)
    signed_in.post(RIGHT, TOLD)

    undo = signed_in.get(BUCKET).context["undo"]
    signed_in.post(undo["url"])

    assert undo["say"] == "Put right: 939 g."
    assert [reading.pk for reading in current()] == ["r-1", "r-2"]


def test_a_weight_this_bottle_cannot_have_is_asked_about_and_not_kept(signed_in, bucket):
    reply = signed_in.post(RIGHT, {**TOLD, "full_g": "9390"})

    assert reply.status_code == 422
    assert reply.context["form"].errors["full_g"] == [
        "9390 g is too much for this bottle: do you mean 939?"
    ]
    assert Reading.objects.filter(bucket=bucket).count() == 1


def test_a_reading_sent_again_after_it_was_put_right_is_not_kept_again(signed_in, member, bucket):
    told = {"entry_id": "r-9", "full_g": "930"}
    signed_in.post(BUCKET, told)
    signed_in.post(BOTTLE, {"entry_id": "b-1", "empty_g": "210", "volume_ml": "500"})
    before = Reading.objects.count()

    signed_in.post(BUCKET, told)

    assert Reading.objects.count() == before


def test_a_bottle_is_put_right_in_every_reading_of_the_bucket(signed_in, member, bucket):
    weigh(member, bucket, "r-2", full_g=935, at=LAST_WEEK + timedelta(days=1))
    weigh(member, bucket, "r-3", full_g=610, empty_g=150, volume_ml=300, at=LAST_WEEK)
    told = {"entry_id": "b-1", "empty_g": "210", "volume_ml": "490"}

    reply = signed_in.post(BOTTLE, told)

    bottles = {(r.full_g, r.empty_g, r.volume_ml) for r in current()}
    assert (reply.status_code, reply["Location"]) == (302, BUCKET)
    assert bottles == {(930.25, 210, 490), (935, 210, 490), (610, 150, 300)}
    assert str(signed_in.get(BUCKET).context["bottle"]) == "210 g empty, holds 490 ml"


def test_a_bottle_put_right_twice_by_one_page_is_put_right_once(signed_in, bucket):
    told = {"entry_id": "b-1", "empty_g": "210", "volume_ml": "490"}

    replies = [signed_in.post(BOTTLE, told) for _ in range(2)]

    assert [(reply.status_code, reply["Location"]) for reply in replies] == [(302, BUCKET)] * 2
    assert Reading.objects.filter(bucket=bucket).count() == 2


def test_taking_a_bottle_back_gives_every_reading_its_earlier_one(signed_in, member, bucket):
    weigh(member, bucket, "r-2", full_g=935, at=LAST_WEEK + timedelta(days=1))
    signed_in.post(BOTTLE, {"entry_id": "b-1", "empty_g": "210", "volume_ml": "490"})

    undo = signed_in.get(BUCKET).context["undo"]
    signed_in.post(undo["url"])

    assert undo["say"] == "Bottle put right."
    assert [reading.pk for reading in current()] == ["r-1", "r-2"]
    assert str(signed_in.get(BUCKET).context["bottle"]) == "200 g empty, holds 500 ml"


@pytest.mark.parametrize(
    ("where", "bottles"), [("here", [(210, 490), (200, 500)]), ("everywhere", [(210, 490)] * 2)]
)
def test_other_buckets_with_the_same_wrong_numbers_follow_where_asked(
    signed_in, member, bucket, where, bottles
):
    other = keep(Bucket, member, entry_id="other", glaze=bucket.glaze, name="Rill, old")
    weigh(member, other, "o-1", full_g=930)
    told = {"entry_id": "b-1", "empty_g": "210", "volume_ml": "490", "where": where}

    signed_in.post(BOTTLE, told)

    assert [(r.empty_g, r.volume_ml) for r in current()] == bottles


def test_a_bottle_that_a_reading_cannot_be_of_is_refused_by_its_day(signed_in, bucket):
    told = {"entry_id": "b-1", "empty_g": "210", "volume_ml": "5000"}

    reply = signed_in.post(BOTTLE, told)

    assert reply.status_code == 422
    on = day(LAST_WEEK, "j F")
    assert reply.context["form"].errors["empty_g"] == [
        f"On {on} the full bottle weighed 930.25 g; this one weighs 5210 to 15210 g."
    ]
    assert Reading.objects.filter(bucket=bucket).count() == 1


def test_a_bucket_that_was_never_weighed_asks_for_its_bottle_on_its_own_page(
    signed_in, member, bucket
):
    keep(Bucket, member, entry_id="other", glaze=bucket.glaze, name="Rill, old")

    reply = signed_in.get("/glazes/buckets/other/bottle/")

    assert (reply.status_code, reply["Location"]) == (302, "/glazes/buckets/other/")
