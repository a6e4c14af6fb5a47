"""The room of glazes: buckets that drifted first, then as they were used, in words."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.records.glazes.bridge import Liked
from wareboard.records.glazes.models import Bucket, BucketEvent, BucketEventKind, Glaze, Reading
from wareboard.records.people.entry import keep
from wareboard.records.people.models import Studio
from wareboard.records.people.shown import Shown
from wareboard.web.pages.glazes import STALE, bucket_row

NOW = timezone.now()
LIKED = Liked(1.46, 5, 0.0)


def row(*, full_g=930.0, days=0, liked=LIKED, flow="", **state):
    """A bucket by a bottle of 500 ml that weighs 200 g empty."""
    bucket = Bucket(name="Rill")
    bucket.begun_as, bucket.stirred_at = state.get("begun_as"), state.get("stirred_at")
    reading = Reading(
        at=NOW - timedelta(days=days), full_g=full_g, empty_g=200, volume_ml=500, flow=flow
    )
    return bucket_row(bucket, reading, liked, Shown(Studio()), NOW)


@pytest.mark.parametrize(
    ("full_g", "sign", "word"),
    [(930, "go", "right"), (915, "wait", "thin"), (945, "wait", "thick")],
)
def test_a_bucket_is_thin_right_or_thick(full_g, sign, word):
    found = row(full_g=full_g)

    assert (found["sign"], str(found["word"])) == (sign, word)


@pytest.mark.parametrize(
    ("days", "said"),
    [(0, "weighed today"), (1, "weighed yesterday"), (8, "weighed 8 days ago")],
)
def test_it_is_said_since_when_that_is_known(days, said):
    assert row(days=days)["more"] == f"1.46 · good at 1.46 · {said}"


def test_a_reading_of_long_ago_is_no_go():
    old = row(days=STALE.days + 1)

    assert (old["sign"], old["word"]) == ("unknown", "was right")


def test_a_gelled_bucket_is_not_right_whatever_it_weighs():
    gelled = row(flow="gelled")

    assert (gelled["sign"], gelled["word"]) == ("wait", "gelled")


def test_a_bucket_stirred_since_is_to_be_weighed_again():
    stirred = row(days=2, stirred_at=NOW - timedelta(days=1))

    assert (stirred["sign"], stirred["word"]) == ("unknown", "weigh again")


def test_a_glaze_without_a_good_pot_has_nothing_to_be_held_to():
    fresh = row(liked=None)

    assert (fresh["sign"], fresh["more"]) == ("", "1.46 · weighed today")


def test_an_empty_bucket_is_empty():
    assert row(begun_as=BucketEventKind.EMPTIED)["more"] == "empty"


def test_drifted_buckets_come_first_and_empty_ones_stand_apart(
    demo_client, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        rows = demo_client.get("/glazes/").context["buckets"]
    empty = demo_client.get("/glazes/?empty").context["buckets"]

    names = [found["bucket"].name for found in rows]
    # Hedgelay was gelled when it was weighed five weeks ago: nobody knows what it is now.
    assert names[:2] == ["Limpet, new bucket", "Rosehip"]
    assert {"Hedgelay", "Samphire", "Rill, old bucket"} == set(names[-3:])
    assert [found["bucket"].name for found in empty] == ["Limpet, old bucket"]
    assert "Limpet, old bucket" not in names


def test_the_bucket_used_last_comes_first(signed_in, member):
    glaze = keep(Glaze, member, entry_id="mine", name="Mine")
    ages = {"used": 300, "fresh": 5, "put by": 90}
    made = {
        name: keep(Bucket, member, glaze=glaze, name=name, at=NOW - timedelta(days=days))
        for name, days in ages.items()
    }
    told = {"at": NOW - timedelta(days=1), "kind": BucketEventKind.WATER_IN, "amount_ml": 100}
    keep(BucketEvent, member, bucket=made["used"], **told)

    home = [row["bucket"].name for row in signed_in.get("/glazes/").context["buckets"]]
    keep(BucketEvent, member, bucket=made["used"], at=NOW, kind=BucketEventKind.EMPTIED)
    page = signed_in.get("/glazes/glazes/mine/")

    assert home == ["used", "fresh", "put by"]
    assert [bucket.name for bucket in page.context["buckets"]] == ["fresh", "put by", "used"]
    assert '<span class="quiet">empty</span>' in page.content.decode()


def test_many_buckets_go_on_on_another_page(signed_in, member, django_assert_max_num_queries):
    glaze = keep(Glaze, member, name="Mine")
    for number in range(53):
        keep(Bucket, member, glaze=glaze, name=f"tub {number:02d}")

    first = signed_in.get("/glazes/")
    with django_assert_max_num_queries(12):
        second = signed_in.get("/glazes/", {"after-bucket": first.context["more_buckets"]})

    assert [len(page.context["buckets"]) for page in (first, second)] == [50, 3]


def test_only_the_studios_own_glazes_are_shown(signed_in, member):
    keep(Glaze, member, name="Mine")

    page = signed_in.get("/glazes/").context

    assert ([glaze.name for glaze in page["glazes"]], page["buckets"]) == (["Mine"], [])


def test_many_glazes_go_on_on_another_page(signed_in, member, django_assert_max_num_queries):
    for number in range(55):
        keep(Glaze, member, name=f"glaze {number:02d}")

    first = signed_in.get("/glazes/")
    with django_assert_max_num_queries(12):
        second = signed_in.get("/glazes/", {"after": first.context["more"]})

    assert [len(page.context["glazes"]) for page in (first, second)] == [50, 5]


def test_an_empty_room_says_what_to_do(signed_in):
    text = signed_in.get("/glazes/").content.decode()

    assert "No glaze yet. Begin with the one you use most." in text


def test_no_other_method_is_taken(demo_client):
    assert demo_client.post("/glazes/").status_code == 405
