"""One dip for all that stands on a board, one pot weighed for the rest."""

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
)

from wareboard.records.ware.models import Coat

HX = {"HX-Request": "true"}


@pytest.fixture
def pots(member, form):
    return [pot_of(member, form) for _ in range(7)]


@pytest.fixture
def bucket(member):
    return bucket_of(member, "Rill")


@pytest.fixture
def url(member, pots):
    return f"/ware/boards/{plank(member, pots).pk}/dip/"


def test_first_it_asks_which_glaze_for_all(signed_in, bucket, url):
    text = text_of(signed_in.get(url))

    assert "All 7: which glaze goes on?" in text
    assert "It is on all 7" not in text


def test_choosing_brings_back_only_the_fragment(signed_in, bucket, url):
    reply = signed_in.get(url, chosen(bucket), headers=HX)

    assert "<html" not in reply.content.decode()
    assert "It is on all 7" in text_of(reply)


def test_one_tap_lines_all_seven(signed_in, pots, bucket, url):
    reply = signed_in.post(url, chosen(bucket, side="inside", entry_id="all"))

    coats = mine(Coat)
    assert {coat.pot for coat in coats} == set(pots)
    assert {(c.bucket, c.side, c.like, c.after_g) for c in coats} == {
        (bucket, "inside", None, None)
    }
    assert reply["Location"] == "/ware/coats/all-00/"


def test_one_pot_is_weighed_for_the_rest(signed_in, pots, bucket, url):
    after_g = 1000 + slop_g_for(0.6)

    reply = signed_in.post(
        url, chosen(bucket, weighed=pots[2].pk, before_g="1000", after_g=f"{after_g:.2f}")
    )

    weighed = Coat.objects.get(pot=pots[2])
    assert reply["Location"] == f"/ware/coats/{weighed.pk}/"
    assert {coat.like for coat in mine(Coat).exclude(pk=weighed.pk)} == {weighed}
    page = signed_in.get(reply["Location"])
    assert (page.context["likes"], page.context["others"]) == (6, 0)


def test_all_are_taken_back_together(signed_in, pots, bucket, url):
    for _ in range(2):
        reply = signed_in.post(url, chosen(bucket, entry_id="all"))
    kept = mine(Coat).count()
    undo = signed_in.get(reply["Location"]).context["undo"]
    signed_in.post(undo["url"])

    assert (kept, mine(Coat).count()) == (7, 0)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"before_g": "1000", "after_g": "1060"}, "Which one did you weigh? Tap it."),
        ({"weighed": "first", "before_g": "1000", "after_g": "900"}, "no more than the 1000 g"),
        ({"weighed": "nobody"}, "nobody"),
    ],
)
def test_an_impossible_dip_is_explained_and_not_stored(signed_in, pots, bucket, url, typed, says):
    typed = {k: pots[0].pk if v == "first" else v for k, v in typed.items()}

    reply = signed_in.post(url, chosen(bucket, **typed))

    assert reply.status_code == 422
    assert says in text_of(reply)
    assert not mine(Coat).exists()


def test_a_dip_out_of_no_bucket_is_asked_again(signed_in, bucket, url):
    reply = signed_in.post(url, {"side": "outside", "extent": "whole"})

    assert reply.status_code == 422
    assert not mine(Coat).exists()


def test_the_pot_that_is_worst_off_warns_for_the_board(signed_in, member, form, pots, url):
    runny = bucket_of(member, "Hedgelay", runs_above_mm=0.7)
    good_pots(member, form, runny, 0.5)
    coat_of(member, pots[1], runny, 0.3, hours_ago=30)
    coat_of(member, pots[4], runny, 0.6, hours_ago=30)

    page = signed_in.get(url, chosen(runny))

    told = page.context["told"]
    assert (told.pot, told.risky) == (pots[4], 2)
    assert told.worst.say == "Second layer at the lip: about 1.10 mm"
    assert "cylinder 5" in text_of(page)


def test_what_good_coats_were_like_is_said_of_no_single_pot(signed_in, member, form, bucket, url):
    good_pots(member, form, bucket, 0.5, 0.6, 0.7)

    text = text_of(signed_in.get(url, chosen(bucket)))

    assert "Good Rill coats: 0.50 to 0.70 mm usual (3) Counted: 3 weighed coats" in text
    assert "cylinder 1" not in text.split("One pot weighed")[0]


def test_water_in_both_faces_is_said_for_the_board(signed_in, member, form, pots, bucket, url):
    good_pots(member, form, bucket, 0.5)
    coat_of(member, pots[3], bucket, 3.0, hours_ago=1, side="inside")

    assert signed_in.get(url, chosen(bucket)).context["told"].water.startswith("Both faces wet")


@pytest.mark.parametrize("coats", [1, 8])
def test_twelve_queries_however_many_coats(
    signed_in, member, form, pots, bucket, url, django_assert_max_num_queries, coats
):
    good_pots(member, form, bucket, 0.5, 0.6)
    for n in range(coats):
        for pot in pots:
            coat_of(member, pot, bucket, 0.2, hours_ago=n + 1)

    with django_assert_max_num_queries(12):
        signed_in.get(url, chosen(bucket))


def test_an_empty_board_has_nothing_to_dip(signed_in, member):
    board = plank(member, name="empty")

    reply = signed_in.get(f"/ware/boards/{board.pk}/dip/")

    assert reply["Location"] == f"/ware/boards/{board.pk}/"


def test_others_and_unknown_boards_get_404(stranger, url):
    assert [stranger.get(url).status_code, stranger.post(url).status_code] == [404, 404]
    assert stranger.get("/ware/boards/no-such-board/dip/").status_code == 404


def test_the_wrong_method_is_refused(signed_in, url):
    assert signed_in.delete(url).status_code == 405


def test_where_nothing_can_be_told_of_a_glaze_the_sentence_names_no_pot(signed_in, bucket, url):
    text = text_of(signed_in.get(url, chosen(bucket)))

    assert "no good pot with Rill was weighed yet. " in text
    assert "yet., " not in text


def test_what_lies_on_the_worst_pot_already_is_said_with_its_name(
    signed_in, member, pots, bucket, url
):
    coat_of(member, pots[0], bucket_of(member, "Limpet"), 0.5)

    text = text_of(signed_in.get(url, chosen(bucket)))

    assert "Cylinder 1. There now: Limpet outside 0.50 mm." in text
