"""One glaze mixed twice with two bags of feldspar, three buckets, and a kiln that was lit twice."""

from datetime import UTC, datetime, timedelta
from itertools import count

import pytest

from wareboard.records.glazes import actions as glaze_actions
from wareboard.records.glazes.bridge import Asked
from wareboard.records.glazes.models import BatchLine, Bucket, BucketEvent
from wareboard.records.kiln.models import Firing, Kiln, Load, Place, Placing
from wareboard.records.people.entry import keep
from wareboard.records.shelf.models import Fault, Verdict
from wareboard.records.stores.actions import add_material
from wareboard.records.stores.models import Lot
from wareboard.records.ware.models import Coat, Pot

FIRST = datetime(2026, 9, 1, 12, tzinfo=UTC)


def day(number):
    return FIRST + timedelta(days=number)


class Shelf:
    """A studio with a fault to be traced."""

    def __init__(self, member):
        self.member = member
        self.numbers = count(1)
        self.feldspar = add_material(member, name="feldspar")
        self.lots = {
            label: keep(Lot, member, material=self.feldspar, label=label, at=day(0))
            for label in ("A", "B")
        }
        self.glaze = glaze_actions.add_glaze(member, name="Gannet", character="", swatch="#ffffff")
        recipe = glaze_actions.write_recipe(
            member, self.glaze, lines=[Asked(self.feldspar, 100.0, False)]
        )
        self.batches = {
            label: glaze_actions.mix_batch(
                member,
                recipe,
                at=day(2),
                lines=[BatchLine(material=self.feldspar, lot=lot, weighed_g=1000)],
            )
            for label, lot in self.lots.items()
        }
        self.old = self.bucket("old", ("filled", "A"))
        self.new = self.bucket("new", ("filled", "B"))
        self.mixed = self.bucket("mixed", ("filled", "A"), ("topped up", "B"))
        self.kiln = keep(Kiln, member, name="small", at=day(0))
        self.place = keep(Place, member, kiln=self.kiln, level="middle")
        self.loads = [keep(Load, member, kiln=self.kiln, name=f"L{n}", at=day(n)) for n in (10, 20)]
        self.firings = [
            keep(Firing, member, load=load, number=number, at=load.at)
            for number, load in enumerate(self.loads, start=1)
        ]

    def bucket(self, name, *fillings, glaze=None):
        bucket = keep(Bucket, self.member, glaze=glaze or self.glaze, name=name, at=day(3))
        for hour, (kind, label) in enumerate(fillings):
            keep(
                BucketEvent,
                self.member,
                bucket=bucket,
                kind=kind,
                batch=self.batches[label],
                at=day(3) + timedelta(hours=hour),
            )
        return bucket

    def pot(self, coats, verdicts, loads=None, remembered="", places=None):
        """Keep a pot: coats of (bucket, side), verdicts of (surface, fault or none)."""
        name = f"pot-{next(self.numbers)}"
        pot = keep(Pot, self.member, name=name, entry_id=name, at=day(4))
        for hour, (bucket, side) in enumerate(coats):
            keep(
                Coat,
                self.member,
                pot=pot,
                bucket=bucket,
                side=side,
                at=day(5) + timedelta(hours=hour),
            )
        for load in loads or self.loads[:1]:
            keep(Placing, self.member, load=load, pot=pot, place=places or self.place, at=load.at)
        for number, (surface, fault) in enumerate(verdicts):
            keep(
                Verdict,
                self.member,
                entry_id=f"{name}-v{number}",
                pot=pot,
                surface=surface,
                thumb="down" if fault else "up",
                at=day(11),
                owner="verdict",
                parts=(Fault(word=fault),) if fault else (),
                remembered=remembered,
            )
        return pot


@pytest.fixture
def shelf(member):
    return Shelf(member)
