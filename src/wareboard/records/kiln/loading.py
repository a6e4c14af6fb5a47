"""A load as it stands in the kiln, and what may still go into it."""

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from wareboard.charts.pot_drawing import scale_for
from wareboard.records.people.shown import rounded
from wareboard.records.ware.drawn import draw_pots, kind_of, names_of, profiles_of, shape_of
from wareboard.records.ware.models import Coat, Pot, Standing
from wareboard.records.ware.planks import made, names_on_boards

from .models import Load, Place, Placing
from .words import Level

SHELF_PX = 560.0
MOST_PX_CM = 3.2
ALIKE = 3
FULL = 0.9


@dataclass(frozen=True)
class Shelf:
    """One level of the kiln and what stands on it.

    Attributes
    ----------
    name : str
        Which level.
    pots : list of dict
        Placing, name and drawing of each pot.
    """

    name: str
    pots: list[dict[str, Any]]


@dataclass(frozen=True)
class HowFull:
    """How a load stands beside the last ones.

    Attributes
    ----------
    title : str
        The one sentence.
    under : str
        What the last loads had.
    n : int
        How many loads that rests on.
    """

    title: str
    under: str
    n: int


@dataclass(frozen=True)
class Group:
    """Pots that are alike and wait for the kiln.

    Attributes
    ----------
    name, glazes : str
        What they are called, and what is on them.
    pots : list of Pot
        They themselves, in the order they were made.
    labels : list of (Pot, str, str)
        Each as it is called on its board, and that board; its bare name where
        it stands on none.
    """

    name: str
    glazes: str
    pots: list[Pot] = field(default_factory=list)
    labels: list[tuple[Pot, str, str]] = field(default_factory=list)

    @property
    def all_of_them(self) -> str:
        """Their ids in one word, where there are enough to be ticked at once."""
        return " ".join(pot.pk for pot in self.pots) if len(self.pots) >= ALIKE else ""


def how_full(load: Load, pots: int, sizes: Sequence[int]) -> HowFull:
    """Say how many pots are in a load, and what share of the last loads that is.

    Parameters
    ----------
    load : Load
        Which one.
    pots : int
        How many are in it.
    sizes : sequence of int
        What the last loads of this kiln had.
    """
    if load.lit_at:
        title = ngettext("%(n)d pot was in it.", "%(n)d pots were in it.", pots) % {"n": pots}
        return HowFull(title, "", 0)
    if not pots:
        title = _("Nothing is in this load yet.")
    else:
        title = ngettext("%(n)d pot so far.", "%(n)d pots so far.", pots) % {"n": pots}
    sizes = [size for size in sizes if size]
    if not sizes:
        return HowFull(title, _("There is no earlier load to measure it by."), 0)
    low, usual, high = min(sizes), statistics.median(sizes), max(sizes)
    had = str(low) if low == high else _("%(low)d to %(high)d") % {"low": low, "high": high}
    share = pots / usual
    under = ngettext(
        "The last load of this kiln had %(had)s.",
        "The last %(n)d loads of this kiln had %(had)s.",
        len(sizes),
    ) % {"n": len(sizes), "had": had}
    if share >= FULL:
        return HowFull(title, under + " " + _("This one is as full as they were."), len(sizes))
    percent = rounded(100 * share, 5)
    return HowFull(title, under + " " + _("This is about %s %% of that.") % percent, len(sizes))


def names_for(pots: Sequence[Pot], standings: Sequence[Standing]) -> dict[str, str]:
    """Name the pots of one list: as their boards do, else so that two days are told apart.

    Parameters
    ----------
    pots : sequence of Pot
        Those of the list.
    standings : sequence of Standing
        All that stands on their boards.
    """
    on_board: dict[str, list[Pot]] = {}
    for one in standings:
        on_board.setdefault(str(one.board_id), []).append(one.pot)
    there = names_on_boards(on_board)
    return names_of([pot for pot in pots if pot.pk not in there]) | there


def shelves_of(
    placings: Sequence[Placing],
    coats: Mapping[str, Sequence[Coat]],
    places: Sequence[Place],
    standings: Sequence[Standing] = (),
) -> list[Shelf]:
    """Draw the kiln as it stands, all shelves at one scale.

    Parameters
    ----------
    placings : sequence of Placing
        What stands in it, with pots, forms and places.
    coats : mapping of str to sequence of Coat
        By pot.
    places : sequence of Place
        Where something can stand in this kiln.
    standings : sequence of Standing, optional
        All that stands on boards that wait.
    """
    pots = [placing.pot for placing in placings]
    names = names_for(pots, standings)
    profiles = profiles_of(pot.form_id for pot in pots if pot.form_id)
    shapes = {pot.pk: shape_of(pot, profiles) for pot in pots}
    on: dict[str, list[Placing]] = {level: [] for level in Level}
    on[""] = []
    for placing in placings:
        on[placing.place.level if placing.place else ""].append(placing)
    scale = min(
        scale_for([shapes[p.pot_id].profile_cm for p in row], SHELF_PX, most_px_cm=MOST_PX_CM)
        for row in on.values()
    )
    drawings = draw_pots(pots, coats, {}, px_cm=scale, shapes=shapes)
    has = {place.level for place in places}
    return [
        Shelf(
            str(Level(level).label) if level else _("place not said"),
            [
                {
                    "placing": placing,
                    "name": names[placing.pot_id],
                    "where": placing.place.name if placing.place else "",
                    "drawing": mark_safe(drawings[placing.pot_id]),  # noqa: S308 - our own drawing, every text in it escaped
                }
                for placing in row
            ],
        )
        for level, row in on.items()
        if row or level in has
    ]


def glazes_on(coats: Sequence[Coat]) -> str:
    """Name what is on a pot: Rill inside, Limpet outside."""
    parts = []
    for coat in coats:
        glaze = coat.bucket.glaze if coat.bucket else coat.glaze
        if glaze is not None:
            parts.append(f"{glaze.name} {coat.get_side_display()}")
    return ", ".join(dict.fromkeys(parts))


def groups_of(
    pots: Sequence[Pot],
    coats: Mapping[str, Sequence[Coat]],
    standings: Sequence[Standing] = (),
) -> list[Group]:
    """Put pots together that are of one kind and have the same glazes, in the order they come.

    Parameters
    ----------
    pots : sequence of Pot
        Those that wait.
    coats : mapping of str to sequence of Coat
        By pot.
    standings : sequence of Standing
        All that stands on their boards.
    """
    board_names = {one.pot_id: one.board.name for one in standings if one.board is not None}
    names = names_for(pots, standings)
    found: dict[tuple[str, str], Group] = {}
    for pot in pots:
        key = kind_of(pot), glazes_on(coats.get(pot.pk, ()))
        found.setdefault(key, Group(*key)).pots.append(pot)
    for group in found.values():
        group.pots.sort(key=made)
        group.labels.extend((pot, names[pot.pk], board_names.get(pot.pk, "")) for pot in group.pots)
    return list(found.values())


def boards_of(standings: Sequence[Standing]) -> list[dict[str, Any]]:
    """Give the boards with pots that may go in: each with how many.

    Parameters
    ----------
    standings : sequence of Standing
        With boards at hand, and whether each waits.
    """
    counted: dict[str, dict[str, Any]] = {}
    for standing in standings:
        if standing.board is not None and standing.waits:
            row = counted.setdefault(
                standing.board.pk, {"pk": standing.board.pk, "name": standing.board.name, "n": 0}
            )
            row["n"] += 1
    return list(counted.values())
