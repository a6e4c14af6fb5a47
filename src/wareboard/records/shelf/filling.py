"""How the pots came out that were dipped into one filling of a bucket."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from wareboard.records.glazes.models import Bucket, BucketEvent, BucketEventKind
from wareboard.records.ware.models import Coat
from wareboard.records.ware.words import Side

from .evidence import SURFACES
from .models import Verdict
from .words import OF_THE_CLAY, FaultWord, Surface

MOST_DIPS = 300
"""Dips of a filling whose pots are looked up, the newest."""


@dataclass(frozen=True)
class CameOut:
    """The fault that most pots of a filling have.

    Attributes
    ----------
    fault : FaultWord
        Which.
    pots : int
        How many have it.
    judged : int
        How many were judged where this glaze is on them.
    """

    fault: FaultWord
    pots: int
    judged: int


def worst_of_filling(bucket: Bucket, events: Iterable[BucketEvent]) -> CameOut | None:
    """Give the fault that most pots have which were dipped since a bucket was filled; one query.

    Faults of the clay are not the bucket's; a pot that has one was judged all the same.

    Parameters
    ----------
    bucket : Bucket
        Which bucket.
    events : iterable of BucketEvent
        What was done to it, newest first.

    Returns
    -------
    CameOut or None
        None where no pot has a fault.
    """
    filled = (event.at for event in events if event.kind == BucketEventKind.FILLED)
    dips = Coat.objects.current().filter(bucket=bucket, at__gte=next(filled, bucket.at))
    rows = (
        Verdict.objects.current()
        .filter(pot__coats__in=dips.order_by("-at").values("pk")[:MOST_DIPS])
        .values_list("pot", "surface", "pot__coats__side", "faults__word")
    )
    judged: set[str] = set()
    with_fault: defaultdict[str, set[str]] = defaultdict(set)
    for pot_id, surface, side, word in rows:
        if surface != Surface.WHOLE and surface not in SURFACES[Side(side)]:
            continue
        judged.add(pot_id)
        if word and word not in OF_THE_CLAY:
            with_fault[word].add(pot_id)
    if not with_fault:
        return None
    word, pots = max(with_fault.items(), key=lambda found: (len(found[1]), found[0]))
    return CameOut(FaultWord(word), len(pots), len(judged))
