"""What tests of pots and boards stand on."""

import pytest
from ware_samples import plank, pot_of


@pytest.fixture
def pots(member, form):
    """Three that are alike."""
    return [pot_of(member, form) for _ in range(3)]


@pytest.fixture
def board(member, pots):
    """A plank of 1800 g with the three on it."""
    return plank(member, pots, tare_g=1800)


@pytest.fixture
def at(board):
    """The address of a page of that plank."""
    return lambda page="": f"/ware/boards/{board.pk}/{page}"
