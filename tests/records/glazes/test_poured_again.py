"""A batch that was poured before: asked about once where there cannot be as much of it again."""

import pytest

from wareboard.records.glazes.models import Bucket, BucketEvent, Reading
from wareboard.records.people.entry import keep

RILL = "/glazes/glazes/my-rill/"


@pytest.fixture
def bucket(signed_in, rill):
    """Ten kilograms of Rill, made up to 9 litres."""
    signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1", "dry_g": "10 kg"})
    told = {"entry_id": "p-1", "batch": "b-1", "name": "Rill", "kind": "filled", "amount_l": "9"}
    signed_in.post("/glazes/batches/b-1/pour/", told)
    return Bucket.objects.get(studio="test-studio")


def topped_up(client, bucket, litres, **more):
    told = {"entry_id": "p-2", "batch": "b-1", "bucket": bucket.pk, "kind": "topped up", **more}
    return client.post(f"/glazes/buckets/{bucket.pk}/fill/", {**told, "amount_l": litres})


def poured_l(bucket):
    events = BucketEvent.objects.standing().filter(bucket__studio=bucket.studio, batch="b-1")
    return [event.amount_ml / 1000 for event in events.order_by("kept_at") if event.amount_ml]


def test_a_batch_poured_in_full_a_second_time_is_asked_about(signed_in, bucket):
    reply = topped_up(signed_in, bucket, "9")

    today = bucket.events.get().at.strftime("%-d %B")
    assert reply.status_code == 422
    assert reply.context["form"].errors["amount_l"] == [
        f"Batch 1 was poured before: 9 l into “Rill” on {today}. Is so much of it left?"
    ]
    assert "I looked again: it is so." in reply.content.decode()
    assert poured_l(bucket) == [9]


def test_what_is_sure_is_kept(signed_in, bucket):
    topped_up(signed_in, bucket, "9", sure="on")

    assert poured_l(bucket) == [9, 9]


# Brongniart at SG 1.35: 0.35 × 2.5 ÷ 1.5 = 583 g of this powder a litre, so 10 kg make 17.1 l.
@pytest.mark.parametrize(("litres", "kept"), [("8", [9, 8]), ("8.2", [9])])
def test_nothing_is_asked_while_the_powder_makes_as_much(signed_in, bucket, litres, kept):
    topped_up(signed_in, bucket, litres)

    assert poured_l(bucket) == kept


def test_without_litres_it_is_asked_whether_any_is_left(signed_in, bucket):
    reply = topped_up(signed_in, bucket, "")

    assert reply.context["form"].errors["amount_l"][0].endswith("Is any of it left?")
    assert bucket.events.count() == 1


def test_into_another_bucket_it_is_asked_too(signed_in, bucket):
    told = {"batch": "b-1", "name": "Rill, second bucket", "kind": "filled", "amount_l": "9"}

    reply = signed_in.post("/glazes/batches/b-1/pour/", told)

    assert reply.status_code == 422
    assert Bucket.objects.filter(studio="test-studio").count() == 1


def test_a_page_sent_again_is_no_second_pouring(signed_in, bucket):
    told = {"entry_id": "p-1", "batch": "b-1", "name": "Rill", "kind": "filled", "amount_l": "9"}

    reply = signed_in.post("/glazes/batches/b-1/pour/", told)

    assert reply["Location"] == f"/glazes/buckets/{bucket.pk}/"
    assert poured_l(bucket) == [9]


def test_what_was_taken_back_was_not_poured(signed_in, bucket):
    signed_in.post("/undo/bucketevent/p-1/")
    told = {"batch": "b-1", "name": "Rill", "kind": "filled", "amount_l": "9"}

    reply = signed_in.post("/glazes/batches/b-1/pour/", told)

    assert reply.status_code == 302


def test_a_batch_that_nobody_weighed_is_asked_about_whatever_is_told(signed_in, bucket):
    signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-2"})
    first = {"entry_id": "p-3", "batch": "b-2", "bucket": bucket.pk, "kind": "filled"}
    signed_in.post(f"/glazes/buckets/{bucket.pk}/fill/", {**first, "amount_l": "9"})

    reply = topped_up(signed_in, bucket, "1", batch="b-2")

    assert reply.status_code == 422


def test_slop_drawn_into_a_tub_is_no_pouring(signed_in, member, bucket):
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=200, volume_ml=500)
    drawn = {"percent": "1", "amount": "8", "how": "litres", "amount_g": "50", "tub": "Rill, tub"}
    signed_in.post(f"/glazes/buckets/{bucket.pk}/grams/", drawn)
    assert Bucket.objects.filter(name="Rill, tub").exists()

    topped_up(signed_in, bucket, "1")

    assert poured_l(bucket)[-1] == 1
