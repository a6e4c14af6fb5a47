"""The dip in the hand: which bucket, which side, and the two weights."""

import pytest
from ware_samples import (
    bucket_of,
    chosen,
    coat_of,
    good_pots,
    mine,
    plank,
    pot_of,
    text_of,
)

from wareboard.records.glazes.models import BucketEvent
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Coat, Weighing

HX = {"HX-Request": "true"}


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/dip/"


def test_first_it_asks_which_bucket_and_which_side(signed_in, bucket, url):
    text = text_of(signed_in.get(url))

    assert "Which bucket?" in text
    assert "Limpet bucket" in text
    assert "Pot before the dip" not in text


def test_the_side_that_is_next_is_tapped_already(signed_in, url):
    assert signed_in.get(url, {"side": "outside"}).context["which"]["side"].value() == "outside"
    assert signed_in.get(url, {"side": "sideways"}).context["which"]["side"].value() == "inside"


def test_a_single_bucket_is_tapped_already(signed_in, bucket, url):
    assert signed_in.get(url).context["which"]["bucket"].value() == bucket.pk


def test_the_bucket_last_dipped_in_stands_first_and_an_empty_one_nowhere(
    signed_in, member, pot, bucket, url
):
    other, empty = bucket_of(member, "Rowan"), bucket_of(member, "Samphire")
    coat_of(member, pot, bucket, 0.5, hours_ago=9)
    coat_of(member, pot, other, 0.5, hours_ago=5)
    keep(BucketEvent, member, bucket=empty, kind="emptied")

    assert list(signed_in.get(url).context["which"].buckets) == [other.pk, bucket.pk]


def test_without_any_bucket_it_says_what_to_do(signed_in, url):
    assert "No bucket is filled yet." in text_of(signed_in.get(url))


def test_choosing_brings_back_only_the_fragment(signed_in, bucket, url):
    reply = signed_in.get(url, chosen(bucket), headers=HX)

    assert "<html" not in reply.content.decode()
    assert "Pot before the dip" in text_of(reply)


def test_an_unknown_bucket_is_asked_again(signed_in, bucket, url):
    reply = signed_in.get(url, {"bucket": "no-such", "side": "outside", "extent": "whole"})

    assert reply.status_code == 422
    assert "Which bucket? Tap one." in text_of(reply)


def test_a_bucket_of_another_studio_is_not_offered(signed_in, demo_member, url):
    foreign = bucket_of(demo_member, "Foreign")

    assert signed_in.get(url, chosen(foreign)).status_code == 422


def test_a_dip_is_kept_without_javascript_and_answered_on_its_own_page(signed_in, pot, bucket, url):
    sent = chosen(bucket, entry_id="dip-1", before_g="1000", after_g="1060", seconds="3")

    reply = signed_in.post(url, sent)

    coat = mine(Coat).get()
    assert reply["Location"] == f"/ware/coats/{coat.pk}/"
    assert (coat.pot, coat.bucket, coat.side, coat.extent, coat.how) == (
        pot,
        bucket,
        "outside",
        "whole",
        "dipped",
    )
    assert (coat.before_g, coat.after_g, coat.seconds, coat.beneath) == (1000, 1060, 3, "")


def test_a_dip_needs_no_scale(signed_in, bucket, url):
    reply = signed_in.post(url, chosen(bucket, how="sprayed"))

    page = signed_in.get(reply["Location"])
    assert page.context["answer"].say == "Kept. How thick it is cannot be told."
    assert "It was not weighed before and after." in text_of(page)
    assert "with a mask fit for fine dust" in text_of(page)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"before_g": "1000", "after_g": "990"}, "After the dip it weighs 990 g, no more than"),
        ({"before_g": "1000", "after_g": "1000"}, "no more than the 1000 g before"),
        ({"before_g": "1000", "after_g": "10600"}, "is there a digit too many?"),
        ({"after_g": "1060"}, "What did it weigh before the dip?"),
        ({"before_g": "heavy", "after_g": "1060"}, "heavy"),
        ({"seconds": "4000"}, "seconds from 0 to 600"),
        ({"lip_cm": "0"}, "centimetres from 0.1 to 100"),
        ({"how": "thrown"}, "thrown"),
    ],
)
def test_an_impossible_dip_is_explained_and_not_stored(signed_in, bucket, url, typed, says):
    reply = signed_in.post(url, chosen(bucket, **typed))

    assert reply.status_code == 422
    assert says in text_of(reply)
    assert not mine(Coat).exists()


def test_a_dip_out_of_no_bucket_is_asked_again(signed_in, bucket, url):
    reply = signed_in.post(url, {"side": "outside", "extent": "whole", "before_g": "9"})

    assert reply.status_code == 422
    assert "Which bucket? Tap one." in text_of(reply)
    assert not mine(Coat).exists()


def test_others_and_unknown_pots_get_404(stranger, url):
    assert [stranger.get(url).status_code, stranger.post(url).status_code] == [404, 404]
    assert stranger.get("/ware/pots/no-such-pot/dip/").status_code == 404


def test_the_wrong_method_is_refused(signed_in, url):
    assert signed_in.delete(url).status_code == 405


def test_the_same_dip_sent_twice_is_kept_once_and_taken_back(signed_in, pot, bucket, url):
    sent = chosen(bucket, entry_id="dip-2", before_g="1000", after_g="1060")
    replies = [signed_in.post(url, sent) for _ in range(2)]
    kept = mine(Coat).count()
    undo = signed_in.get(replies[0]["Location"]).context["undo"]
    back = signed_in.post(undo["url"], {"next": undo["next"]})

    assert (kept, mine(Coat).count()) == (1, 0)
    assert back["Location"] == f"/ware/pots/{pot.pk}/"


@pytest.mark.parametrize("coats", [1, 12])
def test_each_page_of_a_dip_needs_twelve_queries_at_most(
    signed_in, member, form, pot, bucket, url, django_assert_max_num_queries, coats
):
    good_pots(member, form, bucket, *[0.5] * coats)
    plank(member, [pot, pot_of(member, form)])
    for n in range(coats):
        coat = coat_of(member, pot, bucket, 0.4, hours_ago=n + 1)
        keep(Weighing, member, pot=pot, weight_g=1000, state="glazed")

    with django_assert_max_num_queries(12):
        signed_in.get(url)
    with django_assert_max_num_queries(12):
        signed_in.get(url, chosen(bucket))
    with django_assert_max_num_queries(12):
        signed_in.get(f"/ware/coats/{coat.pk}/")
