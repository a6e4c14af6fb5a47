"""Pots that are lit have left the plank."""

import pytest

from wareboard.records.kiln import actions
from wareboard.records.kiln.models import Kiln, Load
from wareboard.records.people.entry import keep
from wareboard.records.people.undoing import undo
from wareboard.records.ware.models import Board, Pot, Standing
from wareboard.records.ware.queries import pots_on


@pytest.fixture
def board(member):
    return keep(Board, member, name="long plank")


@pytest.fixture
def load(member, board):
    load = keep(Load, member, kiln=keep(Kiln, member, name="the kiln"))
    pots = [keep(Pot, member, name=name) for name in ("jug", "bowl", "left behind")]
    for pot in pots:
        keep(Standing, member, pot=pot, board=board)
    actions.put_in(member, load, pots[:2], None)
    return load


def test_pots_stay_on_their_board_until_the_load_is_lit(member, board, load):
    before = [pot.name for pot in pots_on(member, board)]

    actions.light(member, load)

    assert before == ["jug", "bowl", "left behind"]
    assert [pot.name for pot in pots_on(member, board)] == ["left behind"]


def test_taking_the_lighting_back_puts_them_back(member, board, load):
    firing = actions.light(member, load)

    undo(firing)

    assert [pot.name for pot in pots_on(member, board)] == ["jug", "bowl", "left behind"]
