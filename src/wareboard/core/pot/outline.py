"""Area, volume and clay of a pot from its outline.

The outline runs from the foot to the rim on the outside and is turned about
the pot's axis; its pieces are straight, so the sums are exact for what was
drawn. Areas and volumes belong to the pot as drawn, wet, dry or fired.

Sources
-------
Pappus' rules, as in any book of geometry. The density of dry clay is general.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from wareboard.core.answer import Answer, Interval
from wareboard.core.bounds import within
from wareboard.core.doubt import around, together
from wareboard.core.errors import ShapeError
from wareboard.core.pot.wall import Point, crosses_itself, cut_level, moved_in
from wareboard.core.units import LENGTH_CM, LENGTH_MM

DRY_CLAY_G_CM3 = 1.85
"""Dry throwing clay (general)."""

DRY_CLAY_DOUBT = 0.09
"""Half width of that (general) [g/cm3]."""

OUTLINE_DOUBT_MM = 1.0
"""Half width of a length read off a drawing or a calliper (common practice)."""

WALL_DOUBT_MM = 0.5
"""Half width of a wall felt or measured at a few places (common practice)."""

CM2_DM2 = 100.0
MM_CM = 10.0
FEWEST_POINTS = 2

TINY_CM = 1e-4
"""A length nobody draws."""

LEVEL_CM = 1e-6
"""Points this near in height stand on the same board."""

_HEIGHT_CM = replace(
    LENGTH_CM,
    name="height",
    lowest=-LENGTH_CM.highest,
    words="centimetres from -10000 to 10000",
)
_RADIUS_CM = replace(LENGTH_CM, name="radius")
_DOUBT_MM = replace(
    LENGTH_MM, name="doubt of a length", above=False, words="millimetres from 0 to 100000"
)
_WALL_MM = replace(
    LENGTH_MM,
    name="wall",
    highest=1000.0,
    words="millimetres above 0 and up to 1000, such as 6",
)


@dataclass(frozen=True)
class PotShape:
    """What an outline comes to.

    Attributes
    ----------
    outside_dm2 : float
        All of the outside, foot included [dm2].
    foot_dm2 : float
        Of that, what lies below or within the standing ring [dm2].
    displaced_ml : float
        What it pushes aside when dipped to the rim with its mouth closed [ml].
    inside_dm2 : float or None
        The inside [dm2]; None without the wall.
    brim_ml : float or None
        What it holds to the brim [ml]; None without the wall.
    clay_g : float or None
        Its clay, dry at 1.85 g/cm3 [g]; None without the wall.
    """

    outside_dm2: float
    foot_dm2: float
    displaced_ml: float
    inside_dm2: float | None
    brim_ml: float | None
    clay_g: float | None


def turned_area_cm2(path: Sequence[Point]) -> float:
    """Surface that a path makes when turned about the axis [cm2]."""
    return math.fsum(
        math.pi * (r1 + r2) * math.hypot(r2 - r1, z2 - z1) for (r1, z1), (r2, z2) in pairwise(path)
    )


def turned_volume_cm3(path: Sequence[Point]) -> float:
    """Volume between a path and the axis [cm3]; what goes down counts off."""
    return math.fsum(
        math.pi / 3.0 * (z2 - z1) * (r1 * r1 + r1 * r2 + r2 * r2)
        for (r1, z1), (r2, z2) in pairwise(path)
    )


def handle_dm2(length_cm: float, girth_cm: float) -> float:
    """Surface of a handle: its length along the middle times its girth.

    Parameters
    ----------
    length_cm, girth_cm : float
        Along the handle, and around it [cm].

    Returns
    -------
    float
        Surface [dm2].

    Raises
    ------
    ShapeError
        If a length cannot be.
    """
    within(length_cm, LENGTH_CM, field="length-cm", error=ShapeError)
    within(girth_cm, LENGTH_CM, field="girth-cm", error=ShapeError)
    return length_cm * girth_cm / CM2_DM2


def _checked_path(profile_cm: Sequence[Point]) -> list[Point]:
    """Outline from the axis, with its foot disc, no point twice in a row."""
    path: list[Point] = []
    for r, z in profile_cm:
        within(r, _RADIUS_CM, field="r_cm", error=ShapeError)
        within(z, _HEIGHT_CM, field="z_cm", error=ShapeError)
        if not path:
            path.append((0.0, float(z)))
        if math.hypot(r - path[-1][0], z - path[-1][1]) < TINY_CM:
            continue
        if r < TINY_CM:
            raise ShapeError(
                "An outline comes back to the middle only at its foot, where it starts.",
                field="r_cm",
                seen=r,
                accepted="centimetres above 0 after the first point",
            )
        path.append((float(r), float(z)))
    if len(profile_cm) < FEWEST_POINTS or len(path) < FEWEST_POINTS:
        raise ShapeError(
            "An outline needs at least two points, foot to rim.",
            field="profile",
            seen=len(profile_cm),
            accepted="two points or more",
        )
    if path[-1][1] - path[0][1] < TINY_CM:
        raise ShapeError(
            f"The outline ends at {path[-1][1]:g} cm, no higher than its foot at "
            f"{path[0][1]:g} cm: give it from foot to rim.",
            field="z_cm",
            seen=path[-1][1],
            accepted=f"a rim above {path[0][1]:g} cm",
        )
    if crosses_itself(path):
        raise ShapeError(
            "The outline crosses itself: are its points in order, foot to rim?",
            field="profile",
            seen=len(profile_cm),
            accepted="points in order along the outside, foot to rim",
        )
    return path


def _foot(path: Sequence[Point]) -> list[Point]:
    """Path from the middle to the outer edge of what it stands on."""
    lowest = min(z for _, z in path)
    last = max(i for i, (_, z) in enumerate(path) if z - lowest < LEVEL_CM)
    return list(path[: last + 1])


def _to_its_highest(path: Sequence[Point]) -> list[Point]:
    """Path as far as its highest point; a lip may droop from there."""
    highest = max(range(len(path)), key=lambda i: path[i][1])
    return list(path[: highest + 1])


def _share_misread(
    measure: Callable[[Sequence[Point]], float], path: Sequence[Point], outline_mm: float
) -> float:
    """Half width of an area or a volume, as a share, from width and height misread."""
    widest = max(r for r, _ in path)
    lowest = min(z for _, z in path)
    height = max(z for _, z in path) - lowest
    step_cm = outline_mm / MM_CM
    wider = [(r * (1.0 + step_cm / widest), z) for r, z in path]
    taller = [(r, lowest + (z - lowest) * (1.0 + step_cm / height)) for r, z in path]
    base = measure(path)
    return together([measure(wider) / base - 1.0, measure(taller) / base - 1.0])


@dataclass(frozen=True)
class _Hollow:
    """Inside of a pot: area [cm2], volume to the brim and of the clay [cm3], and how."""

    area_cm2: float
    brim_cm3: float
    clay_cm3: float
    how: str


def _hollow(path: Sequence[Point], wall_mm: float) -> _Hollow:
    wall_cm = wall_mm / MM_CM
    moved = moved_in(path, wall_cm)
    level = cut_level(moved, path[-1][1], wall_cm)
    inner = moved if level is None else level
    brim_cm3 = turned_volume_cm3(_to_its_highest(inner))
    clay_cm3 = (
        turned_volume_cm3(path)
        + turned_volume_cm3([path[-1], inner[-1]])
        - turned_volume_cm3(inner)
    )
    if brim_cm3 <= 0.0 or clay_cm3 <= 0.0:
        raise ShapeError(
            f"A wall of {wall_mm:g} mm leaves no room inside this outline.",
            field="wall-mm",
            seen=wall_mm,
            accepted="a wall thinner than the pot is deep",
        )
    rim = "level" if level is not None else "square to the wall, for it lies flat"
    return _Hollow(turned_area_cm2(inner), brim_cm3, clay_cm3, f"The rim is cut {rim}.")


def pot(
    profile_cm: Sequence[Point],
    wall_mm: float | None = None,
    *,
    outline_doubt_mm: float = OUTLINE_DOUBT_MM,
    wall_doubt_mm: float = WALL_DOUBT_MM,
) -> Answer[PotShape]:
    """Area, volume and clay of a pot from its outline.

    Parameters
    ----------
    profile_cm : sequence of (r, z), shape (n, 2)
        Outside, from the foot to the rim: distance from the axis and height
        [cm]. One that starts away from the axis still has its foot disc.
    wall_mm : float, optional
        Thickness of the wall, square to the surface [mm].
    outline_doubt_mm, wall_doubt_mm : float
        Half of the 90 % interval of a length of the outline, and of the wall
        [mm].

    Returns
    -------
    Answer of PotShape
        The outside always; inside, brim and clay with the wall.

    Raises
    ------
    ShapeError
        If the outline is none, or the wall does not fit into it.

    Notes
    -----
    ``A = sum pi (r1 + r2) l`` and ``V = sum pi/3 (z2 - z1)(r1^2 + r1 r2 + r2^2)``
    over the straight pieces. The rim is cut level with the last point; a rim
    so flat that this would take three walls' width off is cut square.
    """
    path = _checked_path(profile_cm)
    within(outline_doubt_mm, _DOUBT_MM, field="outline-doubt-mm", error=ShapeError)
    within(wall_doubt_mm, _DOUBT_MM, field="wall-doubt-mm", error=ShapeError)
    outside = turned_area_cm2(path)
    foot = turned_area_cm2(_foot(path))
    displaced = turned_volume_cm3(_to_its_highest(path))
    area_share = _share_misread(turned_area_cm2, path, outline_doubt_mm)
    volume_share = _share_misread(turned_volume_cm3, _to_its_highest(path), outline_doubt_mm)
    basis = f"lengths to {outline_doubt_mm:g} mm"
    doubt = {
        "outside_dm2": around(outside / CM2_DM2, area_share * outside / CM2_DM2, basis),
        "foot_dm2": around(foot / CM2_DM2, area_share * foot / CM2_DM2, basis),
        "displaced_ml": around(displaced, volume_share * displaced, basis),
    }
    points = len(path)
    working = [
        f"{points} points; foot {foot / CM2_DM2:.2f} of {outside / CM2_DM2:.2f} dm2 outside."
    ]
    if wall_mm is None:
        return Answer(
            PotShape(outside / CM2_DM2, foot / CM2_DM2, displaced, None, None, None),
            doubt=doubt,
            working=tuple(working),
            sources=("pappus",),
        )
    within(wall_mm, _WALL_MM, field="wall-mm", error=ShapeError)
    hollow = _hollow(path, wall_mm)
    clay_g = hollow.clay_cm3 * DRY_CLAY_G_CM3
    working.append(
        f"{hollow.how} Clay {hollow.clay_cm3:.0f} cm3 x {DRY_CLAY_G_CM3:g} g/cm3 = {clay_g:.0f} g."
    )
    doubt |= _hollow_doubt(
        hollow, outside, displaced, wall_mm, (area_share, volume_share), wall_doubt_mm, basis
    )
    return Answer(
        PotShape(
            outside / CM2_DM2,
            foot / CM2_DM2,
            displaced,
            hollow.area_cm2 / CM2_DM2,
            hollow.brim_cm3,
            clay_g,
        ),
        doubt=doubt,
        working=tuple(working),
        sources=("pappus", "general"),
    )


def _hollow_doubt(
    hollow: _Hollow,
    outside_cm2: float,
    displaced_cm3: float,
    wall_mm: float,
    shares: tuple[float, float],
    wall_doubt_mm: float,
    basis: str,
) -> dict[str, Interval]:
    """Doubt of the inside: a wall misread by e moves e times the inside."""
    area_share, volume_share = shares
    wall_share = wall_doubt_mm / wall_mm
    moved_cm3 = hollow.area_cm2 * wall_doubt_mm / MM_CM
    inside = hollow.area_cm2 / CM2_DM2
    clay_g = hollow.clay_cm3 * DRY_CLAY_G_CM3
    basis = f"{basis}, wall to {wall_doubt_mm:g} mm"
    return {
        "inside_dm2": around(
            inside,
            together([area_share * inside, wall_share * (outside_cm2 - hollow.area_cm2) / CM2_DM2]),
            basis,
            lowest=0.0,
        ),
        "brim_ml": around(
            hollow.brim_cm3,
            together([volume_share * displaced_cm3, moved_cm3]),
            basis,
            lowest=0.0,
        ),
        "clay_g": around(
            clay_g,
            together(
                [
                    area_share * clay_g,
                    moved_cm3 * DRY_CLAY_G_CM3,
                    hollow.clay_cm3 * DRY_CLAY_DOUBT,
                ]
            ),
            f"{basis}, dry clay to {DRY_CLAY_DOUBT:g} g/cm3",
            lowest=0.0,
        ),
    }
