"""Boards: what stands on them, the whole board on the scale, all of it marked at once."""

from datetime import timedelta

import pytest
from django.utils import timezone
from ware_samples import board_weighed, bucket_of, coat_of, mine, plank, pot_of, text_of

from wareboard.records.people.entry import keep
from wareboard.records.ware.models import (
    Board,
    BoardWeighing,
    Decoration,
    Mark,
    Standing,
    Weighing,
)

HX = {"HX-Request": "true"}
PAGES = ["", "weigh/", "pots/", "decorate/", "mark/", "dip/"]


def dry(member, pots, weight_g=1000):
    for pot in pots:
        when = timezone.now() - timedelta(days=2)
        keep(Weighing, member, pot=pot, weight_g=weight_g, state="bone dry", at=when)


@pytest.mark.parametrize("page", PAGES)
def test_each_page_opens_within_twelve_queries(
    signed_in, member, board, pots, at, page, django_assert_max_num_queries
):
    bucket = bucket_of(member)
    dry(member, pots)
    for pot in pots:
        coat_of(member, pot, bucket, 0.5, hours_ago=30)
    board_weighed(member, board, 5000, 5)
    board_weighed(member, board, 4990, 1)

    with django_assert_max_num_queries(12):
        assert signed_in.get(at(page)).status_code == 200


@pytest.mark.parametrize("page", PAGES)
def test_each_page_is_404_for_others_and_for_unknown_boards(stranger, at, page):
    assert stranger.get(at(page)).status_code == 404
    assert stranger.get(f"/ware/boards/no-such-board/{page}").status_code == 404


def test_a_new_board_is_named_and_has_its_tare(signed_in):
    reply = signed_in.post(
        "/ware/boards/new/", {"entry_id": "b-1", "name": "by the window", "tare_g": "1 840 g"}
    )

    made = mine(Board).get()
    assert (made.name, made.tare_g) == ("by the window", 1840)
    assert reply["Location"] == "/ware/boards/b-1/pots/"


def test_a_board_without_a_name_is_explained_and_not_stored(signed_in):
    reply = signed_in.post("/ware/boards/new/", {"name": " ", "tare_g": "x"})

    assert reply.status_code == 422
    assert set(reply.context["form"].errors) == {"name", "tare_g"}
    assert not mine(Board).exists()


def test_pots_of_one_form_are_told_apart_by_their_place(signed_in, at):
    names = [one["name"] for one in signed_in.get(at()).context["plank"]]

    assert names == ["cylinder 1", "cylinder 2", "cylinder 3"]


def test_a_board_weight_is_kept_and_only_the_fragment_comes_back(signed_in, at):
    reply = signed_in.post(at("weigh/"), {"weight_g": "4900"}, headers=HX)

    assert "<html" not in reply.content.decode()
    assert mine(BoardWeighing).get().weight_g == 4900


def test_a_board_is_weighed_without_javascript_once_and_taken_back(signed_in, at):
    replies = [
        signed_in.post(at("weigh/"), {"entry_id": "bw", "weight_g": "4900"}) for _ in range(2)
    ]
    kept = mine(BoardWeighing).count()
    signed_in.post(signed_in.get(at("weigh/")).context["undo"]["url"])

    assert replies[0]["Location"] == at("weigh/")
    assert (kept, mine(BoardWeighing).count()) == (1, 0)


@pytest.mark.parametrize("typed", ["", "0", "much", "1e9"])
def test_an_impossible_board_weight_is_explained_and_not_stored(signed_in, at, typed):
    reply = signed_in.post(at("weigh/"), {"weight_g": typed})

    assert reply.status_code == 422
    assert not mine(BoardWeighing).exists()


def test_water_over_dry_is_told_where_all_dry_weights_are_known(signed_in, member, board, pots, at):
    dry(member, pots)
    board_weighed(member, board, 1800 + 3 * 1000 + 120, 1)

    answer = signed_in.get(at("weigh/")).context["answer"]

    assert answer.say == "120 g of water over dry."
    assert answer.working == "4920 g − 1800 g plank − 3000 g dry clay = 120 g."
    assert answer.trust == "worked-out"


def test_coats_are_taken_off_a_board(signed_in, member, board, pots, at):
    dry(member, pots)
    coat = coat_of(member, pots[0], bucket_of(member), 0.5, hours_ago=20)
    board_weighed(member, board, 1800 + 3000 + (coat.after_g - coat.before_g) + 100, 1)

    answer = signed_in.get(at("weigh/")).context["answer"]

    # Of the slop, 0.5 mm x pi dm2 x 10 x 0.5 x 2.6 = 20.4 g is dry glaze; the rest is water.
    over_g = (coat.after_g - coat.before_g) + 100 - 20.4
    assert answer.say == f"{over_g:.0f} g of water over dry."
    assert "20 g coats" in answer.working


def test_one_unknown_dry_weight_and_the_board_cannot_be_told(signed_in, member, board, pots, at):
    dry(member, pots[:2])
    board_weighed(member, board, 4920, 1)

    answer = signed_in.get(at("weigh/")).context["answer"]

    assert answer.say == "3120 g. How wet it is cannot be told."
    assert answer.working == "Never weighed dry: cylinder 3."


@pytest.mark.parametrize(
    ("n", "says"),
    [
        (2, "cylinder 1 and cylinder 2."),
        (3, "cylinder 1, cylinder 2 and cylinder 3."),
        (5, "cylinder 1, cylinder 2, cylinder 3 and 2 more."),
    ],
)
def test_pots_without_a_dry_weight_are_named_three_at_most(signed_in, member, form, n, says):
    board = plank(member, [pot_of(member, form) for _ in range(n)], tare_g=1800)
    board_weighed(member, board, 4920, 1)

    answer = signed_in.get(f"/ware/boards/{board.pk}/weigh/").context["answer"]

    assert answer.working.removeprefix("Never weighed dry: ") == says


def test_an_empty_board_weighed_is_only_a_weight(signed_in, member):
    board = plank(member, name="empty", tare_g=1800)
    board_weighed(member, board, 1800, 1)

    answer = signed_in.get(f"/ware/boards/{board.pk}/weigh/").context["answer"]

    assert answer.say == "1800 g, with nothing on it."


def test_one_weighing_asks_for_a_second(signed_in, member, board, at):
    board_weighed(member, board, 4900, 1)

    falling = signed_in.get(at("weigh/")).context["answer"].falling

    assert falling.startswith("Weigh it again in an hour or two")


def test_a_falling_board_is_never_a_go(signed_in, member, board, at):
    board_weighed(member, board, 5000, 5)
    board_weighed(member, board, 4960, 1)

    falling = signed_in.get(at("weigh/")).context["answer"].falling

    assert falling.startswith("Still falling: 40 g less ")
    assert falling.endswith("A falling board is never a go.")


def test_a_steady_board_still_needs_its_pots_by_name(signed_in, member, board, at):
    board_weighed(member, board, 4960, 5)
    board_weighed(member, board, 4960, 1)

    falling = signed_in.get(at("weigh/")).context["answer"].falling

    assert falling.endswith("Weigh them by name before you light.")


def test_pots_that_moved_between_two_weighings_are_said(signed_in, member, board, pots, at):
    board_weighed(member, board, 5900, 5)
    when = timezone.now() - timedelta(hours=3)
    keep(Standing, member, pot=pots[2], board=None, at=when)
    board_weighed(member, board, 4900, 1)

    falling = signed_in.get(at("weigh/")).context["answer"].falling

    assert falling.startswith("Other pots stood on it")


def test_a_dip_between_two_weighings_is_said(signed_in, member, board, pots, at):
    board_weighed(member, board, 4900, 5)
    coat_of(member, pots[0], bucket_of(member), 0.5, hours_ago=3)
    board_weighed(member, board, 4950, 1)

    falling = signed_in.get(at("weigh/")).context["answer"].falling

    assert falling.endswith("and dipped since: whether it falls cannot be told.")


def test_a_weight_from_before_the_last_move_or_dip_is_out_of_date(
    signed_in, member, board, pots, at
):
    board_weighed(member, board, 4900, 5)
    keep(Standing, member, pot=pots[2], board=None)

    answer = signed_in.get(at("weigh/")).context["answer"]

    assert answer.say == "Weigh it again."
    assert answer.working.endswith(", with 3 pots on it, 2 now.")


def test_a_weight_of_a_full_board_is_not_that_of_the_bare_one(signed_in, member, board, pots, at):
    board_weighed(member, board, 4900, 5)
    for pot in pots:
        keep(Standing, member, pot=pot, board=None)

    answer = signed_in.get(at("weigh/")).context["answer"]

    assert answer.working.endswith(", with 3 pots on it, 0 now.")


def test_a_weight_from_before_a_dip_says_so(signed_in, member, board, pots, at):
    board_weighed(member, board, 4900, 5)
    coat_of(member, pots[0], bucket_of(member), 0.5, hours_ago=3)

    answer = signed_in.get(at("weigh/")).context["answer"]

    assert answer.working.endswith(", and was dipped since.")


def test_the_page_of_a_board_says_its_weight_with_the_pots_it_had(
    signed_in, member, form, board, pots, at
):
    board_weighed(member, board, 4900, 1)
    as_weighed = signed_in.get(at()).context["weight"]
    keep(Standing, member, pot=pot_of(member, form), board=board)
    more = signed_in.get(at()).context["weight"]
    keep(Standing, member, pot=pots[0])
    others = signed_in.get(at()).context["weight"]

    assert as_weighed.startswith("4900 g, plank and all, at ")
    assert not as_weighed.endswith("again.")
    assert more.endswith(", with 3 pots on it, 4 now: weigh it again.")
    assert others.endswith(", with other pots on it than now: weigh it again.")


@pytest.mark.parametrize(
    ("page", "model", "kind"), [("decorate/", Decoration, "resist"), ("mark/", Mark, "rubbed")]
)
def test_what_is_done_to_all_is_kept_on_each_and_taken_back_together(
    signed_in, pots, at, page, model, kind
):
    for _ in range(2):
        reply = signed_in.post(at(page), {"entry_id": "all", "kind": kind})
    kept = {one.pot for one in mine(model)}
    undo = signed_in.get(at()).context["undo"]
    signed_in.post(undo["url"])

    assert reply["Location"] == at()
    assert kept == set(pots)
    assert not mine(model).exists()


@pytest.mark.parametrize("page", ["decorate/", "mark/"])
def test_nothing_can_be_done_to_an_empty_board(signed_in, member, page):
    board = plank(member, name="empty")

    reply = signed_in.post(f"/ware/boards/{board.pk}/{page}", {"kind": "rubbed"})

    assert "Nothing stands on this board." in text_of(reply)
    assert not mine(Mark).exists()
