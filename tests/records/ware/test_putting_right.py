"""Putting a weighing or a coat right: nothing else is lost, and an answer lost on the way is sent.

A phone that lost the answer sends its form again, with the same id.
"""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import bucket_of, chosen, coat_of, mine, plank, pot_of, text_of

from wareboard.records.glazes.models import Bucket, BucketEvent, Glaze
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Coat, Standing, Weighing


@pytest.fixture
def wrong(member, pot):
    at = timezone.now() - timedelta(hours=3)
    facts = {"weight_g": 1234.5678, "state": "bone dry", "remembered": "I think", "at": at}
    return keep(Weighing, member, pot=pot, **facts)


def current(model, pot):
    return model.objects.current().get(pot=pot)


def test_a_weight_put_right_is_remembered_as_the_first_one_was(signed_in, pot, wrong):
    signed_in.post(f"/ware/weighings/{wrong.pk}/", {"weight_g": "1240", "state": "bone dry"})

    right = current(Weighing, pot)
    assert (right.weight_g, right.remembered) == (1240, "I think")


def test_how_it_is_remembered_can_be_put_right_too(signed_in, pot, wrong):
    url = f"/ware/weighings/{wrong.pk}/"
    asked = signed_in.get(url).context["form"]["remembered"].value()

    signed_in.post(url, {"weight_g": "1240", "state": "bone dry", "remembered": ""})

    assert asked == "I think"
    assert current(Weighing, pot).remembered == ""


def test_what_was_written_comes_back_to_its_last_digit(signed_in, member, pot, bucket, wrong):
    coat = keep(
        Coat, member, pot=pot, bucket=bucket, side="inside", before_g=1000.125, after_g=1234.5678
    )

    weight = signed_in.get(f"/ware/weighings/{wrong.pk}/").context["form"]["weight_g"].value()
    dip = signed_in.get(f"/ware/coats/{coat.pk}/right/").context["form"]

    assert weight == "1234.5678"
    assert (dip["before_g"].value(), dip["after_g"].value()) == ("1000.125", "1234.5678")


def test_a_coat_put_right_keeps_all_that_its_page_does_not_ask(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5, dried_g=1020.0, seconds=3.0, remembered="about spring")

    signed_in.post(
        f"/ware/coats/{coat.pk}/right/",
        chosen(bucket, side="inside", before_g="1000", after_g="1050"),
    )

    right = current(Coat, pot)
    assert (right.side, right.after_g, right.at) == ("inside", 1050, coat.at)
    assert (right.dried_g, right.seconds, right.remembered) == (1020, 3, "about spring")


def test_the_page_of_a_coat_asks_how_it_is_remembered(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5, remembered="about spring")

    form = signed_in.get(f"/ware/coats/{coat.pk}/right/").context["form"]

    assert form["remembered"].value() == "about spring"


def test_a_weight_of_a_coat_can_be_cleared(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5)

    signed_in.post(f"/ware/coats/{coat.pk}/right/", chosen(bucket, before_g="", after_g=""))

    assert (current(Coat, pot).before_g, current(Coat, pot).after_g) == (None, None)


def test_a_coat_whose_bucket_nobody_knows_is_put_right_without_one(signed_in, member, pot, bucket):
    coat = keep(Coat, member, pot=pot, glaze=bucket.glaze, side="outside", remembered="I think")

    reply = signed_in.post(
        f"/ware/coats/{coat.pk}/right/", {"side": "inside", "extent": "whole", "before_g": ""}
    )

    right = current(Coat, pot)
    assert reply.status_code == 302
    assert (right.side, right.bucket, right.glaze) == ("inside", None, bucket.glaze)


def test_a_coat_weighed_by_the_wrong_one_keeps_how_it_is_remembered(
    signed_in, member, form, pot, bucket
):
    coat = coat_of(member, pot, bucket, 0.5)
    other = pot_of(member, form)
    keep(
        Coat,
        member,
        pot=other,
        bucket=bucket,
        side="outside",
        like=coat,
        at=coat.at,
        remembered="the same day",
    )

    signed_in.post(f"/ware/coats/{coat.pk}/right/", chosen(bucket, before_g="1000", after_g="1050"))

    follows = current(Coat, other)
    assert (follows.like, follows.remembered) == (current(Coat, pot), "the same day")


def test_a_weight_put_right_and_sent_again_is_answered_as_the_first_time(signed_in, pot, wrong):
    sent = {"entry_id": "right-1", "weight_g": "1240", "state": "bone dry"}

    replies = [signed_in.post(f"/ware/weighings/{wrong.pk}/", sent) for _ in range(2)]

    assert [(one.status_code, one["Location"]) for one in replies] == [
        (302, f"/ware/pots/{pot.pk}/weigh/")
    ] * 2
    assert [one.pk for one in mine(Weighing).order_by("kept_at")] == [wrong.pk, "right-1"]


def test_a_coat_put_right_and_sent_again_is_answered_as_the_first_time(
    signed_in, member, form, pot, bucket
):
    coat = coat_of(member, pot, bucket, 0.5)
    for _ in range(2):
        keep(
            Coat,
            member,
            pot=pot_of(member, form),
            bucket=bucket,
            side="outside",
            like=coat,
            at=coat.at,
        )
    sent = chosen(bucket, entry_id="right", before_g="1000", after_g="1050")

    first = signed_in.post(f"/ware/coats/{coat.pk}/right/", sent)
    kept = mine(Coat).count()
    again = signed_in.post(f"/ware/coats/{coat.pk}/right/", sent)

    assert (first.status_code, again.status_code) == (302, 302)
    assert first["Location"] == again["Location"] == "/ware/coats/right-00/"
    assert (kept, mine(Coat).count()) == (6, 6)


def test_an_old_page_puts_right_what_stands_now(signed_in, member, pot, wrong):
    url = f"/ware/weighings/{wrong.pk}/"
    signed_in.post(url, {"entry_id": "one", "weight_g": "1240", "state": "bone dry"})

    seen = signed_in.get(url).context["form"]["weight_g"].value()
    signed_in.post(url, {"entry_id": "two", "weight_g": "1250", "state": "bone dry"})

    right = current(Weighing, pot)
    assert seen == "1240"
    assert (right.weight_g, right.corrects_id) == (1250, "one")


def test_the_address_of_a_coat_put_right_shows_what_stands_now(signed_in, member, pot, bucket):
    coat = coat_of(member, pot, bucket, 0.5)
    signed_in.post(f"/ware/coats/{coat.pk}/right/", chosen(bucket, entry_id="right"))

    assert signed_in.get(f"/ware/coats/{coat.pk}/").context["coat"].pk == "right-00"


def test_what_was_taken_back_has_no_page(signed_in, wrong):
    wrong.undone_at = timezone.now()
    wrong.save()

    assert signed_in.get(f"/ware/weighings/{wrong.pk}/").status_code == 404


def test_a_correction_is_what_undo_takes_back(signed_in, member, pot, wrong):
    later = {"weight_g": 1200, "state": "glazed", "at": timezone.now() - timedelta(hours=1)}
    keep(Weighing, member, pot=pot, **later)
    signed_in.post(f"/ware/weighings/{wrong.pk}/", {"weight_g": "1240", "state": "bone dry"})

    page = signed_in.get(f"/ware/pots/{pot.pk}/weigh/")
    signed_in.post(page.context["undo"]["url"])

    assert page.context["undo"]["say"] == "Put right: 1240 g, bone dry, warm from the tray."
    assert not mine(Weighing).filter(corrects=wrong).exists()


def test_a_pot_taken_off_its_board_and_sent_again_is_answered_as_the_first_time(
    signed_in, member, pot
):
    board = plank(member, [pot])

    replies = [
        signed_in.post(f"/ware/pots/{pot.pk}/board/", {"entry_id": "off", "board": ""})
        for _ in range(2)
    ]

    assert [(one.status_code, one["Location"]) for one in replies] == [
        (302, f"/ware/pots/{pot.pk}/")
    ] * 2
    assert mine(Standing).filter(pot=pot).count() == 2
    assert "Nothing stands here." in text_of(signed_in.get(f"/ware/boards/{board.pk}/"))


@pytest.fixture
def coat_of_limpet(member, pot, bucket):
    return coat_of(member, pot, bucket, 0.5, hours_ago=50)


def taps(page):
    """Which buckets stand in sight, and which are one tap away."""
    form = page.context["form"]
    return tuple(
        [str(tap.choice_label) for tap in some] for some in (form.first_taps(), form.other_taps())
    )


def bucket_since(member, glaze, name, days_ago, *, emptied_hours_ago=None):
    """A bucket in use since some days ago, emptied where that is given."""
    now = timezone.now()
    bucket = keep(Bucket, member, glaze=glaze, name=name, at=now - timedelta(days=days_ago))
    if emptied_hours_ago is not None:
        at = now - timedelta(hours=emptied_hours_ago)
        keep(BucketEvent, member, bucket=bucket, kind="emptied", at=at)


def test_the_buckets_it_may_have_come_from_stand_in_sight_and_others_are_one_tap_away(
    signed_in, member, coat_of_limpet
):
    limpet, rill = coat_of_limpet.bucket.glaze, keep(Glaze, member, name="Rill")
    bucket_since(member, limpet, "Limpet 2", 30)
    bucket_since(member, limpet, "Limpet 3", 30, emptied_hours_ago=20)
    bucket_since(member, limpet, "Limpet 4", 30, emptied_hours_ago=100)
    bucket_since(member, limpet, "Limpet 5", 1)
    bucket_since(member, rill, "Rill 1", 30)
    bucket_since(member, rill, "Rill 2", 30, emptied_hours_ago=100)

    page = signed_in.get(f"/ware/coats/{coat_of_limpet.pk}/right/")

    likely, others = taps(page)
    assert likely == ["Limpet bucket", "Limpet 2", "Limpet 3"]
    assert sorted(others) == ["Limpet 5", "Rill 1"]
    assert "Another bucket" in text_of(page)


def test_the_other_bucket_that_was_tapped_stays_in_sight(signed_in, member, coat_of_limpet):
    other = bucket_of(member, "Rowan")
    sent = chosen(other, before_g="1000", after_g="900")

    page = signed_in.post(f"/ware/coats/{coat_of_limpet.pk}/right/", sent)

    assert page.status_code == 422
    assert "<details open><summary>Another bucket" in page.content.decode()
