"""Glazes, recipes, batches, and what was in every bucket at any time."""

import colorsys
from bisect import bisect_right
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from wareboard.core.slop import dry_fraction
from wareboard.records.glazes.models import (
    Batch,
    BatchLine,
    Bucket,
    BucketEvent,
    Glaze,
    Reading,
    Recipe,
    RecipeLine,
)
from wareboard.records.stores.models import Lot, Material

from .book import Book
from .size import Size
from .stores import lot_at

BOTTLE_EMPTY_G, BOTTLE_ML = 212.0, 365.0
SOLID_G_CM3 = 2.6
HUNDRED = 100.0
DAYS_BETWEEN_READINGS = 21
OPEN_AT_ONCE = 12
POURED_AFTER = timedelta(minutes=30)
SPOILT = 2
"""Place of the glaze that the last bags of its first material spoil."""

# Parts of the first materials of the list: feldspar, whiting, silica, ball clay, talc.
FAMILIES = (
    (40.0, 16.0, 18.0, 22.0, 4.0),
    (32.0, 20.0, 24.0, 20.0, 4.0),
    (46.0, 12.0, 10.0, 22.0, 10.0),
    (28.0, 24.0, 14.0, 30.0, 4.0),
)
NAMES = (
    "Alder", "Bracken", "Cinder", "Dulse", "Ember", "Fescue", "Gorse", "Heron", "Inkcap", "Juniper",
    "Kelp", "Lichen", "Marl", "Nettle", "Oat", "Plover", "Quern", "Reed", "Sorrel", "Teasel",
    "Umber", "Vetch", "Willow", "Yarrow", "Aspen", "Bilberry", "Chough", "Dunlin", "Elder", "Furze",
)  # fmt: skip


@dataclass
class Filled:
    """One bucket and what is known of it at any time.

    Attributes
    ----------
    bucket : Bucket
        Which bucket.
    sg : float
        What it is made up to.
    read_at, read_sg : list
        When it was weighed, and what it weighed then.
    poured_at, bags : list
        When a batch went in, and which bags of the first material were in it then.
    """

    bucket: Bucket
    sg: float
    poured_at: list[datetime] = field(default_factory=list)
    bags: list[frozenset[str]] = field(default_factory=list)
    read_at: list[datetime] = field(default_factory=list)
    read_sg: list[float] = field(default_factory=list)

    def sg_at(self, when: datetime) -> float:
        """Give the specific gravity at a time, by the last weighing before it."""
        place = bisect_right(self.read_at, when)
        return self.read_sg[place - 1] if place else self.sg

    def pour(self, bag: Lot | None, when: datetime, *, afresh: bool) -> None:
        """Fill it, or top it up."""
        inside = self.bags[-1] if self.bags and not afresh else frozenset()
        self.poured_at.append(when)
        self.bags.append(inside | {bag.pk} if bag else inside)

    def bags_at(self, when: datetime) -> frozenset[str]:
        """Give the bags of the first material that were in it at a time."""
        place = bisect_right(self.poured_at, when)
        return self.bags[place - 1] if place else frozenset()

    def dry_fraction_at(self, when: datetime) -> float:
        """Give the share of powder at a time, by weight."""
        return dry_fraction(self.sg_at(when), SOLID_G_CM3)


class GlazeRoom:
    """The glazes of the record: which are used how often, and their buckets.

    Parameters
    ----------
    book : Book
        Where the rows go.
    size : Size
        How many of each.
    materials : list of Material
        In the order of the list.
    lots : dict of str to list of Lot
        By material, oldest first.
    first, until : datetime
        First and last day.
    """

    def __init__(
        self,
        book: Book,
        size: Size,
        materials: list[Material],
        lots: dict[str, list[Lot]],
        first: datetime,
        until: datetime,
    ) -> None:
        self.book, self.first, self.until = book, first, until
        self.materials, self.lots = materials, lots
        self.glazes = [self._glaze(number) for number in range(size.glazes)]
        self.recipes = {glaze.pk: self._recipes(glaze) for glaze in self.glazes}
        self.buckets: dict[str, list[Filled]] = defaultdict(list)
        each = [size.buckets // size.glazes] * size.glazes
        for number in range(size.buckets % size.glazes):
            each[number] += 1
        # The glazes most used have the most buckets, and are mixed the most often.
        self.weights = [1.0 / (rank + 8) for rank in range(size.glazes)]
        batches = max(1, size.batches // size.buckets)
        extra = size.batches - batches * size.buckets
        for glaze, count in zip(self.glazes, each, strict=True):
            number = 0
            for place in range(max(count, 1)):
                more = batches + (1 if extra > 0 else 0)
                extra -= 1
                filled = self._bucket(glaze, place)
                number = self._fill(filled, glaze, number, more)
                self._read(filled)
                self.buckets[glaze.pk].append(filled)

    def spoilt_at(self, bucket: Bucket, when: datetime) -> bool | None:
        """Say whether a bucket held the bags that spoil it; None for other glazes."""
        if bucket.glaze_id != self.glazes[SPOILT].pk:
            return None
        all_filled = self.buckets[bucket.glaze_id]
        filled = next(one for one in all_filled if one.bucket is bucket)
        return filled.bags_at(when) == all_filled[0].bags[-1]

    def palette(self) -> list[Filled]:
        """Choose the buckets that stand open for one load, as often as their glaze is used."""
        chosen = self.book.chance.choices(self.glazes, self.weights, k=OPEN_AT_ONCE)
        return [self.book.chance.choice(self.buckets[glaze.pk]) for glaze in chosen]

    def _glaze(self, number: int) -> Glaze:
        red, green, blue = colorsys.hsv_to_rgb(self.book.chance.random(), 0.3, 0.6)
        return self.book.entry(
            Glaze,
            f"glaze-{number:03d}",
            self.first,
            name=NAMES[number % len(NAMES)] + ("" if number < len(NAMES) else f" {number}"),
            character="made up",
            swatch=f"#{round(red * 255):02x}{round(green * 255):02x}{round(blue * 255):02x}",
            runs_above_mm=0.7 if number % 5 == 0 else None,
        )

    def _recipes(self, glaze: Glaze) -> list[Recipe]:
        """Add one to three versions; a glaze in five is a child of the first."""
        number = int(glaze.pk.rsplit("-", 1)[1])
        child = number % 5 == 4  # noqa: PLR2004 - one in five
        versions = []
        for version in range(1, 2 + number % 3):
            recipe = self.book.entry(
                Recipe,
                f"{glaze.pk}-v{version}",
                self.first + timedelta(days=400 * (version - 1)),
                glaze=glaze,
                version=version,
                base=self.glazes[0] if child else None,
                why="" if version == 1 else "a bag that was not like the last",
            )
            self.book.parts(RecipeLine, "recipe", recipe, self._lines(number, child=child))
            versions.append(recipe)
        return versions

    def _lines(self, number: int, *, child: bool) -> list[dict[str, object]]:
        colours = [m for m in self.materials if m.kind == "colourant"]
        added = [
            {
                "material": self.book.chance.choice(colours),
                "parts": self.book.chance.choice((0.5, 1.0, 2.0, 4.0)),
                "addition": True,
            }
        ]
        if child:
            return added
        family = FAMILIES[number % len(FAMILIES)]
        own = [round(parts * self.book.chance.uniform(0.85, 1.15), 1) for parts in family]
        lines: list[dict[str, object]] = [
            {"material": material, "parts": parts}
            for material, parts in zip(self.materials, own, strict=False)
        ]
        powders = [m for m in self.materials[len(family) :] if m.kind == "glaze material"]
        if powders:
            lines.append({"material": self.book.chance.choice(powders), "parts": 6.0})
        return lines + added if number % 2 else lines

    def _bucket(self, glaze: Glaze, place: int) -> Filled:
        bucket = self.book.entry(
            Bucket,
            f"{glaze.pk}-bucket-{place + 1}",
            self.first,
            glaze=glaze,
            name=f"{glaze.name}, bucket {place + 1}",
            bottle_empty_g=BOTTLE_EMPTY_G,
            bottle_ml=BOTTLE_ML,
        )
        return Filled(bucket, self.book.chance.uniform(1.44, 1.54))

    def _fill(self, filled: Filled, glaze: Glaze, number: int, batches: int) -> int:
        """Fill a bucket evenly over the years: afresh, or on top of the last."""
        span = (self.until - self.first) / batches
        for turn in range(batches):
            number += 1
            at = self.first + span * turn + timedelta(hours=1)
            known = [r for r in self.recipes[glaze.pk] if r.at <= at]
            batch = self.book.entry(
                Batch,
                f"{filled.bucket.pk}-batch-{turn + 1:03d}",
                at,
                recipe=known[-1],
                number=number,
            )
            self._weigh_out(batch, known[-1], at)
            bag = lot_at(self.lots[self.materials[0].pk], at)
            filled.pour(bag, at + POURED_AFTER, afresh=turn % 3 == 0)
            self.book.entry(
                BucketEvent,
                f"{batch.pk}-in",
                at + POURED_AFTER,
                bucket=filled.bucket,
                kind="filled" if turn % 3 == 0 else "topped up",
                batch=batch,
                amount_ml=9_000.0,
            )
        return number

    def _weigh_out(self, batch: Batch, recipe: Recipe, at: datetime) -> None:
        own = [one for one in self.book.rows[RecipeLine] if one.recipe_id == recipe.pk]
        if recipe.base_id:
            base = self.recipes[recipe.base_id][0].pk
            own = [one for one in self.book.rows[RecipeLine] if one.recipe_id == base] + own
        for number, line in enumerate(own, start=1):
            told = {
                "position": number,
                "batch": batch,
                "material": line.material,
                "lot": lot_at(self.lots[line.material_id], at),
            }
            weighed_g, line_id = round(line.parts * 60, 1), f"{batch.pk}-{number:03d}"
            wrong = None
            if number == 1 and batch.number % 25 == 0:
                wrong = self.book.entry(
                    BatchLine, f"{line_id}-wrong", at, weighed_g=weighed_g * 10, **told
                )
            self.book.entry(BatchLine, line_id, at, weighed_g=weighed_g, corrects=wrong, **told)

    def _read(self, filled: Filled) -> None:
        """Weigh a bucket every three weeks; of a hundred readings one is put right, one undone.

        Of three times that water went in, one was written down wrongly first.
        """
        at = self.first + timedelta(hours=2 + self.book.chance.randrange(24 * 7))
        number = 0
        while at < self.until:
            number += 1
            sg = self.book.around(filled.sg, 0.012)
            if number % 9 == 0:
                wrong = self._water(filled, number, at, 2_000.0) if number % 27 == 0 else None
                self._water(filled, number, at, 200.0, "-right", corrects=wrong)
            reading = self._reading(filled, number, at, sg)
            if self.book.happens(0.01):
                reading.undone_at = reading.kept_at + timedelta(minutes=3)
            else:
                filled.read_at.append(at)
                filled.read_sg.append(sg)
                if self.book.happens(0.01):
                    again = self._reading(filled, number, at + timedelta(minutes=5), sg, "-again")
                    again.corrects = reading
            at += timedelta(days=DAYS_BETWEEN_READINGS)

    def _water(
        self, filled: Filled, number: int, at: datetime, amount_ml: float, end: str = "", **of: Any
    ) -> BucketEvent:
        return self.book.entry(
            BucketEvent,
            f"{filled.bucket.pk}-water-{number:04d}{end}",
            at - timedelta(minutes=20),
            bucket=filled.bucket,
            kind="water in",
            amount_ml=amount_ml,
            **of,
        )

    def _reading(
        self, filled: Filled, number: int, at: datetime, sg: float, end: str = ""
    ) -> Reading:
        return self.book.entry(
            Reading,
            f"{filled.bucket.pk}-reading-{number:04d}{end}",
            at,
            bucket=filled.bucket,
            full_g=float(round(BOTTLE_EMPTY_G + sg * BOTTLE_ML)),
            empty_g=BOTTLE_EMPTY_G,
            volume_ml=BOTTLE_ML,
            in_bucket_l=round(self.book.chance.uniform(3.0, 12.0), 1),
            flow=self.book.chance.choice(("as usual", "as usual", "as usual", "runny", "gelled")),
        )
