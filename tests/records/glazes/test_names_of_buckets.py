"""Names that new buckets and tubs begin with: by the glaze, and never one that stands already."""

import pytest

from wareboard.records.glazes.models import Bucket, Reading
from wareboard.records.glazes.names import name_for_bucket, name_for_tub
from wareboard.records.people.entry import keep

RILL = "/glazes/glazes/my-rill/"


@pytest.fixture
def bucket(member, rill):
    return keep(Bucket, member, entry_id="my-bucket", glaze=rill, name="Rill")


def test_a_new_bucket_begins_with_the_name_of_its_glaze(signed_in, rill):
    form = signed_in.get(f"{RILL}new-bucket/").context["form"]

    assert form["name"].value() == "Rill"


def test_the_next_one_is_the_second_bucket_of_it(signed_in, bucket):
    signed_in.post(f"{RILL}new-batch/", {"entry_id": "b-1"})

    told = signed_in.get(f"{RILL}new-bucket/").context["form"]
    poured = signed_in.get("/glazes/batches/b-1/pour/").context["form"]

    assert told["name"].value() == poured["name"].value() == "Rill, second bucket"


def test_a_second_tub_drawn_off_is_told_from_the_first(signed_in, member, bucket):
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=200, volume_ml=500, in_bucket_l=9)
    keep(Bucket, member, glaze=bucket.glaze, name="rill, tub")

    asked = {"percent": "1", "amount": "2", "how": "litres"}
    page = signed_in.get("/glazes/buckets/my-bucket/grams/", asked)

    assert page.context["did"]["tub"].value() == "Rill, second tub"


def test_a_bucket_that_was_taken_back_leaves_its_name(signed_in, bucket):
    signed_in.post("/undo/bucket/my-bucket/")

    assert signed_in.get(f"{RILL}new-bucket/").context["form"]["name"].value() == "Rill"


def test_where_words_end_numbers_go_on(member, rill):
    made = []
    for _ in range(8):
        made.append((name_for_bucket(member, "Rill"), name_for_tub(member, "Rill")))
        for name in made[-1]:
            keep(Bucket, member, glaze=rill, name=name)

    assert [names[0] for names in made[4:]] == [
        "Rill, fifth bucket",
        "Rill, bucket 6",
        "Rill, bucket 7",
        "Rill, bucket 8",
    ]
    assert made[5][1] == "Rill, tub 6"
