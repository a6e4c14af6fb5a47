"""What was done to a bucket put right: a second row keeps the time of the first, which stays."""

from datetime import timedelta

import pytest
from django.utils import timezone

from wareboard.records.glazes.actions import dose_tub
from wareboard.records.glazes.drawn import Drawn
from wareboard.records.glazes.models import Batch, Bucket, BucketEvent, Glaze, Recipe
from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Lot, Material

BUCKET = "/glazes/buckets/my-bucket/"
RIGHT = "/glazes/changes/e-1/"
TOLD = {"entry_id": "c-1", "kind": "water in", "amount_l": "0.4"}
LAST_WEEK = timezone.now() - timedelta(days=7)


@pytest.fixture
def bucket(member):
    """A bucket filled a week ago with ten litres."""
    glaze = keep(Glaze, member, entry_id="my-rill", name="Rill")
    recipe = keep(Recipe, member, glaze=glaze, version=1)
    batch = keep(Batch, member, entry_id="my-batch", recipe=recipe, number=3)
    bucket = keep(Bucket, member, entry_id="my-bucket", glaze=glaze, name="Rill")
    do(member, bucket, "e-0", "filled", batch=batch, amount_ml=10_000, at=LAST_WEEK)
    return bucket


def do(member, bucket, entry_id, kind, **facts):
    facts = {"at": LAST_WEEK + timedelta(days=1), **facts}
    done = keep(BucketEvent, member, entry_id=entry_id, bucket=bucket, kind=kind, **facts)
    BucketEvent.objects.filter(pk=done.pk).update(kept_at=LAST_WEEK)
    return done


@pytest.fixture
def water(member, bucket):
    """Four litres of water that were four tenths."""
    return do(member, bucket, "e-1", "water in", amount_ml=4000, remembered="I think")


@pytest.fixture
def jars(member):
    cobalt = keep(Material, member, name="cobalt carbonate", kind="colourant")
    return {
        label: keep(Lot, member, entry_id=f"jar-{label}", material=cobalt, label=label)
        for label in ("a", "b")
    }


def current():
    return BucketEvent.objects.current().filter(bucket="my-bucket").order_by("at", "pk")


def litres(client):
    return client.get(BUCKET).context["litres"]


def test_the_page_of_the_bucket_leads_to_it(signed_in, water):
    assert f'href="{RIGHT}"' in signed_in.get(BUCKET).content.decode()


def test_it_begins_with_what_was_written(signed_in, water):
    page = signed_in.get(RIGHT).context

    names = ("kind", "amount_l", "remembered")
    assert page["was"] == "Water added: 4 l"
    assert {name: page["form"][name].value() for name in names} == {
        "kind": "water in",
        "amount_l": "4",
        "remembered": "I think",
    }


def test_a_second_row_names_the_first_and_keeps_its_time(signed_in, water):
    reply = signed_in.post(RIGHT, TOLD)

    right = current().last()
    assert (reply.status_code, reply["Location"]) == (302, BUCKET)
    assert (right.corrects_id, right.amount_ml, right.at) == ("e-1", 400, water.at)
    assert BucketEvent.objects.get(pk="e-1").amount_ml == 4000


def test_the_bucket_counts_what_is_right_alone(signed_in, water):
    before = litres(signed_in)
    signed_in.post(RIGHT, TOLD)

    page = signed_in.get(BUCKET).context
    assert (before, page["litres"]) == ("14 l", "10.4 l")
    assert [(row["what"], row["more"]) for row in page["rows"]] == [
        ("water added: 0.4 l", "corrected"),
        ("filled afresh with batch 3: 10 l", ""),
    ]


def test_water_in_may_have_been_water_off(signed_in, water):
    signed_in.post(RIGHT, {**TOLD, "kind": "water off"})

    assert [event.kind for event in current()] == ["filled", "water off"]
    assert litres(signed_in) == "9.6 l"


def test_a_bucket_that_was_called_empty_and_was_not_is_full_again(signed_in, member, bucket):
    do(member, bucket, "e-1", "emptied")
    before = signed_in.get(BUCKET).context["empty"]

    signed_in.post(RIGHT, {"kind": "drawn", "amount_l": "2"})

    page = signed_in.get(BUCKET).context
    assert (before, page["empty"], page["litres"]) == (True, False, "8 l")


def test_a_filling_keeps_its_batch(signed_in, bucket):
    signed_in.post("/glazes/changes/e-0/", {"kind": "topped up", "amount_l": "9"})

    right = current().get()
    assert (right.kind, right.amount_ml, right.batch_id) == ("topped up", 9000, "my-batch")


def test_a_filling_of_which_nobody_said_how_much_is_kept_so(signed_in, bucket):
    signed_in.post("/glazes/changes/e-0/", {"kind": "filled", "amount_l": ""})

    assert current().get().amount_ml is None


def test_powder_is_put_right_in_grams_and_by_its_jar(signed_in, member, bucket, jars):
    do(member, bucket, "e-1", "powder in", amount_g=450, lot=jars["a"])
    form = signed_in.get(RIGHT).context["form"]
    begun = {name: form[name].value() for name in ("amount_g", "lot")}

    signed_in.post(RIGHT, {"amount_g": "45", "lot": "jar-b"})

    right = current().last()
    assert begun == {"amount_g": "450", "lot": "jar-a"}
    assert sorted(form.fields) == ["amount_g", "entry_id", "lot", "remembered"]
    assert (right.kind, right.amount_g, right.lot_id) == ("powder in", 45, "jar-b")


def test_slop_that_filled_a_tub_is_put_right_in_both(signed_in, member, bucket, jars):
    batch = Batch.objects.get(pk="my-batch")
    told = {"drawn": Drawn(litres=5.0), "tub": "Test", "amount_g": 20, "lot": jars["a"]}
    tub = dose_tub(member, bucket, batch=batch, entry_id="tap", **told)

    signed_in.post("/glazes/changes/tap-d/", {"kind": "drawn", "amount_l": "0.5"})

    inside = BucketEvent.objects.current().filter(bucket=tub, kind="filled").get()
    assert (current().last().amount_ml, inside.amount_ml) == (500, 500)
    assert (inside.batch_id, inside.corrects_id) == ("my-batch", "tap-f")


def test_taken_back_both_say_again_what_they_said(signed_in, member, bucket, jars):
    batch = Batch.objects.get(pk="my-batch")
    told = {"drawn": Drawn(litres=5.0), "tub": "Test", "amount_g": 20, "lot": jars["a"]}
    dose_tub(member, bucket, batch=batch, entry_id="tap", **told)
    signed_in.post("/glazes/changes/tap-d/", {"kind": "drawn", "amount_l": "0.5"})

    signed_in.post(signed_in.get(BUCKET).context["undo"]["url"])

    moved = BucketEvent.objects.current().filter(together="tap", kind__in=("drawn", "filled"))
    assert [event.amount_ml for event in moved] == [5000, 5000]


def test_what_was_told_by_weight_is_put_right_by_weight(signed_in, member, bucket):
    do(member, bucket, "e-1", "drawn", amount_g=8400)
    form = signed_in.get(RIGHT).context["form"]

    signed_in.post(RIGHT, {"amount_g": "840"})

    assert sorted(form.fields) == ["amount_g", "entry_id", "remembered"]
    assert (current().last().kind, current().last().amount_g) == ("drawn", 840)


def test_the_same_page_sent_twice_ends_alike_and_is_kept_once(signed_in, water):
    replies = [signed_in.post(RIGHT, TOLD) for _ in range(2)]

    assert [(reply.status_code, reply["Location"]) for reply in replies] == [(302, BUCKET)] * 2
    assert BucketEvent.objects.filter(bucket="my-bucket").count() == 3


def test_an_old_page_puts_right_what_stands_now(signed_in, water):
    signed_in.post(RIGHT, TOLD)

    page = signed_in.get(RIGHT).context
    signed_in.post(RIGHT, {**TOLD, "entry_id": "c-2", "amount_l": "0.5"})

    assert page["was"] == "Water added: 0.4 l"
    assert (current().last().amount_ml, current().last().corrects_id) == (500, "c-1")


def test_nothing_changed_is_nothing_kept(signed_in, water):
    signed_in.post(RIGHT, {"kind": "water in", "amount_l": "4", "remembered": "I think"})

    assert BucketEvent.objects.filter(bucket="my-bucket").count() == 2


def test_it_is_taken_back_from_the_foot_of_the_bucket(signed_in, water):
    signed_in.post(RIGHT, TOLD)

    undo = signed_in.get(BUCKET).context["undo"]
    signed_in.post(undo["url"])

    assert undo["say"] == "Put right: water added: 0.4 l."
    assert [event.pk for event in current()] == ["e-0", "e-1"]
    assert litres(signed_in) == "14 l"


@pytest.mark.parametrize(
    ("told", "say"),
    [
        (
            {"kind": "water in", "amount_l": ""},
            "How much? Nothing is written here; accepted is litres, such as 0.4.",
        ),
        (
            {"kind": "water in", "amount_l": "a cup"},
            (
                'How much? "a cup" is not a number; '
                "accepted is litres above 0 and up to 10000, such as 5."
            ),
        ),
    ],
)
def test_what_cannot_be_is_explained_and_not_kept(signed_in, water, told, say):
    reply = signed_in.post(RIGHT, told)

    assert reply.status_code == 422
    assert reply.context["form"].errors["amount_l"] == [say]
    assert current().last().pk == "e-1"


def test_powder_without_grams_is_asked_for_them(signed_in, member, bucket, jars):
    do(member, bucket, "e-1", "powder in", amount_g=450, lot=jars["a"])

    reply = signed_in.post(RIGHT, {"amount_g": "", "lot": "jar-a"})

    assert reply.status_code == 422
    assert reply.context["form"].errors["amount_g"] == [
        "How much? Nothing is written here; accepted is grams, such as 45."
    ]


def test_what_was_done_in_another_studio_is_not_found(stranger, water):
    assert stranger.get(RIGHT).status_code == 404
    assert stranger.post(RIGHT, TOLD).status_code == 404


def test_what_was_never_done_is_not_found(signed_in, bucket):
    assert signed_in.get("/glazes/changes/nobody/").status_code == 404


def test_it_takes_no_other_method(signed_in, water):
    assert signed_in.put(RIGHT).status_code == 405


def test_the_page_asks_little(signed_in, member, bucket, jars, django_assert_max_num_queries):
    do(member, bucket, "e-1", "powder in", amount_g=450, lot=jars["a"])

    with django_assert_max_num_queries(12):
        signed_in.get(RIGHT)
