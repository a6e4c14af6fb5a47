"""The rows of a made-up record, kept all at once when they are all there."""

import random
from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any, TypeVar

from django.db import models, transaction

from wareboard.records.keeping.tables import KEPT
from wareboard.records.people.entry import Entry, Part
from wareboard.records.people.models import Member

Kept = TypeVar("Kept", bound=Entry)

WRITTEN_DOWN_AFTER = timedelta(minutes=2)
ROWS_AT_ONCE = 5_000


class Book:
    """Rows by model, with the chance that drew them.

    Parameters
    ----------
    member : Member
        Who kept everything; decides the studio.
    seed : int
        Where chance begins.
    """

    def __init__(self, member: Member, *, seed: int) -> None:
        self.member = member
        self.chance = random.Random(seed)
        self.rows: dict[type[models.Model], list[Any]] = defaultdict(list)

    def entry(self, model: type[Kept], entry_id: str, at: datetime, **facts: Any) -> Kept:
        """Add an entry, written down soon after it happened."""
        row = model(
            id=entry_id,
            studio_id=self.member.studio_id,
            by_id=self.member.pk,
            at=at,
            kept_at=at + WRITTEN_DOWN_AFTER,
            **facts,
        )
        self.rows[model].append(row)
        return row

    def parts(
        self, model: type[Part], owner: str, entry: Entry, lines: Iterable[Mapping[str, Any]]
    ) -> None:
        """Add the lines of an entry, numbered from 1."""
        for number, line in enumerate(lines, start=1):
            row_id = f"{entry.pk}-{number:03d}"
            self.rows[model].append(model(id=row_id, position=number, **{owner: entry}, **line))

    def happens(self, share: float) -> bool:
        """Say yes in a share of cases."""
        return self.chance.random() < share

    def around(self, middle: float, spread: float) -> float:
        """Draw a number near a middle."""
        return self.chance.gauss(middle, spread)

    @transaction.atomic
    def keep(self) -> dict[str, int]:
        """Write every row, in the order of the craft; gives how many by table."""
        for kept in KEPT:
            if rows := self.rows[kept.model]:
                kept.model._base_manager.bulk_create(rows, batch_size=ROWS_AT_ONCE)
        return {kept.name: len(self.rows[kept.model]) for kept in KEPT if self.rows[kept.model]}
