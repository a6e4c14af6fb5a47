"""An entry whose id belongs to another studio is refused in a sentence on every ware page."""

import pytest
from ware_samples import bucket_of, coat_of, cylinder, mine, photo, plank, pot_of, text_of

from wareboard.records.people.entry import keep
from wareboard.records.pictures.actions import keep_original
from wareboard.records.ware.models import (
    Board,
    BoardWeighing,
    Coat,
    Decoration,
    Form,
    Hope,
    Mark,
    Pot,
    PotPhoto,
    Standing,
    Weighing,
)

DIP = {"bucket": "{bucket}", "side": "inside", "extent": "whole"}
WAYS = [
    ("/ware/new/", Pot, "", {}),
    ("/ware/new/several/", Pot, "-01", {"how_many": "2"}),
    ("/ware/pots/{pot}/weigh/", Weighing, "", {"weight_g": "900", "state": "glazed"}),
    ("/ware/weighings/{weighing}/", Weighing, "", {"weight_g": "900", "state": "glazed"}),
    ("/ware/pots/{pot}/decorate/", Decoration, "", {"kind": "cut"}),
    ("/ware/pots/{pot}/mark/", Mark, "", {"kind": "bare"}),
    ("/ware/pots/{pot}/hope/", Hope, "", {"kind": "hoped", "words": "red"}),
    ("/ware/pots/{pot}/board/", Standing, "", {"board": "{board}"}),
    ("/ware/pots/{pot}/dip/", Coat, "", DIP),
    ("/ware/coats/{coat}/right/", Coat, "-00", DIP),
    ("/ware/boards/new/", Board, "", {"name": "new"}),
    ("/ware/boards/{board}/weigh/", BoardWeighing, "", {"weight_g": "900"}),
    ("/ware/boards/{board}/pots/", Standing, "-01", {}),
    ("/ware/boards/{board}/decorate/", Decoration, "", {"kind": "cut"}),
    ("/ware/boards/{board}/mark/", Mark, "", {"kind": "bare"}),
    ("/ware/boards/{board}/dip/", Coat, "-00", DIP),
    ("/ware/forms/new/", Form, "", {"name": "new"}),
]
SAY = "This entry came with an id that is taken. Reload the page."


@pytest.fixture
def here(member):
    """A pot on a board, with a coat and a weighing."""
    pot = pot_of(member, cylinder(member))
    bucket = bucket_of(member)
    weighing = keep(Weighing, member, pot=pot, weight_g=1000, state="glazed")
    return {
        "pot": pot.pk,
        "bucket": bucket.pk,
        "board": plank(member, [pot]).pk,
        "coat": coat_of(member, pot, bucket, 0.5).pk,
        "weighing": weighing.pk,
    }


@pytest.fixture
def take(demo_member):
    """Let another studio hold an id of any kind."""
    pot = pot_of(demo_member, None)
    bucket = bucket_of(demo_member, "Foreign")
    board = plank(demo_member, name="foreign")
    facts = {
        Pot: {},
        Board: {"name": "foreign"},
        Form: {"name": "foreign"},
        BoardWeighing: {"board": board, "weight_g": 1000},
        Weighing: {"pot": pot, "weight_g": 1000, "state": "glazed"},
        Decoration: {"pot": pot, "kind": "cut"},
        Mark: {"pot": pot, "kind": "bare"},
        Hope: {"pot": pot, "words": "red"},
        Standing: {"pot": pot, "board": board},
        Coat: {"pot": pot, "bucket": bucket, "side": "inside"},
    }
    return lambda model, entry_id: keep(model, demo_member, entry_id=entry_id, **facts[model])


@pytest.mark.parametrize(("url", "model", "ending", "sent"), WAYS)
def test_a_taken_id_is_said_and_nothing_is_stored(signed_in, here, take, url, model, ending, sent):
    take(model, f"taken{ending}")
    before = mine(model).count()
    filled = {name: value.format(**here) for name, value in sent.items()}

    reply = signed_in.post(url.format(**here), {"entry_id": "taken", **filled})

    assert reply.status_code == 422
    assert SAY in text_of(reply)
    assert mine(model).count() == before


@pytest.mark.parametrize("url", ["/ware/new/", "/ware/pots/{pot}/photo/"])
def test_a_photo_with_a_taken_id_is_said_and_not_stored(signed_in, here, demo_member, url):
    keep_original(demo_member, photo(), entry_id="taken-02")

    reply = signed_in.post(url.format(**here), {"entry_id": "taken", "photo": photo()})

    assert reply.status_code == 422
    assert SAY in text_of(reply)
    assert not mine(PotPhoto).exists()
