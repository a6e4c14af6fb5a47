"""The same bag in the studio's other glazes: with it and without it, how many have the fault.

All glazes are counted at once, on the newest judged pots, from bare rows: which
glaze lies where, what was in its bucket, and what was said of the surface.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import NamedTuple

from wareboard.records.glazes.models import BatchLine, Glaze
from wareboard.records.people.models import Member
from wareboard.records.ware.models import Coat
from wareboard.records.ware.past_coats import PastBooks
from wareboard.records.ware.words import Side

from .attributes import LOT, compared_of, lots_of, version_of
from .bags import names_of_bags
from .evidence import JUDGED, SURFACES, Judged, fault_on, verdicts_as_of
from .models import Fault
from .words import FaultWord

MOST = 1_500
"""Judged pots of the studio that are looked at, the newest."""

SURFACES_OF_A_POT = 2


class FirstDip(NamedTuple):
    """The first dip of a pot in a glaze."""

    bucket_id: str | None
    at: datetime


@dataclass
class Glazed:
    """A pot as far as one glaze is on it: its first dip, and the surfaces covered."""

    dip: FirstDip
    surfaces: set[str] = field(default_factory=set)


@dataclass
class Counts:
    """How many pieces of a glaze have the fault, with the bag and without it.

    Attributes
    ----------
    faulty_with, n_with, faulty_without, n_without : int
        Faulty pieces and all pieces, with it and without it.
    """

    faulty_with: int = 0
    n_with: int = 0
    faulty_without: int = 0
    n_without: int = 0

    def add(self, *, has_it: bool, faulty: bool) -> None:
        """Count one more piece."""
        if has_it:
            self.n_with += 1
            self.faulty_with += faulty
        else:
            self.n_without += 1
            self.faulty_without += faulty


@dataclass(frozen=True)
class Elsewhere:
    """A bag counted in all glazes but one.

    Attributes
    ----------
    counts : mapping of str to Counts
        By the id of each glaze that has pieces to compare.
    newest_only : bool
        Whether there were too many pots, and older ones are left out.
    """

    counts: Mapping[str, Counts]
    newest_only: bool


def count_elsewhere(
    member: Member,
    lot: tuple[str, str],
    glaze: Glaze,
    fault: FaultWord,
    until: datetime | None,
) -> Elsewhere:
    """Count a bag in all glazes but one.

    Parameters
    ----------
    member : Member
        Who asks.
    lot : (str, str)
        The attribute and its value, as :func:`lots_of` gives them.
    glaze : Glaze
        The one that is left out.
    fault : FaultWord
        Which fault.
    until : datetime or None
        Leave out verdicts after this instant.

    Returns
    -------
    Elsewhere
        The glazes that have pieces to compare.
    """
    verdicts = verdicts_as_of(member, until)
    newest = verdicts.order_by("-at", "-pk").values_list("pot", flat=True)
    judged = list(newest[: SURFACES_OF_A_POT * MOST + 1])
    by_pot = list(dict.fromkeys(judged[: SURFACES_OF_A_POT * MOST]))
    pots = by_pot[:MOST]
    told: dict[str, list[Judged]] = {}
    for row in verdicts.filter(pot__in=pots).values_list(*JUDGED):
        told.setdefault(row[1], []).append(Judged(*row))
    faults = Fault.objects.filter(word=fault, verdict__pot__in=pots)
    with_fault = set(faults.values_list("verdict", flat=True))
    glazed = _glazed(pots, without=glaze)
    dips = (one.dip for of_pot in glazed.values() for one in of_pot.values())
    books = PastBooks(dips, with_readings=False)
    bags = names_of_bags(member)
    mixes: dict[Hashable, tuple[str | None, bool | None]] = {}
    found: dict[str, list[tuple[str | None, bool, bool]]] = {}
    for pot_id, of_pot in glazed.items():
        for glaze_id, one in of_pot.items():
            faulty = fault_on(one.surfaces, told[pot_id], with_fault)
            if faulty is None:
                continue
            inside = books.batches_at(one.dip.bucket_id, one.dip.at) if one.dip.bucket_id else []
            mix = (glaze_id, *(batch.pk for batch in inside))
            if mix not in mixes:
                lines = [line for batch in inside for line in books.lines[batch.pk]]
                mixes[mix] = version_of(inside, glaze_id), _has(lot, lines, bags)
            version, has_it = mixes[mix]
            if has_it is not None:
                found.setdefault(glaze_id, []).append((version, has_it, faulty))
    counts = {glaze_id: _counted(pieces) for glaze_id, pieces in found.items()}
    left_out = len(judged) > SURFACES_OF_A_POT * MOST or len(by_pot) > MOST
    return Elsewhere(counts, newest_only=left_out)


def _has(lot: tuple[str, str], lines: Sequence[BatchLine], bags: Mapping[str, str]) -> bool | None:
    """Say whether a bag was in a bucket; None where it is not known what was.

    A bucket with none of that material lacks the bag; one with a bag of it
    that nobody named is not known.
    """
    of_it = [line for line in lines if LOT + line.material.name == lot[0]]
    if not lines or any(line.lot is None for line in of_it):
        return None
    return lots_of(of_it, bags).get(lot[0]) == lot[1]


def _glazed(pots: list[str], *, without: Glaze) -> dict[str, dict[str, Glazed]]:
    """Give by pot and glaze where each glaze lies, one glaze left out."""
    coats = Coat.objects.current().filter(pot__in=pots).order_by("at", "kept_at", "pk")
    found: dict[str, dict[str, Glazed]] = {}
    for pot_id, bucket_id, at, side, of_bucket, remembered in coats.values_list(
        "pot", "bucket", "at", "side", "bucket__glaze", "glaze"
    ):
        glaze_id = of_bucket or remembered
        if glaze_id == without.pk:
            continue
        first = Glazed(FirstDip(bucket_id, at))
        here = found.setdefault(pot_id, {}).setdefault(glaze_id, first)
        here.surfaces.update(SURFACES[Side(side)])
    return found


def _counted(pieces: list[tuple[str | None, bool, bool]]) -> Counts:
    """Count the pieces of one glaze, those of recipes that never failed set aside."""
    compared = compared_of([(version, faulty) for version, _has_it, faulty in pieces])
    counts = Counts()
    for version, has_it, faulty in pieces:
        if version in compared:
            counts.add(has_it=has_it, faulty=faulty)
    return counts
