"""Coats and weighings of pots, turned into what the core reckons with, and back."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from wareboard.core.answer import Answer
from wareboard.core.coat import CoatWeighed, Layer, Stack, coat, stack
from wareboard.core.errors import CoreError
from wareboard.core.pot.coated import coated_dm2
from wareboard.records.glazes.bridge import Weighed, density_of

from .drawn import Shape, profiles_of, shape_of
from .models import Coat
from .words import Extent, Side

REMEMBERED = 4096
MOST_MM = 20.0
"""Thicker is no coat of glaze: a weight or the outline is wrong (common practice)."""

NOT_WEIGHED = "not weighed before and after"
NEVER_WEIGHED = "its bucket was never weighed"
"""Why a coat cannot be worked out."""

INSIDE, LIP, OUTSIDE, FOOT = "inside", "lip", "outside", "foot"
REGIONS: Mapping[str, frozenset[str]] = {
    Extent.WHOLE: frozenset({INSIDE, LIP, OUTSIDE}),
    Extent.LIP: frozenset({LIP}),
    Extent.BELOW_LIP: frozenset({INSIDE, OUTSIDE}),
    Extent.FOOT: frozenset({FOOT}),
}


@dataclass(frozen=True)
class WorkedCoat:
    """A coat and what its weighings amount to.

    Attributes
    ----------
    coat : Coat
        The coat.
    answer : Answer of CoatWeighed or None
        Grams, water and thickness with their doubt.
    missing : str
        Why it cannot be worked out, where it cannot.
    usual : bool
        Whether another pot of the board was weighed in its stead.
    general_shape : bool
        Whether its area rests on a general outline.
    """

    coat: Coat
    answer: Answer[CoatWeighed] | None
    missing: str = ""
    usual: bool = False
    general_shape: bool = False

    @property
    def thickness_mm(self) -> float | None:
        """Give its thickness, where it was worked out [mm]."""
        return self.answer.result.coat_mm if self.answer else None

    @property
    def told_mm(self) -> float | None:
        """Give the thickness that a page may tell; none on a general outline [mm].

        How much area a pot has whose form nobody has drawn is not known, nor how far off the
        general one is: a figure would have no honest doubt. Warnings may still reckon with it.
        """
        return None if self.general_shape else self.thickness_mm


def regions_of(coat_row: Coat) -> frozenset[str]:
    """Give the parts of a pot that a coat covers."""
    reach = REGIONS[coat_row.extent]
    if coat_row.extent in {Extent.LIP, Extent.FOOT}:
        return reach
    away = {Side.INSIDE: {OUTSIDE}, Side.OUTSIDE: {INSIDE}}.get(Side(coat_row.side), set())
    return reach - away


@lru_cache(maxsize=REMEMBERED)
def _area_dm2(
    shape: Shape, side: str, extent: str, depth_cm: float | None, foot_gap_mm: float
) -> float:
    """Remember the area of a coat: pots of one form are coated alike."""
    return coated_dm2(
        shape.profile_cm,
        shape.wall_mm,
        side=side,  # type: ignore[arg-type] # the constraint holds it to the list
        extent=extent,  # type: ignore[arg-type] # as above
        depth_cm=depth_cm,
        foot_gap_mm=foot_gap_mm,
    )


def work_out(
    coat_row: Coat,
    *,
    shape: Shape | None,
    reading: Weighed | None,
    solid: float | None,
    scale_step_g: float,
) -> WorkedCoat:
    """Work out one coat from its weighings.

    Parameters
    ----------
    coat_row : Coat
        The coat; where it is like another, that one's weighings count.
    shape : Shape or None
        Outline of its pot.
    reading : Weighed or None
        Of its bucket, in force then.
    solid : float or None
        Density of the glaze's powder [g/cm³]; the usual 2.6 where not known.
    scale_step_g : float
        Smallest step of the scale [g].
    """
    weighed = coat_row.like or coat_row
    usual = coat_row.like is not None
    if weighed.before_g is None or weighed.after_g is None:
        return WorkedCoat(coat_row, None, NOT_WEIGHED, usual)
    if reading is None and weighed.dried_g is None:
        return WorkedCoat(coat_row, None, NEVER_WEIGHED, usual)
    sg = density_of(reading, scale_step_g=scale_step_g) if reading else None
    extra = {"solid": solid} if solid is not None else {}
    area = None
    if shape is not None:
        area = _area_dm2(
            shape,
            coat_row.side,
            coat_row.extent,
            coat_row.lip_cm,
            coat_row.pot.foot_gap_mm or 0.0,
        )
    try:
        answer = coat(
            weighed.before_g,
            weighed.after_g,
            sg=None if weighed.dried_g is not None or sg is None else sg.result.sg,
            dry_g=weighed.dried_g,
            area_dm2=area,
            scale_step_g=scale_step_g,
            **extra,
        )
    except CoreError as refused:
        return WorkedCoat(coat_row, None, str(refused), usual)
    thick_mm = answer.result.coat_mm
    if thick_mm is not None and thick_mm > MOST_MM:
        why = f"{thick_mm:.0f} mm, which is no coat: a weight or the outline is wrong"
        return WorkedCoat(coat_row, None, why, usual)
    return WorkedCoat(coat_row, answer, "", usual, shape is not None and not shape.own)


def shapes_for(coats: Iterable[Coat]) -> Mapping[str, Shape]:
    """Give the outlines of the pots that carry some coats, by pot; one query."""
    pots = {coat_row.pot_id: coat_row.pot for coat_row in coats}
    profiles = profiles_of(pot.form_id for pot in pots.values() if pot.form_id)
    return {pot_id: shape_of(pot, profiles) for pot_id, pot in pots.items()}


def stack_of(worked: Sequence[WorkedCoat]) -> Answer[Stack]:
    """Add up the coats of one pot, part by part."""
    layers = []
    for one in worked:
        if one.answer is None or one.answer.result.coat_mm is None:
            continue
        spread = one.answer.doubt["coat_mm"]
        half = (spread.high - spread.low) / 2
        layers.append(Layer(one.answer.result.coat_mm, half, regions_of(one.coat)))
    return stack(layers)
