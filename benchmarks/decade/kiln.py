"""One kiln, its loads and firings, each with its whole log."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from wareboard.records.kiln.models import (
    ConeReading,
    Firing,
    FuelWeight,
    GoodFiring,
    Kiln,
    Load,
    LogLine,
    Moment,
    Place,
    Placing,
    ShelfPhoto,
)
from wareboard.records.pictures.models import Original
from wareboard.records.ware.models import Pot

from .book import Book

LEVELS = ("top", "middle", "bottom")
SIDES = ("left", "right")
# Hours since the candle was lit, temperature, damper, flame.
CORNERS = (
    (0.0, 15.0, 8.0, "clear"),
    (5.0, 95.0, 8.0, "clear"),
    (9.0, 600.0, 8.0, "clear"),
    (11.5, 950.0, 5.0, "licking"),
    (15.0, 1250.0, 4.0, "full"),
    (15.5, 1262.0, 4.0, "soft"),
    (33.0, 120.0, 0.0, "clear"),
)
SEALED_H, SHUT_OFF_H, OPENED_H = 5.5, 15.5, 33.5
CONES = ("8", "9", "10")
TARE_KG = 54.2


class KilnRoom:
    """The kiln and its places.

    Parameters
    ----------
    book : Book
        Where the rows go.
    first : datetime
        First day.
    lines : int
        Lines of each log.
    """

    def __init__(self, book: Book, first: datetime, *, lines: int) -> None:
        self.book, self.lines = book, lines
        self.kiln = book.entry(
            Kiln,
            "the-kiln",
            first,
            name="the kiln",
            volume_l=220.0,
            cones="self-supporting",
            end_cone="9",
        )
        self.places = [
            book.entry(
                Place, f"place-{level}-{side}", first, kiln=self.kiln, level=level, name=side
            )
            for level in LEVELS
            for side in SIDES
        ]

    def load(self, number: int, at: datetime, pots: Sequence[Pot]) -> Load:
        """Add a load and put pots into it."""
        load = self.book.entry(
            Load, f"load-{number:04d}", at, kiln=self.kiln, name=f"load {number}"
        )
        for place, pot in enumerate(pots):
            self.book.entry(
                Placing,
                f"{pot.pk}-in-load",
                at + timedelta(minutes=1, seconds=20 * place),
                load=load,
                pot=pot,
                place=self.places[place % len(self.places)],
            )
        return load

    def fire(self, number: int, load: Load, lit: datetime) -> Firing:
        """Add the firing of a load, from the candle to the opened door."""
        firing = self.book.entry(
            Firing,
            f"firing-{number:04d}",
            lit,
            load=load,
            number=number,
            weather=self.book.chance.choice(("calm", "windy", "fog", "still, sticky")),
        )
        for kind, hours in (
            ("candle", 0.0),
            ("sealed", SEALED_H),
            ("shut off", SHUT_OFF_H),
            ("opened", OPENED_H),
        ):
            self.book.entry(
                Moment,
                f"{firing.pk}-{kind.replace(' ', '-')}",
                lit + timedelta(hours=hours),
                firing=firing,
                kind=kind,
            )
        self._log(firing, lit)
        self._cones(firing, lit + timedelta(hours=OPENED_H))
        for step, (hours, gross_kg) in enumerate(((0.0, 99.0), (SEALED_H, 97.0), (15.5, 77.0))):
            self.book.entry(
                FuelWeight,
                f"{firing.pk}-gas-{step + 1}",
                lit + timedelta(hours=hours),
                firing=firing,
                cylinder="47 kg",
                gross_kg=gross_kg,
                tare_kg=TARE_KG,
            )
        return firing

    def call_good(self, firing: Firing, at: datetime) -> None:
        """Say that a firing is the one to go by."""
        self.book.entry(GoodFiring, f"{firing.pk}-good", at, firing=firing)

    def show(self, firing: Firing, level: str, original: Original) -> None:
        """Add the photo of a shelf."""
        name = f"{firing.pk}-{level}-photo"
        self.book.entry(
            ShelfPhoto, name, original.at, firing=firing, level=level, original=original
        )

    def _log(self, firing: Firing, lit: datetime) -> None:
        step_h = CORNERS[-1][0] / (self.lines - 1)
        hotter = self.book.around(0.0, 6.0)
        corner = 0
        for line in range(self.lines):
            hours = line * step_h
            while corner < len(CORNERS) - 2 and hours > CORNERS[corner + 1][0]:
                corner += 1
            here, there = CORNERS[corner], CORNERS[corner + 1]
            along = (hours - here[0]) / (there[0] - here[0])
            temp_c = here[1] + along * (there[1] - here[1]) + hotter * min(hours / 15, 1)
            self.book.entry(
                LogLine,
                f"{firing.pk}-line-{line:04d}",
                lit + timedelta(hours=hours),
                firing=firing,
                temp_c=float(round(temp_c + self.book.around(0, 1.5))),
                pressure_kpa=7.0 if hours < SHUT_OFF_H else 0.0,
                damper=here[2],
                flame=here[3],
            )

    def _cones(self, firing: Firing, at: datetime) -> None:
        for place in self.places[:: len(SIDES)]:
            for cone, clock in zip(CONES, (6.0, 5.0, 1.0), strict=True):
                pointed = min(6.0, max(0.5, self.book.around(clock, 0.4)))
                self.book.entry(
                    ConeReading,
                    f"{firing.pk}-{place.level}-cone-{cone}",
                    at,
                    firing=firing,
                    place=place,
                    cone=cone,
                    clock=round(pointed * 2) / 2,
                )
