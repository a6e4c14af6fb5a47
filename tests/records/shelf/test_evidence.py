"""What the record holds against a fault: the right firing, the right coat, the right bag."""

from wareboard.records.kiln.models import ConeReading
from wareboard.records.kiln.queries import cones_of_firings
from wareboard.records.people.entry import keep
from wareboard.records.shelf.evidence import gather
from wareboard.records.shelf.words import FaultWord

from .conftest import day


def pieces_of(shelf, until=None):
    return gather(shelf.member, shelf.glaze, FaultWord.PINHOLE, until=until).pieces


def test_a_verdict_speaks_of_the_firing_before_it_not_of_a_later_one(shelf):
    shelf.pot([(shelf.new, "inside")], [("inside", "pinhole")], loads=shelf.loads)

    (piece,) = pieces_of(shelf)

    assert piece.placing.firing_number == 1


def test_cones_come_in_the_order_of_the_chart(shelf):
    for cone in ("9", "10", "8", "010"):
        keep(
            ConeReading,
            shelf.member,
            firing=shelf.firings[0],
            place=shelf.place,
            cone=cone,
            clock=3.0,
            at=day(11),
        )

    (cones,) = cones_of_firings([shelf.firings[0].pk]).values()

    assert [reading.cone for reading in cones] == ["010", "8", "9", "10"]
