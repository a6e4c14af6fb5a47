"""The bucket in the hand: weigh it, read what it wants, how many pots it will do."""

import pytest
from django.utils import timezone

from wareboard.records.glazes.models import Bucket, BucketEvent, Glaze, Reading
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Coat, Pot

LIMPET = "/glazes/buckets/limpet-bucket-2/"
HTMX = {"HX-Request": "true"}


@pytest.fixture
def bucket(member):
    """A bucket of a glaze nobody fired yet; its bottle holds 500 ml."""
    glaze = keep(Glaze, member, entry_id="my-rill", name="Rill")
    return keep(
        Bucket,
        member,
        entry_id="my-bucket",
        glaze=glaze,
        name="Rill, blue lid",
        bottle_empty_g=200,
        bottle_ml=500,
    )


PAGE = "/glazes/buckets/my-bucket/"
NEW = "/glazes/buckets/new-bucket/"


def test_the_page_stays_within_twelve_queries(demo_client, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        assert demo_client.get(LIMPET).status_code == 200


def test_a_thin_bucket_says_how_much_clear_water_to_take_off(demo_client):
    page = demo_client.get(LIMPET).context

    # 536 g in 365 ml is 1.468; 7 l x (1.468 - 1.50) / 0.50 is less than half a litre too much.
    assert page["title"] == "Limpet, batch 4"
    assert page["answer"].say == "A little thin. Take off 0.4 l of clear water."
    assert page["answer"].trust == "worked-out"
    assert page["answer"].doubt.startswith("(")
    assert any("only clear water" in line for line in page["answer"].cautions)


def test_a_bucket_whose_pots_had_pinholes_says_so_before_anything_else(demo_client):
    page = demo_client.get(LIMPET)

    said = "Of 3 judged pots dipped in it since it was filled, 3: pinholes."
    assert page.context["came_out"] == {"say": said, "fault": "pinhole", "often": True}
    address = "/shelf/what-changed/?glaze=limpet&amp;fault=pinhole"
    assert page.content.decode().count(address) == 1


def test_one_tap_keeps_what_was_advised(demo_client):
    deed = demo_client.get(LIMPET).context["answer"].deed
    told = {"entry_id": "e-1", "kind": deed.kind, "amount_l": deed.amount_l}

    demo_client.post(f"{LIMPET}change/", told)

    page = demo_client.get(LIMPET).context
    assert deed.say == "Done: 0.4 l taken off"
    assert BucketEvent.objects.get(pk="e-1").kind == "water off"
    assert page["answer"].say == "Stir, and weigh it again."
    assert page["pots"] is None


def test_pots_left_are_counted_by_pots_that_were_weighed(demo_client):
    page = demo_client.get(LIMPET).context

    dips = Coat.objects.current().filter(
        bucket__glaze="limpet", pot__test_piece=False, before_g__isnull=False, after_g__isnull=False
    )
    assert page["pots"]["n"] == len(set(dips.values_list("pot", flat=True)))
    assert page["pots"]["say"].startswith("Enough for about ")
    assert page["pots"]["span"].startswith("(")


def test_a_glaze_nobody_weighed_a_dip_of_says_what_would_tell(signed_in, bucket):
    signed_in.post(PAGE, {"full_g": "930", "in_bucket_l": "5"})

    reply = signed_in.get(PAGE)

    assert reply.context["pots"] is None
    assert "this page says how many more the bucket will do" in reply.content.decode()


def test_the_pots_left_are_the_dry_glaze_by_what_a_pot_takes(signed_in, member, bucket):
    pot = keep(Pot, member, name="bowl")
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=200, volume_ml=500, in_bucket_l=10)
    for number, (side, gained) in enumerate([("inside", 60), ("outside", 40)]):
        keep(
            Coat,
            member,
            entry_id=f"coat-{number}",
            pot=pot,
            bucket=bucket,
            side=side,
            extent="whole",
            how="dipped",
            before_g=900,
            after_g=900 + gained,
        )

    pots = signed_in.get(PAGE).context["pots"]

    # One pot took 100 g of slop in two dips; the bucket held 10 l x 1.46 = 14600 g of it before.
    assert (pots["say"], pots["n"]) == ("Enough for about 145 more pots", 1)


def test_the_last_of_a_bucket_is_too_shallow_to_dip_in(demo_client):
    told = {"full_g": "748", "in_bucket_l": "2"}

    page = demo_client.post(LIMPET, told, headers=HTMX).context

    assert "too shallow to dip in" in page["pots"]["caution"]


def test_only_the_fragment_comes_back_and_the_foot_with_it(signed_in, bucket):
    reply = signed_in.post(PAGE, {"entry_id": "r-1", "full_g": "930"}, headers=HTMX)

    text = reply.content.decode()
    assert reply.status_code == 200
    assert "<html" not in text
    assert '<footer class="foot" id="foot" hx-swap-oob="true">' in text
    assert reply.context["undo"]["say"] == "Kept: 930 g."
    assert reply.context["answer"].say == "It is at 1.46."


def test_without_javascript_the_page_comes_again(signed_in, bucket):
    reply = signed_in.post(PAGE, {"entry_id": "r-1", "full_g": "930"})

    assert (reply.status_code, reply["Location"]) == (302, PAGE)
    assert Reading.objects.get(pk="r-1").full_g == 930


def test_a_reading_sent_twice_is_kept_once_and_can_be_taken_back(signed_in, bucket):
    for _ in range(2):
        signed_in.post(PAGE, {"entry_id": "r-1", "full_g": "930"})
    assert Reading.objects.filter(bucket=bucket).count() == 1

    signed_in.post(signed_in.get(PAGE).context["undo"]["url"])

    assert not Reading.objects.standing().filter(bucket=bucket).exists()


@pytest.mark.parametrize(
    ("typed", "say"),
    [
        (
            "heavy",
            'Weigh the full bottle: "heavy" is not a number; accepted is grams from 0 to 10000000.',
        ),
        (
            "650",
            (
                "650 g is too little for this bottle: full of water it weighs 700 g. "
                "Look at what it weighs empty and what it holds."
            ),
        ),
        ("9300", "9300 g is too much for this bottle: do you mean 930?"),
        ("93000", "93000 g is too much for this bottle: do you mean 930?"),
        ("93", "93 g is too little for this bottle: do you mean 930?"),
        ("0.93", "0.93 g is too little for this bottle: do you mean 930?"),
        (
            "1800",
            "1800 g is too much for this bottle: full of slop it weighs 700 to 1700 g.",
        ),
    ],
)
def test_what_cannot_be_is_explained_stays_typed_and_is_not_kept(signed_in, bucket, typed, say):
    reply = signed_in.post(PAGE, {"full_g": typed}, headers=HTMX)

    assert reply.status_code == 422
    assert reply.context["form"].errors["full_g"] == [say]
    assert f'value="{typed}"' in reply.content.decode()
    assert not Reading.objects.filter(bucket=bucket).exists()


def test_a_new_bucket_is_asked_for_its_bottle_beginning_with_the_usual_one(
    signed_in, member, bucket, django_assert_max_num_queries
):
    keep(Reading, member, bucket=bucket, full_g=930, empty_g=212.5, volume_ml=500)
    keep(Bucket, member, entry_id="new-bucket", glaze=bucket.glaze, name="Rill, red lid")

    with django_assert_max_num_queries(12):
        page = signed_in.get(NEW).context

    assert page["bottle"] is None
    assert page["form"]["empty_g"].value() == "212.5"
    assert page["form"]["volume_ml"].value() == "500"


def test_a_bottle_once_told_is_not_asked_for_again(signed_in, member, bucket):
    keep(Bucket, member, entry_id="new-bucket", glaze=bucket.glaze, name="Rill, red lid")
    told = {"full_g": "930", "empty_g": "210", "volume_ml": "500"}

    signed_in.post(NEW, told)
    signed_in.post(NEW, {"full_g": "931", "empty_g": "", "volume_ml": ""})

    newest = Reading.objects.filter(bucket="new-bucket").latest("kept_at")
    assert str(signed_in.get(NEW).context["bottle"]) == "210 g empty, holds 500 ml"
    assert (newest.full_g, newest.empty_g, newest.volume_ml) == (931, 210, 500)


def test_another_bottle_counts_from_its_first_weighing_on(signed_in, bucket):
    signed_in.post(PAGE, {"entry_id": "r-1", "full_g": "930"})

    signed_in.post(PAGE, {"entry_id": "r-2", "full_g": "610", "empty_g": "180", "volume_ml": "300"})

    assert Reading.objects.get(pk="r-1").empty_g == 200
    assert str(signed_in.get(PAGE).context["bottle"]) == "180 g empty, holds 300 ml"


def test_a_bottle_taken_back_gives_the_one_before_again(signed_in, bucket):
    signed_in.post(PAGE, {"full_g": "610", "empty_g": "180", "volume_ml": "300"})

    signed_in.post(signed_in.get(PAGE).context["undo"]["url"])

    assert str(signed_in.get(PAGE).context["bottle"]) == "200 g empty, holds 500 ml"


def test_an_old_reading_says_of_which_day_it_is(demo_client):
    page = demo_client.get(LIMPET).context

    assert page["when"] == "On 17 November. Weigh it today."


def test_a_reading_of_today_needs_no_day(signed_in, bucket):
    signed_in.post(PAGE, {"full_g": "930"})

    assert signed_in.get(PAGE).context["when"] == ""


def test_what_is_left_is_said_wet_and_dry(signed_in, bucket):
    signed_in.post(PAGE, {"full_g": "930", "in_bucket_l": "5"})

    left = signed_in.get(PAGE).context["left"]

    # Five litres at 1.46: 7300 x 0.46 x 2.6 / (1.6 x 1.46) = 3738 g of a powder taken at 2.6, and
    # a tide line is good to a twentieth.
    assert left["say"] == "Left: 5 l, 3700 g of it dry glaze"
    assert left["trust"] == "general"


def test_the_foot_leads_to_how_many_grams(demo_client):
    assert f'href="{LIMPET}grams/"' in demo_client.get(LIMPET).content.decode()


def test_a_bucket_filled_afresh_has_no_reading_yet(demo_client, demo_member):
    keep(
        BucketEvent,
        demo_member,
        bucket=Bucket.objects.get(pk="limpet-bucket-2"),
        kind="filled",
        batch_id="limpet-batch-3",
        amount_ml=9000,
        at=timezone.now(),
    )

    page = demo_client.get(LIMPET).context

    assert (page["title"], page["answer"], page["litres"]) == ("Limpet, batch 3", None, "9 l")
