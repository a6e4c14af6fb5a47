"""Pots that are alike keep their numbers, on their board and in the list of a load."""

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from wareboard.records.glazes.models import Glaze
from wareboard.records.people.entry import keep
from wareboard.records.ware.models import Board, Coat, Form, Pot, Standing


@pytest.fixture
def mugs(member):
    """Six mugs, made one after the other, put on a board the other way round."""
    form = keep(Form, member, name="mug")
    now = timezone.localtime().replace(hour=12) - timedelta(days=1)
    plank = keep(Board, member, entry_id="plank", name="the plank")
    made = [
        keep(Pot, member, entry_id=f"m-{9 - n}", form=form, at=now - timedelta(hours=9 - n))
        for n in range(6)
    ]
    for n, pot in enumerate(reversed(made)):
        keep(Standing, member, pot=pot, board=plank, at=now - timedelta(minutes=30 - n))
    return made


def on_the_board(client):
    return {one["pot"]: one["name"] for one in client.get("/ware/boards/plank/").context["plank"]}


def in_the_list(client, load):
    groups = client.get(reverse("kiln:load", args=[load.pk])).context["groups"]
    return {pot: (called, board) for one in groups for pot, called, board in one.labels}


def test_they_are_counted_in_the_order_they_were_made_however_they_stand(signed_in, mugs):
    names = on_the_board(signed_in)

    assert [names[pot] for pot in mugs] == [f"mug {n}" for n in range(1, 7)]


def test_the_list_of_a_load_calls_them_as_their_board_does(signed_in, load, mugs):
    listed = in_the_list(signed_in, load)

    assert list(listed) == mugs
    assert [called for called, _board in listed.values()] == [f"mug {n}" for n in range(1, 7)]
    assert {board for _called, board in listed.values()} == {"the plank"}


def test_also_where_their_glazes_differ_and_where_some_are_in_already(
    signed_in, member, load, shelf, mugs
):
    for pot in mugs[3:]:
        glaze = keep(Glaze, member, entry_id=f"glaze-{pot.pk}", name="Rill")
        keep(Coat, member, pot=pot, glaze=glaze, side="inside")
    url = reverse("kiln:load", args=[load.pk])

    signed_in.post(url, {"pots": [mugs[0].pk, mugs[4].pk], "place": shelf("top").pk})

    listed, there = in_the_list(signed_in, load), on_the_board(signed_in)
    waiting = [pot for pot in mugs if pot not in {mugs[0], mugs[4]}]
    assert set(listed) == set(waiting)
    assert {pot: called for pot, (called, _board) in listed.items()} == {
        pot: there[pot] for pot in waiting
    }
    assert signed_in.get(url).context["boards"] == [{"pk": "plank", "name": "the plank", "n": 4}]


def test_a_pot_on_no_board_has_its_bare_name(signed_in, member, load, mugs):
    free = keep(Pot, member, form=mugs[0].form)

    assert in_the_list(signed_in, load)[free] == ("mug", "")
