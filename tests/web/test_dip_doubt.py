"""A dip that is hard to believe is asked about once, before it is kept.

On the cylinder 75.4 g of slop are a coat of 1 mm, as in ware_samples.
"""

import pytest
from ware_samples import (
    bucket_of,
    chosen,
    coat_of,
    good_pots,
    mine,
    plank,
    pot_of,
    slop_g_for,
    text_of,
    weighed,
)

from wareboard.records.ware.models import Coat


@pytest.fixture
def known(member, form, bucket):
    """Three good pots, 0.50 to 0.70 mm of Limpet."""
    good_pots(member, form, bucket, 0.5, 0.6, 0.7)


@pytest.fixture
def url(pot):
    return f"/ware/pots/{pot.pk}/dip/"


def dipped(before_g, after_g, **more):
    """The two weights, as they are typed."""
    return {"before_g": f"{before_g:g}", "after_g": f"{after_g:g}", **more}


def asked_of(reply):
    """What is asked beside the weight after the dip."""
    (say,) = reply.context["form"].errors["after_g"]
    return say


def on(pot):
    return mine(Coat).filter(pot=pot)


@pytest.mark.usefixtures("known")
def test_a_digit_that_slipped_is_found_where_the_weight_before_is_known(
    signed_in, member, pot, bucket, url
):
    weighed(member, pot, 1000, "bone dry", hours_ago=1)

    reply = signed_in.post(url, chosen(bucket, **dipped(1000, 1155)))

    assert reply.status_code == 422
    assert asked_of(reply) == (
        "1155 g after the dip makes a coat of 2.05 mm. Good Limpet coats: 0.50 to 0.70 mm. "
        "Do you mean 1055 g after the dip?"
    )
    assert "I looked again: it is so." in text_of(reply)
    assert not on(pot).exists()


def test_the_weight_before_may_have_slipped_too(signed_in, member, form, bucket, url):
    good_pots(member, form, bucket, 0.2, 0.2, 0.2)

    reply = signed_in.post(url, chosen(bucket, **dipped(941, 1004)))

    assert asked_of(reply) == (
        "1004 g after the dip makes a coat of 0.85 mm. Good Limpet coats: 0.20 mm. "
        "Do you mean 991 g before the dip?"
    )


@pytest.mark.usefixtures("known")
def test_where_either_weight_may_have_slipped_neither_is_guessed(signed_in, bucket, url):
    reply = signed_in.post(url, chosen(bucket, **dipped(1000, 1155)))

    assert "Look at both weights again." in text_of(reply)
    assert "Do you mean" not in text_of(reply)


@pytest.mark.usefixtures("known")
def test_what_is_said_to_stand_so_is_kept(signed_in, pot, bucket, url):
    reply = signed_in.post(url, chosen(bucket, **dipped(1000, 1155, sure="on")))

    assert reply.status_code == 302
    assert on(pot).get().after_g == 1155


@pytest.mark.usefixtures("known")
@pytest.mark.parametrize("mm", [0.1, 0.6, 1.2, 1.9])
def test_thin_and_thick_coats_are_kept_without_a_question(signed_in, pot, bucket, url, mm):
    signed_in.post(url, chosen(bucket, **dipped(1000, 1000 + slop_g_for(mm))))

    assert on(pot).count() == 1


def test_of_a_glaze_nobody_weighed_yet_what_one_dip_gives_is_said(signed_in, bucket, url):
    reply = signed_in.post(url, chosen(bucket, **dipped(1000, 1170)))

    assert asked_of(reply) == (
        "1170 g after the dip makes a coat of 2.25 mm, and one dip gives up to 2.00 mm. "
        "Look at both weights again."
    )


def test_of_an_undrawn_pot_the_grams_are_asked_about(signed_in, member, bucket):
    pot = pot_of(member, None, name="odd bowl")
    url = f"/ware/pots/{pot.pk}/dip/"

    asked = signed_in.post(url, chosen(bucket, **dipped(1000, 1260)))
    signed_in.post(url, chosen(bucket, **dipped(1000, 1240)))

    assert asked_of(asked) == (
        "260 g of slop on a pot of 1000 g is more than one dip puts on. Look at both weights again."
    )
    assert on(pot).get().after_g == 1240


def test_out_of_a_bucket_nobody_weighed_the_grams_are_asked_about(signed_in, member, url):
    unweighed = bucket_of(member, "Samphire", weighed=False)

    reply = signed_in.post(url, chosen(unweighed, **dipped(1000, 1260)))

    assert "260 g of slop on a pot of 1000 g" in text_of(reply)


def test_what_is_no_coat_at_all_is_asked_about(signed_in, bucket, url):
    heavy = dipped(10000, 10000 + slop_g_for(25))

    reply = signed_in.post(url, chosen(bucket, **heavy))

    assert "25 mm, which is no coat: a weight or the outline is wrong." in text_of(reply)


def test_of_a_small_tile_no_question_is_asked(signed_in, member, bucket):
    tile = pot_of(member, None, name="tile", test_piece=True)

    signed_in.post(f"/ware/pots/{tile.pk}/dip/", chosen(bucket, **dipped(40, 65)))

    assert on(tile).count() == 1


@pytest.mark.usefixtures("known")
def test_the_pot_weighed_for_its_board_is_asked_about(signed_in, member, pot, form, bucket):
    board = plank(member, [pot, pot_of(member, form)])
    sent = chosen(bucket, weighed=pot.pk, **dipped(1000, 1155))

    asked = signed_in.post(f"/ware/boards/{board.pk}/dip/", sent)
    kept = signed_in.post(f"/ware/boards/{board.pk}/dip/", {**sent, "sure": "on"})

    assert (asked.status_code, kept.status_code) == (422, 302)
    assert "1155 g after the dip makes a coat of 2.05 mm." in text_of(asked)
    assert "I looked again: it is so." in text_of(asked)


@pytest.mark.usefixtures("known")
def test_a_coat_put_right_is_asked_about(signed_in, member, pot, bucket):
    wrong = coat_of(member, pot, bucket, 0.6)
    url = f"/ware/coats/{wrong.pk}/right/"

    asked = signed_in.post(url, chosen(bucket, **dipped(1000, 1155)))
    kept = signed_in.post(url, chosen(bucket, **dipped(1000, 1155, sure="on")))

    assert (asked.status_code, kept.status_code) == (422, 302)
    assert "1155 g after the dip makes a coat of 2.05 mm." in text_of(asked)
    assert Coat.objects.current().get(pot=pot).after_g == 1155


@pytest.mark.usefixtures("known")
def test_asking_needs_twelve_queries_at_most(
    signed_in, pot, bucket, url, django_assert_max_num_queries
):
    with django_assert_max_num_queries(12):
        signed_in.post(url, chosen(bucket, **dipped(1000, 1155)))
