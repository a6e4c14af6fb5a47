"""Pots on a board or off it, and what the empty plank weighs."""

import pytest
from ware_samples import board_weighed, bucket_of, coat_of, mine, plank, pot_of, text_of

from wareboard.records.kiln.models import Kiln, Load, Placing
from wareboard.records.people.entry import keep
from wareboard.records.people.shown import day
from wareboard.records.ware.models import Standing, Weighing


def test_the_ticks_say_what_stands_there(signed_in, member, board, pots, at):
    free = pot_of(member, pots[0].form)

    signed_in.post(at("pots/"), {"pots": [pots[0].pk, free.pk]})

    page = signed_in.get(at())
    assert [one["pot"] for one in page.context["plank"]] == [pots[0], free]


def test_ticking_sent_twice_moves_once_and_is_taken_back(signed_in, pots, at):
    for _ in range(2):
        signed_in.post(at("pots/"), {"entry_id": "move", "pots": [pots[0].pk]})
    moves = mine(Standing).filter(together="move").count()
    undo = signed_in.get(at()).context["undo"]
    signed_in.post(undo["url"])

    assert moves == 2
    assert [one["pot"] for one in signed_in.get(at()).context["plank"]] == pots


def test_a_pot_of_another_studio_cannot_be_ticked(signed_in, demo_member, at):
    foreign = pot_of(demo_member, None)

    reply = signed_in.post(at("pots/"), {"pots": [foreign.pk]})

    assert reply.status_code == 422
    assert not Standing.objects.filter(pot=foreign).exists()


@pytest.mark.parametrize("state", ["in the kiln", "weighed as fired", "on another board"])
def test_only_pots_that_may_stand_there_are_offered(signed_in, member, form, at, state):
    pot, raw = pot_of(member, form, name="told"), pot_of(member, form, name="raw")
    if state == "in the kiln":
        load = keep(Load, member, kiln=keep(Kiln, member, name="gas"))
        keep(Placing, member, load=load, pot=pot)
    elif state == "weighed as fired":
        keep(Weighing, member, pot=pot, weight_g=900, state="fired")
    else:
        plank(member, [pot], name="other")

    page = signed_in.get(at("pots/"))
    refused = signed_in.post(at("pots/"), {"pots": [pot.pk, raw.pk]})

    assert "raw," in text_of(page)
    assert "told," not in text_of(page)
    assert refused.status_code == 422
    assert "A pot you ticked stands on another board by now, or in the kiln." in text_of(refused)


def test_pots_to_tick_are_named_as_on_their_board_also_after_a_refusal(
    signed_in, member, form, pots, at
):
    free = pot_of(member, form, name="free one")
    coat_of(member, free, bucket_of(member), 0.5)

    def named(page):
        return [tap.choice_label for tap in page.context["form"]["pots"]]

    asked = named(signed_in.get(at("pots/")))
    refused = named(signed_in.post(at("pots/"), {"pots": ["no-such-pot"]}))

    made = day(pots[0].at, "j M")
    assert asked == [f"cylinder {n}, {made}" for n in (1, 2, 3)] + [f"free one, {made} · Limpet"]
    assert refused == asked


def test_a_board_without_tare_asks_for_it_once(signed_in, member, pots):
    board = plank(member, pots, name="bare plank")
    board_weighed(member, board, 4900, 1)
    url = f"/ware/boards/{board.pk}/"

    before = signed_in.get(f"{url}weigh/")
    signed_in.post(f"{url}tare/", {"tare_g": "1800"})
    signed_in.post(f"{url}tare/", {"tare_g": "9"})
    board.refresh_from_db()

    assert before.context["answer"].say == "4900 g, plank and all."
    assert before.context["tare_form"] is not None
    assert board.tare_g == 1800
    assert signed_in.get(f"{url}weigh/").context["tare_form"] is None


def test_an_impossible_tare_is_explained_and_not_stored(signed_in, member):
    board = plank(member, name="bare plank")

    reply = signed_in.post(f"/ware/boards/{board.pk}/tare/", {"tare_g": "light"})

    board.refresh_from_db()
    assert (reply.status_code, board.tare_g) == (422, None)
    assert signed_in.delete(f"/ware/boards/{board.pk}/tare/").status_code == 405


def test_a_tare_is_put_right_on_the_boards_page(signed_in, board, at):
    page = signed_in.get(at()).content.decode()
    asked = signed_in.get(at("tare/")).context["tare_form"]

    sent = {"tare_g": "1480", "was": asked["was"].value()}
    replies = [signed_in.post(at("tare/"), sent) for _ in range(2)]

    board.refresh_from_db()
    assert f'href="{at("tare/")}"' in page
    assert asked["tare_g"].value() == "1800"
    assert [reply["Location"] for reply in replies] == [at(), at()]
    assert board.tare_g == 1480
    assert "The empty plank weighs 1480 g." in text_of(signed_in.get(at()))


def test_an_old_page_does_not_write_over_a_tare_it_never_showed(signed_in, board, at):
    stale = signed_in.post(at("tare/"), {"tare_g": "9", "was": ""})
    board.refresh_from_db()
    kept = board.tare_g
    again = {name: stale.context["tare_form"][name].value() for name in ("tare_g", "was")}

    signed_in.post(at("tare/"), again)

    board.refresh_from_db()
    assert (stale.status_code, kept) == (422, 1800)
    assert "It was said meanwhile that it weighs 1800 g." in text_of(stale)
    assert board.tare_g == 9
