"""How much of a pot one coat covers.

The outline is turned about the middle; each stretch of it makes a ring. Inside,
the ring lies one wall nearer to the middle. That is not exact where the wall
leans much, but far inside the doubt of a coat's area.
"""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from wareboard.core.errors import ShapeError

Point = tuple[float, float]
Side = Literal["inside", "outside", "both"]
Extent = Literal["whole", "lip", "below the lip", "foot"]

LIP_CM = 3.0
"""How deep a lip is dipped where nobody said (common practice) [cm]."""

CM2_DM2 = 100.0
MM_CM = 10.0


def _ring_cm2(lower: Point, upper: Point, inset_cm: float) -> float:
    """Area of the ring that a stretch of outline makes when turned."""
    slant = math.hypot(upper[0] - lower[0], upper[1] - lower[1])
    return math.pi * slant * (max(lower[0] - inset_cm, 0.0) + max(upper[0] - inset_cm, 0.0))


def _between(
    profile_cm: Sequence[Point], low_cm: float, high_cm: float
) -> list[tuple[Point, Point]]:
    """Cut an outline to the stretches that lie between two heights."""
    cut = []
    for first, second in pairwise(profile_cm):
        lower, upper = sorted((first, second), key=lambda point: point[1])
        start, end = max(lower[1], low_cm), min(upper[1], high_cm)
        if end < start or (start == end and lower[1] != upper[1]):
            continue
        rise = upper[1] - lower[1]
        if rise == 0.0:
            cut.append((lower, upper))
            continue

        def at(z_cm: float, low: Point = lower, top: Point = upper, rise: float = rise) -> Point:
            return (low[0] + (top[0] - low[0]) * (z_cm - low[1]) / rise, z_cm)

        cut.append((at(start), at(end)))
    return cut


def coated_dm2(
    profile_cm: Sequence[Point],
    wall_mm: float,
    *,
    side: Side,
    extent: Extent = "whole",
    depth_cm: float | None = None,
    foot_gap_mm: float = 0.0,
) -> float:
    """Area that one coat covers.

    Parameters
    ----------
    profile_cm : sequence of (r, z)
        Outside of the pot, foot to rim [cm].
    wall_mm : float
        Thickness of the wall [mm].
    side : {'inside', 'outside', 'both'}
        Which side of the wall; a lip is always coated on both.
    extent : {'whole', 'lip', 'below the lip', 'foot'}
        How far it goes.
    depth_cm : float, optional
        Depth of the lip, or height of the foot [cm]; ``LIP_CM`` where not given.
    foot_gap_mm : float
        Bare clay above the foot, outside [mm].

    Returns
    -------
    float
        Area [dm²]; the disc below the foot is bare.

    Raises
    ------
    ShapeError
        If the outline has fewer than two points or no height.
    """
    if len(profile_cm) < 2:  # noqa: PLR2004 - two points make a line
        raise ShapeError(
            "An outline needs at least two points.",
            field="profile",
            seen=len(profile_cm),
            accepted="two points or more, foot to rim",
        )
    foot, rim = min(z for _, z in profile_cm), max(z for _, z in profile_cm)
    if rim <= foot:
        raise ShapeError(
            "An outline needs a height.", field="z_cm", seen=rim, accepted=f"more than {foot:g} cm"
        )
    wall_cm = wall_mm / MM_CM
    depth = LIP_CM if depth_cm is None else depth_cm
    low, high = foot, rim
    if extent == "lip":
        low = max(foot, rim - depth)
    elif extent == "below the lip":
        high = max(foot, rim - depth)
    elif extent == "foot":
        high = min(rim, foot + depth)
    area = 0.0
    if side != "inside" or extent == "lip":
        start = max(low, foot + foot_gap_mm / MM_CM) if extent != "foot" else low
        area += math.fsum(_ring_cm2(a, b, 0.0) for a, b in _between(profile_cm, start, high))
    if side != "outside" or extent == "lip":
        inner = _between(profile_cm, max(low, foot + wall_cm), high)
        area += math.fsum(_ring_cm2(a, b, wall_cm) for a, b in inner)
        if low == foot and inner:
            floor_cm = max(inner[0][0][0] - wall_cm, 0.0)
            area += math.pi * floor_cm * floor_cm
    return area / CM2_DM2
