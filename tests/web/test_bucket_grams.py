"""How many grams? Per cent of the dry glaze in a wet bucket, and what was really added."""

import pytest

from wareboard.records.glazes.models import (
    Batch,
    BatchLine,
    Bucket,
    BucketEvent,
    Glaze,
    Reading,
    Recipe,
    RecipeLine,
)
from wareboard.records.people.entry import keep
from wareboard.records.stores.models import Lot, Material, Sheet

HTMX = {"HX-Request": "true"}
PAGE = "/glazes/buckets/my-bucket/grams/"


@pytest.fixture
def bucket(member):
    """Ten litres at SG 1.46 of a powder of 2.5 g/cm³, and a jar of cobalt."""
    spar = keep(Material, member, name="feldspar")
    keep(Sheet, member, material=spar, standing="supplier's sheet", density_g_cm3=2.5)
    cobalt = keep(Material, member, name="cobalt oxide", kind="colourant")
    keep(Lot, member, entry_id="cobalt-1", material=cobalt, label="1", container="jar")
    glaze = keep(Glaze, member, entry_id="my-rill", name="Rill")
    line = RecipeLine(material=spar, parts=100)
    recipe = keep(Recipe, member, glaze=glaze, version=1, parts=(line,), owner="recipe")
    weighed = BatchLine(material=spar, weighed_g=10_000)
    batch = keep(
        Batch, member, entry_id="b-1", recipe=recipe, number=1, parts=(weighed,), owner="batch"
    )
    bucket = keep(
        Bucket,
        member,
        entry_id="my-bucket",
        glaze=glaze,
        name="Rill",
        bottle_empty_g=200,
        bottle_ml=500,
    )
    keep(BucketEvent, member, bucket=bucket, kind="filled", batch=batch)
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=200, volume_ml=500, in_bucket_l=10)
    return bucket


def kept():
    return list(
        BucketEvent.objects.standing()
        .filter(studio="test-studio")
        .exclude(bucket="my-bucket", kind="filled")
        .order_by("kept_at")
    )


def page(client, **told):
    """The page after two per cent, or what is told, was asked for."""
    return client.get(PAGE, {"percent": "2", **told})


def answer(client, **told):
    """The grams that it says to add, and what goes with them."""
    return page(client, **told).context["answer"]


# Brongniart: 8400 g at SG 1.46 with powder of 2.5 hold 8400 x 0.46 x 2.5 / (1.5 x 1.46) = 4411 g
# dry. Half a per cent of the base is 22.06 g; of the finished glaze 4411 x 0.5 / 99.5 = 22.17 g;
# two per cent of the base is 88.2 g.
@pytest.mark.parametrize(
    ("percent", "of", "say"),
    [
        ("0.5", "base", "Add 22 g."),
        ("0,5", "finished", "Add 22 g."),
        ("2", "base", "Add 88 g."),
        ("2", "finished", "Add 90 g."),
    ],
)
def test_grams_for_a_tub_rest_on_the_dry_glaze_alone(signed_in, bucket, percent, of, say):
    added = answer(signed_in, percent=percent, how="grams", amount="8400", of=of)

    assert added["say"] == say
    assert added["working"].startswith("8400 g at 1.46 hold 4411 g dry;")
    assert added["trust"] == "worked-out"


def test_per_cent_of_what_is_said_plainly(signed_in, bucket):
    base, finished = (
        answer(signed_in, how="grams", amount="8400", of=of) for of in ("base", "finished")
    )

    assert base["working"].endswith("2 % of the dry base.")
    assert finished["working"].endswith("2 % of the finished glaze, powder included.")


def test_the_whole_bucket_goes_by_its_litres_and_is_more_doubtful(signed_in, bucket):
    whole = answer(signed_in)
    tub = answer(signed_in, how="grams", amount="14600")

    # Ten litres at 1.46 are 14600 g: the same grams, but nobody weighed them.
    assert whole["say"] == tub["say"]
    low, high = (float(end) for end in whole["span"].strip("()").removesuffix(" g").split("–"))
    middle = float(whole["number"])
    assert (high - low) / 2 >= 0.05 * middle
    assert whole["span"] != tub["span"]


@pytest.mark.parametrize(
    ("how", "amount"),
    [
        ("litres", "6"),
        ("grams", "6 l"),
        ("litres", "8760 g"),
        ("grams", "8,76 kg"),
        ("", "6"),
    ],
)
def test_a_unit_that_is_written_decides_and_else_the_button(signed_in, bucket, how, amount):
    added = answer(signed_in, how=how, amount=amount)

    # Six litres at 1.46 are 8760 g; 8760 x 0.46 x 2.5 / (1.5 x 1.46) = 4600 g dry, 2 % of it 92 g.
    assert added["say"] == "Add 92 g."


def test_litres_become_grams_by_the_last_reading_and_are_doubtful(signed_in, bucket):
    by_mark = answer(signed_in, how="litres", amount="6")
    weighed = answer(signed_in, how="grams", amount="8760")

    assert by_mark["working"] == (
        "6 l at 1.46 weigh 8760 g and hold 4600 g dry; 2 % of the dry base."
    )
    assert by_mark["span"] != weighed["span"]


def test_the_whole_bucket_needs_no_number_where_its_litres_are_known(signed_in, bucket):
    asked = signed_in.get(PAGE).context
    added = answer(signed_in, how="whole", amount="")

    assert asked["all"] == "The whole bucket is 10 l and needs no number."
    assert added["working"].startswith("10 l at 1.46 weigh 14.6 kg and hold 7667 g dry;")


def test_a_bucket_nobody_told_the_litres_of_asks_for_them(signed_in, member, bucket):
    keep(BucketEvent, member, bucket=bucket, kind="filled", batch_id="b-1")
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=200, volume_ml=500)

    silent = page(signed_in, how="whole")
    told = page(signed_in, how="whole", amount="6")

    assert silent.context["ask"].errors["amount"] == [
        "Nobody said how much is in this bucket: write its litres here."
    ]
    assert told.context["answer"]["say"] == "Add 92 g."
    assert "tub" not in told.context["did"].fields


def test_more_than_is_in_the_bucket_is_remarked_on(signed_in, bucket):
    added = answer(signed_in, how="litres", amount="12")

    assert added["cautions"] == ["That is more than the 10 l in this bucket by its tide line."]


def test_litres_that_are_the_whole_bucket_are_not_taken_for_a_tub(signed_in, bucket):
    whole, some = (page(signed_in, how="litres", amount=litres) for litres in ("10", "3"))

    tubs = [told.context["did"]["tub"].value() for told in (whole, some)]
    assert tubs == ["", "Rill, tub"]


def test_litres_drawn_into_a_tub_are_kept_as_litres(signed_in, bucket):
    litres = {"how": "litres", "amount": "2", "tub": "Rill, blue"}

    signed_in.post(PAGE, {**TUB, **litres})

    drawn, filled, _powder = kept()
    assert [(e.amount_ml, e.amount_g) for e in (drawn, filled)] == [(2000, None), (2000, None)]


def test_what_a_coarse_scale_cannot_weigh_well_is_named(signed_in, bucket):
    added = answer(signed_in, percent="0.1", how="grams", amount="8400")

    # 4.4 g on a scale that shows whole grams.
    assert added["say"] == "Add 4 g."
    assert added["cautions"][0].startswith(
        "A scale that shows steps of 1 g is coarse for so little"
    )


def test_only_the_fragment_comes_back(signed_in, bucket):
    reply = signed_in.get(PAGE, {"percent": "2"}, headers=HTMX)

    assert reply.status_code == 200
    assert "<html" not in reply.content.decode()


def test_the_page_stays_within_twelve_queries(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        reply = demo_client.get("/glazes/buckets/rill-bucket-2/grams/", {"percent": "2"})

    assert [child.glaze.name for child in reply.context["children"]] == ["Rosehip", "Samphire"]


@pytest.mark.parametrize(
    ("told", "field", "say"),
    [
        (
            {"percent": "some"},
            "percent",
            (
                'How many per cent of the dry glaze? "some" is not a number; '
                "accepted is per cent of the dry weight from 0 to 1000, such as 2."
            ),
        ),
        (
            {"percent": "99.5", "of": "finished"},
            "percent",
            (
                "The addition cannot be 99.5: "
                "per cent of the finished dry weight from 0 to 99, such as 2 would do."
            ),
        ),
        (
            {"percent": "2", "how": "litres"},
            "amount",
            "How much glaze? Write litres such as 5, or tap “whole bucket”.",
        ),
        (
            {"percent": "2", "how": "grams"},
            "amount",
            "How much glaze? Write grams such as 8400, or tap “whole bucket”.",
        ),
        (
            {"percent": "2", "how": "grams", "amount": "6"},
            "amount",
            "6 g of glaze is too little to add powder to: do you mean 6 l?",
        ),
        (
            {"percent": "2", "how": "litres", "amount": "6 g"},
            "amount",
            "6 g of glaze is too little to add powder to: do you mean 6 l?",
        ),
        (
            {"percent": "2", "how": "grams", "amount": "0"},
            "amount",
            "0 g of glaze is too little to add powder to: accepted is from 20 g.",
        ),
        (
            {"percent": "2", "how": "litres", "amount": "6000"},
            "amount",
            "6000 l is more than a bucket holds: do you mean 6000 g?",
        ),
        (
            {"percent": "2", "how": "grams", "amount": "900 kg"},
            "amount",
            "900000 g is more than a bucket holds: accepted is up to 200 l, or 600 kg.",
        ),
        (
            {"percent": "2", "how": "litres", "amount": "a jug"},
            "amount",
            (
                'How much glaze? "a jug" is not a number; '
                "accepted is litres above 0 and up to 10000, such as 5."
            ),
        ),
    ],
)
def test_what_cannot_be_is_explained(signed_in, bucket, told, field, say):
    reply = signed_in.get(PAGE, told)

    assert reply.status_code == 422
    assert reply.context["ask"].errors[field] == [say]
    assert reply.context["answer"] is None


def test_a_bucket_that_was_stirred_since_is_to_be_weighed_again(signed_in, bucket):
    signed_in.post("/glazes/buckets/my-bucket/change/", {"kind": "water in", "amount_l": "0.5"})

    reply = page(signed_in)

    assert reply.status_code == 422
    assert reply.context["ask"].errors["percent"] == [
        "Something went into this bucket since its last reading: weigh the full bottle again first."
    ]


def test_i_did_it_keeps_the_powder_with_its_jar(signed_in, bucket):
    told = {
        "percent": "2",
        "how": "whole",
        "amount": "",
        "of": "base",
        "entry_id": "e-1",
        "lot": "cobalt-1",
    }

    reply = signed_in.post(PAGE, {**told, "amount_g": "152"})

    (event,) = kept()
    assert (reply.status_code, reply["Location"]) == (302, "/glazes/buckets/my-bucket/")
    assert (event.kind, event.lot_id, event.amount_g) == ("powder in", "cobalt-1", 152)


def test_a_pinch_of_powder_asks_for_no_new_reading(signed_in, bucket):
    told = {"percent": "1", "entry_id": "e-1", "lot": "cobalt-1", "amount_g": "76"}
    signed_in.post(PAGE, told)

    bucket_page = signed_in.get("/glazes/buckets/my-bucket/").context

    assert bucket_page["rows"][0]["what"] == "powder added: cobalt oxide, 76 g"
    assert bucket_page["answer"].say == "It is at 1.46."


def test_sent_twice_it_is_kept_once_and_can_be_taken_back(signed_in, bucket):
    told = {"percent": "2", "entry_id": "e-1", "lot": "cobalt-1", "amount_g": "152"}
    for _ in range(2):
        signed_in.post(PAGE, told)
    assert len(kept()) == 1

    undo = signed_in.get("/glazes/buckets/my-bucket/").context["undo"]
    signed_in.post(undo["url"])

    assert kept() == []


def test_much_powder_sent_twice_ends_alike_though_the_bucket_was_stirred(signed_in, bucket):
    told = {"percent": "5", "how": "whole", "entry_id": "e-1", "amount_g": "383"}

    replies = [signed_in.post(PAGE, told) for _ in range(2)]

    assert [reply.status_code for reply in replies] == [302, 302]
    assert replies[0]["Location"] == replies[1]["Location"]
    assert len(kept()) == 1


TUB = {
    "percent": "2",
    "how": "grams",
    "amount": "2000",
    "entry_id": "e-1",
    "lot": "cobalt-1",
    "amount_g": "21",
}


def test_a_tub_becomes_a_bucket_of_its_own(signed_in, bucket):
    reply = signed_in.post(PAGE, {**TUB, "tub": "Rill, blue"})

    tub = Bucket.objects.get(studio="test-studio", name="Rill, blue")
    assert reply["Location"] == f"/glazes/buckets/{tub.pk}/"
    assert [(e.bucket_id, e.kind, e.amount_g, e.batch_id) for e in kept()] == [
        ("my-bucket", "drawn", 2000, None),
        (tub.pk, "filled", 2000, "b-1"),
        (tub.pk, "powder in", 21, None),
    ]


def test_a_tub_is_taken_back_whole(signed_in, bucket):
    signed_in.post(PAGE, {**TUB, "tub": "Rill, blue"})
    tub = Bucket.objects.get(studio="test-studio", name="Rill, blue")

    undo = signed_in.get(f"/glazes/buckets/{tub.pk}/").context["undo"]
    reply = signed_in.post(undo["url"], {"next": undo["next"]})

    assert reply["Location"] == "/glazes/"
    assert kept() == []
    assert [b.pk for b in Bucket.objects.standing().filter(studio="test-studio")] == ["my-bucket"]


@pytest.mark.parametrize(
    ("told", "field", "say"),
    [
        (
            {"amount_g": "some"},
            "amount_g",
            'What the scale said: "some" is not a number; accepted is grams from 0 to 10000000.',
        ),
        (
            {"lot": "potash-feldspar-a"},
            "lot",
            "Select a valid choice. potash-feldspar-a is not one of the available choices.",
        ),
    ],
)
def test_what_was_added_and_cannot_be_is_explained_and_not_kept(
    signed_in, bucket, told, field, say
):
    reply = signed_in.post(PAGE, {**TUB, "tub": "Rill, blue", **told})

    assert reply.status_code == 422
    assert reply.context["did"].errors[field] == [say]
    assert kept() == []
