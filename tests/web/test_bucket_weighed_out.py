"""A bucket never holds more dry glaze than was weighed out for it: then the litres are wrong."""

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
from wareboard.records.stores.models import Lot, Material

PAGE = "/glazes/buckets/my-bucket/"
GRAMS = f"{PAGE}grams/?percent=2&amount=&how=whole&of=base"
SAYS = "That is more dry glaze than the 2040 g weighed out for it: look at the litres."


@pytest.fixture
def powder(member):
    return keep(Material, member, name="feldspar")


@pytest.fixture
def batch(member, powder):
    """A batch of 2040 g."""
    glaze = keep(Glaze, member, name="Rill")
    recipe = keep(
        Recipe,
        member,
        glaze=glaze,
        version=1,
        parts=(RecipeLine(material=powder, parts=100),),
        owner="recipe",
    )
    lines = (BatchLine(material=powder, weighed_g=2000), BatchLine(material=powder, weighed_g=40))
    return keep(Batch, member, recipe=recipe, number=1, parts=lines, owner="batch")


@pytest.fixture
def bucket(member, batch):
    glaze = batch.recipe.glaze
    bucket = keep(Bucket, member, entry_id="my-bucket", glaze=glaze, name="Rill")
    keep(BucketEvent, member, bucket=bucket, kind="filled", batch=batch)
    return bucket


def weighed(member, bucket, litres):
    bottle = {"full_g": 930, "empty_g": 200, "volume_ml": 500}
    keep(Reading, member, bucket=bucket, in_bucket_l=litres, **bottle)


def said(client):
    return client.get(PAGE).context["left"]["caution"]


def test_more_than_was_weighed_out_is_said(signed_in, member, bucket):
    # 1.46 and 2.6 g/cm3: 0.75 kg dry in a litre, 3.7 kg in five.
    weighed(member, bucket, 5)

    page = signed_in.get(PAGE)
    grams = signed_in.get(GRAMS).context["answer"]

    assert page.context["left"]["caution"] == SAYS
    assert page.content.decode().count(SAYS) == 1
    assert SAYS in grams["cautions"]


def test_as_much_as_was_weighed_out_is_not(signed_in, member, bucket):
    weighed(member, bucket, 2.7)

    assert said(signed_in) == ""


def test_powder_that_was_stirred_in_counts_too(signed_in, member, bucket, powder):
    lot = keep(Lot, member, material=powder, label="A")
    more = {"kind": "powder in", "lot": lot, "amount_g": 2000}
    keep(BucketEvent, member, bucket=bucket, **more)
    weighed(member, bucket, 5)

    assert said(signed_in) == ""


def test_a_bucket_that_was_topped_up_is_not_judged_by_one_batch(signed_in, member, bucket, batch):
    keep(BucketEvent, member, bucket=bucket, kind="topped up", batch=batch)
    weighed(member, bucket, 5)

    assert said(signed_in) == ""


def test_where_not_all_was_weighed_nothing_is_said(signed_in, member, bucket, batch, powder):
    batch.lines.filter(weighed_g=40).update(weighed_g=None)
    weighed(member, bucket, 5)

    assert said(signed_in) == ""
