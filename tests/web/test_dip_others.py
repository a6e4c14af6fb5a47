"""One coat weighed for the others on its board; a coat put right."""

import pytest
from ware_samples import (
    bucket_of,
    chosen,
    coat_of,
    cylinder,
    mine,
    plank,
    pot_of,
    slop_g_for,
    text_of,
)

from wareboard.records.glazes.models import BucketEvent
from wareboard.records.people.entry import keep
from wareboard.records.ware import queries
from wareboard.records.ware.models import Coat, Pot


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/dip/"


def board_of_seven(member, form):
    pots = [pot_of(member, form) for _ in range(7)]
    return plank(member, pots), pots


def test_the_others_on_the_board_get_the_same_coat(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1, seconds=3)

    for _ in range(2):
        signed_in.post(f"/ware/coats/{coat.pk}/others/", {"entry_id": "alike"})

    likes = mine(Coat).filter(like=coat)
    assert {like.pot for like in likes} == set(pots[1:])
    assert {(c.bucket, c.side, c.extent, c.seconds, c.after_g) for c in likes} == {
        (bucket, "outside", "whole", 3, None)
    }
    answer = signed_in.get(f"/ware/coats/{likes[0].pk}/").context["answer"]
    assert (answer.trust, answer.trust_n, answer.millimetres) == ("usual", "1 of 7", "0.60 mm")


def test_the_offer_is_gone_once_taken_and_undo_takes_it_back(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)
    url = f"/ware/coats/{coat.pk}/"
    before = signed_in.get(url).context["others"]
    signed_in.post(f"{url}others/", {"entry_id": "alike"})
    page = signed_in.get(url)
    signed_in.post(page.context["undo"]["url"])

    assert (before, page.context["others"], page.context["likes"]) == (6, 0, 6)
    assert list(mine(Coat)) == [coat]


def test_a_second_layer_is_offered_to_those_that_have_the_first(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    for pot in pots:
        coat_of(member, pot, bucket, 0.6, hours_ago=3)
    ahead = coat_of(member, pots[1], bucket, 0.3, hours_ago=0.2)
    second = coat_of(member, pots[0], bucket, 0.3, hours_ago=0.1)

    page = signed_in.get(f"/ware/coats/{second.pk}/").context

    assert page["others"] == 5
    assert ahead.pot not in queries.beside_without(member, second)


def test_the_others_get_what_they_lack_of_the_coats_before_too(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    inside = coat_of(member, pots[0], bucket, 0.5, hours_ago=0.3, side="inside")
    coat_of(member, pots[1], bucket, 0.5, hours_ago=0.2, side="inside")
    outside = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)

    page = signed_in.get(f"/ware/coats/{outside.pk}/")
    for _ in range(2):
        signed_in.post(f"/ware/coats/{outside.pk}/others/", {"entry_id": "alike"})

    assert "They get what they lack of its coats before this one too." in text_of(page)
    assert {c.pot for c in mine(Coat).filter(like=inside)} == set(pots[2:])
    assert {c.pot for c in mine(Coat).filter(like=outside)} == set(pots[1:])


def test_a_pot_of_another_form_is_left_alone(signed_in, member, form, bucket):
    odd = pot_of(member, cylinder(member, "tall one"))
    pots = [pot_of(member, form), pot_of(member, form), odd]
    plank(member, pots)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)
    offered = signed_in.get(f"/ware/coats/{coat.pk}/").context["others"]

    signed_in.post(f"/ware/coats/{coat.pk}/others/")

    got = {one.pot: one.like for one in mine(Coat).exclude(pk=coat.pk)}
    assert offered == 1
    assert got == {pots[1]: coat}


@pytest.mark.parametrize("side", ["outside", "both"])
def test_a_pot_that_has_such_a_coat_gets_no_second_one(signed_in, member, form, bucket, side):
    pots = [pot_of(member, form) for _ in range(3)]
    plank(member, pots)
    keep(Coat, member, pot=pots[1], bucket=bucket_of(member, "Rowan"), side=side)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)

    signed_in.post(f"/ware/coats/{coat.pk}/others/")

    assert {one.pot for one in mine(Coat).filter(like=coat)} == {pots[2]}


def test_pots_without_a_form_are_alike_where_one_tap_made_them(signed_in, member, bucket):
    signed_in.post("/ware/new/several/", {"entry_id": "seven", "how_many": "3"})
    pots = list(mine(Pot).order_by("pk"))
    stranger_pot = pot_of(member, None)
    plank(member, [*pots, stranger_pot])
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)

    signed_in.post(f"/ware/coats/{coat.pk}/others/")

    assert {one.pot for one in mine(Coat).filter(like=coat)} == set(pots[1:])


def test_only_a_post_dips_the_others(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5)

    assert signed_in.get(f"/ware/coats/{coat.pk}/others/").status_code == 405


def test_an_id_that_is_taken_is_said_and_nothing_is_dipped(
    signed_in, demo_member, member, form, bucket
):
    foreign = pot_of(demo_member, None)
    keep(
        Coat,
        demo_member,
        entry_id="taken-01",
        pot=foreign,
        bucket=bucket_of(demo_member, "Foreign"),
        side="inside",
    )
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)

    reply = signed_in.post(f"/ware/coats/{coat.pk}/others/", {"entry_id": "taken"}, follow=True)

    assert "an id that is taken. Reload the page." in text_of(reply)
    assert list(mine(Coat)) == [coat]


def test_a_coat_is_put_right_with_those_weighed_by_it(signed_in, member, form, bucket):
    _board, pots = board_of_seven(member, form)
    coat = coat_of(member, pots[0], bucket, 0.6, hours_ago=0.1)
    signed_in.post(f"/ware/coats/{coat.pk}/others/")
    after_g = 1000 + slop_g_for(0.4)

    reply = signed_in.post(
        f"/ware/coats/{coat.pk}/right/",
        chosen(bucket, entry_id="right", before_g="1000", after_g=f"{after_g:.2f}"),
    )

    right = Coat.objects.current().get(pot=pots[0])
    others = Coat.objects.current().filter(pot__in=pots[1:])
    assert reply["Location"] == f"/ware/coats/{right.pk}/"
    assert (right.corrects, right.at) == (coat, coat.at)
    assert {one.like for one in others} == {right}
    assert signed_in.get(reply["Location"]).context["answer"].say == "About 0.40 mm."


def test_a_remembered_glaze_is_put_right_by_a_bucket(signed_in, member, pot, bucket):
    coat = keep(Coat, member, pot=pot, glaze=bucket.glaze, side="outside", remembered="I think")

    signed_in.post(f"/ware/coats/{coat.pk}/right/", chosen(bucket))

    right = Coat.objects.current().get(pot=pot)
    assert (right.bucket, right.glaze, right.corrects) == (bucket, None, coat)


def test_the_page_of_putting_right_holds_what_was_kept(signed_in, member, pot, bucket):
    keep(BucketEvent, member, bucket=bucket, kind="emptied")
    coat = coat_of(member, pot, bucket, 0.5, before_g=1000.0)

    form = signed_in.get(f"/ware/coats/{coat.pk}/right/").context["form"]

    assert (form["before_g"].value(), form["bucket"].value()) == ("1000", bucket.pk)


def test_an_impossible_correction_is_explained_and_not_stored(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5)

    reply = signed_in.post(
        f"/ware/coats/{coat.pk}/right/", chosen(bucket, before_g="1000", after_g="900")
    )

    assert reply.status_code == 422
    assert list(mine(Coat)) == [coat]
