"""Batches: weighed out, drawn from a base, poured into a bucket, taken back."""

import pytest

from wareboard.records.glazes.models import (
    Batch,
    Bucket,
    BucketEvent,
    Glaze,
    Reading,
)
from wareboard.records.people.entry import keep

RILL = "/glazes/glazes/my-rill/"
ROSE = "/glazes/glazes/my-rose/"


@pytest.fixture
def bucket(signed_in, member, rill):
    """A bucket of Rill at SG 1.46, by a bottle of 500 ml."""
    told = {"entry_id": "b-1", "dry_g": "10 kg"}
    signed_in.post(f"{RILL}new-batch/", told)
    poured = {"entry_id": "p-1", "batch": "b-1", "name": "Rill", "kind": "filled", "amount_l": "9"}
    signed_in.post("/glazes/batches/b-1/pour/", poured)
    bucket = Bucket.objects.get(studio="test-studio")
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=200, volume_ml=500)
    return bucket


def lines_of(batch):
    return [
        (line.material.name, line.lot.label if line.lot else "", line.weighed_g)
        for line in batch.lines.order_by("position")
    ]


def test_a_batch_begins_with_the_bags_that_are_open(signed_in, rill):
    rows = signed_in.get(f"{RILL}new-batch/").context["rows"]

    assert [(row["name"], row["open"][:5], row["lot"].value()) for row in rows] == [
        ("feldspar", "bag B", "fel-b"),
        ("whiting", "bag B", "whi-b"),
    ]


def test_one_tap_keeps_a_batch_with_its_bags(signed_in, rill):
    told = {"entry_id": "b-1", "lot_0": "fel-b", "lot_1": "whi-b"}

    reply = signed_in.post(f"{RILL}new-batch/", told)

    batch = Batch.objects.get(pk="b-1")
    assert (reply.status_code, reply["Location"]) == (302, "/glazes/batches/b-1/")
    assert (batch.number, batch.recipe.glaze_id) == (1, "my-rill")
    assert lines_of(batch) == [("feldspar", "B", None), ("whiting", "B", None)]


def test_a_batch_sent_twice_is_kept_once_and_can_be_taken_back(signed_in, rill):
    for _ in range(2):
        signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1"})
    assert Batch.objects.filter(studio="test-studio").count() == 1

    undo = signed_in.get("/glazes/batches/b-1/").context["undo"]
    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert reply["Location"] == RILL
    assert not Batch.objects.standing().filter(studio="test-studio").exists()


def test_an_old_form_sent_again_with_other_grams_is_another_batch(signed_in, rill):
    for grams in ("600", "600", "610", "610"):
        signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1", "grams_0": grams})

    batches = Batch.objects.filter(studio="test-studio").order_by("number")
    assert [(batch.number, lines_of(batch)[0][2]) for batch in batches] == [(1, 600), (2, 610)]


def test_the_next_batch_has_the_next_number(signed_in, rill):
    for number in (1, 2):
        signed_in.post(f"{RILL}new-batch/", {"entry_id": f"b-{number}"})

    assert Batch.objects.get(pk="b-2").number == 2


@pytest.mark.parametrize(
    ("field", "typed", "say"),
    [
        (
            "grams_0",
            "a lot",
            ('feldspar: "a lot" is not a number; accepted is grams from 0 to 10000000.'),
        ),
        (
            "dry_g",
            "-3",
            ('How much dry glaze? "-3" is out of range; accepted is grams from 0 to 10000000.'),
        ),
        ("lot_0", "whi-b", "Select a valid choice. whi-b is not one of the available choices."),
    ],
)
def test_what_cannot_be_is_explained_and_no_batch_kept(signed_in, rill, field, typed, say):
    reply = signed_in.post(f"{RILL}new-batch/", {"lot_0": "fel-b", field: typed})

    form = reply.context["mix" if field == "dry_g" else "form"]
    assert reply.status_code == 422
    assert form.errors[field] == [say]
    assert not Batch.objects.filter(studio="test-studio").exists()


def test_a_glaze_without_a_recipe_asks_for_one_first(signed_in, member):
    keep(Glaze, member, entry_id="g-1", name="Rill")

    reply = signed_in.get("/glazes/glazes/g-1/new-batch/")

    assert reply["Location"] == "/glazes/glazes/g-1/new-version/"


def test_a_batch_poured_into_a_new_bucket_fills_it(signed_in, bucket):
    event = bucket.events.get()

    assert (bucket.name, bucket.glaze_id) == ("Rill", "my-rill")
    assert (event.kind, event.batch_id, event.amount_ml) == ("filled", "b-1", 9000)


def test_a_new_bucket_goes_with_what_filled_it(signed_in, bucket):
    signed_in.post(f"/undo/reading/{Reading.objects.get(bucket=bucket).pk}/")

    undo = signed_in.get(f"/glazes/buckets/{bucket.pk}/").context["undo"]
    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert reply["Location"] == "/glazes/"
    assert signed_in.get(f"/glazes/buckets/{bucket.pk}/").status_code == 404


def test_a_bucket_is_topped_up_from_a_later_batch(signed_in, bucket):
    signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-2"})
    told = {"batch": "b-2", "bucket": bucket.pk, "kind": "topped up", "amount_l": "2"}

    reply = signed_in.post(f"/glazes/buckets/{bucket.pk}/fill/", told)

    page = signed_in.get(f"/glazes/buckets/{bucket.pk}/").context
    assert reply["Location"] == f"/glazes/buckets/{bucket.pk}/"
    assert (page["title"], page["litres"]) == ("Rill, batches 1 and 2", "11 l")
    assert page["answer"].say == "Stir, and weigh it again."


def test_pouring_twice_is_kept_once(signed_in, bucket):
    told = {"entry_id": "p-2", "batch": "b-1", "bucket": bucket.pk, "kind": "topped up"}
    told["amount_l"] = "2"

    for _ in range(2):
        signed_in.post(f"/glazes/buckets/{bucket.pk}/fill/", told)

    assert [event.kind for event in bucket.events.order_by("kept_at")] == ["filled", "topped up"]


@pytest.mark.parametrize(
    ("told", "field", "say"),
    [
        ({"name": ""}, "name", "Choose a bucket, or write what stands on the new one."),
        (
            {"amount_l": "lots"},
            "amount_l",
            (
                'How much slop went in? "lots" is not a number; '
                "accepted is litres above 0 and up to 10000, such as 5."
            ),
        ),
        (
            {"batch": "limpet-batch-4"},
            "batch",
            ("Select a valid choice. That choice is not one of the available choices."),
        ),
    ],
)
def test_a_pouring_that_cannot_be_is_explained(signed_in, rill, told, field, say):
    signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1"})
    asked = {"batch": "b-1", "name": "Rill", "kind": "filled", **told}

    reply = signed_in.post("/glazes/batches/b-1/pour/", asked)

    assert reply.status_code == 422
    assert reply.context["form"].errors[field] == [say]
    assert not BucketEvent.objects.filter(studio="test-studio").exists()


# Brongniart: 8400 g at SG 1.46 with powder of 2.5 hold 8400 x 0.46 x 2.5 / (1.5 x 1.46) = 4411 g.
DRAWN = {"wet_g": "8400"}


def test_grams_for_a_drawn_batch_rest_on_the_dry_glaze_in_it(signed_in, rose, bucket):
    page = signed_in.get(f"{ROSE}draw/", {**DRAWN, "bucket": bucket.pk}).context

    assert page["said"]["dry"] == "4411 g"
    assert [row["said"].grams for row in page["rows"]] == ["22 g"]
    assert page["rows"][0]["grams"].value() == "22"


def test_a_drawn_batch_keeps_its_base_and_what_the_bucket_lost(signed_in, rose, bucket):
    told = {**DRAWN, "bucket": bucket.pk, "entry_id": "d-1", "lot_0": "tin-b", "grams_0": "22"}

    reply = signed_in.post(f"{ROSE}draw/", told)

    batch = Batch.objects.get(pk="d-1")
    lost = bucket.events.get(kind="drawn")
    assert reply["Location"] == "/glazes/batches/d-1/"
    assert (batch.drawn_from_id, batch.drawn_wet_g, batch.drawn_sg) == ("b-1", 8400, 1.46)
    assert lines_of(batch) == [("tin oxide", "B", 22)]
    assert (lost.amount_g, lost.together) == (8400, "d-1")


def test_a_drawn_batch_is_kept_once_and_taken_back_whole(signed_in, rose, bucket):
    told = {**DRAWN, "bucket": bucket.pk, "entry_id": "d-1", "grams_0": "22"}
    for _ in range(2):
        signed_in.post(f"{ROSE}draw/", told)
    assert bucket.events.filter(kind="drawn").count() == 1

    undo = signed_in.get("/glazes/batches/d-1/").context["undo"]
    signed_in.post(undo["url"])

    assert not Batch.objects.standing().filter(pk="d-1").exists()
    assert not BucketEvent.objects.standing().filter(bucket=bucket, kind="drawn").exists()


def test_a_batch_page_shows_the_bags_of_its_base_too(signed_in, rose, bucket):
    told = {**DRAWN, "bucket": bucket.pk, "entry_id": "d-1", "grams_0": "22"}
    signed_in.post(f"{ROSE}draw/", told)

    page = signed_in.get("/glazes/batches/d-1/").context

    assert page["drawn"] == "8400 g of it, wet, at 1.46."
    assert [row["material"].name for row in page["under"]] == ["feldspar", "whiting"]


def test_a_bucket_that_was_never_weighed_asks_for_it(signed_in, rose, bucket):
    Reading.objects.filter(bucket=bucket).delete()

    reply = signed_in.get(f"{ROSE}draw/", {**DRAWN, "bucket": bucket.pk})

    assert reply.status_code == 422
    assert reply.context["ask"].errors["bucket"] == [
        "Weigh the full bottle of this bucket first: the grams rest on its density."
    ]


@pytest.mark.parametrize(("typed", "why"), [("some", "is not a number"), ("6", "is out of range")])
def test_a_weight_that_is_none_is_explained_and_nothing_kept(signed_in, rose, bucket, typed, why):
    reply = signed_in.post(f"{ROSE}draw/", {"wet_g": typed, "bucket": bucket.pk})

    assert reply.status_code == 422
    assert reply.context["ask"].errors["wet_g"] == [
        (
            f'How much, wet, without the tub? "{typed}" {why}; '
            "accepted is grams from 20 to 600000, such as 8400."
        )
    ]
    assert not Batch.objects.filter(recipe__glaze="my-rose").exists()


def test_a_glaze_without_a_base_is_weighed_out_not_drawn(signed_in, rill):
    assert signed_in.get(f"{RILL}draw/")["Location"] == f"{RILL}new-batch/"


def test_while_the_old_bucket_lasts_the_pair_is_asked_for(demo_client):
    text = demo_client.get("/glazes/batches/limpet-batch-4/").content.decode()

    assert "put one small piece from each bucket side by side into the next load" in text


def test_the_chemistry_of_a_batch_is_that_of_its_bags(demo_client):
    def potash(batch):
        rows = demo_client.get(f"/glazes/batches/{batch}/").context["chemistry"]["rows"]
        return float(next(row["unity"] for row in rows if row["oxide"] == "K2O"))

    # One recipe, two bags of feldspar: 10.6 and 7.6 per cent of potash on their sheets.
    assert potash("limpet-batch-4") < potash("limpet-batch-3")


def test_a_batch_that_nobody_weighed_stands_on_its_recipe(signed_in, rill):
    signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1", "lot_0": "fel-b"})

    page = signed_in.get("/glazes/batches/b-1/").context

    # The sheets of these powders give a density and no oxide at all.
    assert page["total"] == ""
    assert "missing" in page["chemistry"]
