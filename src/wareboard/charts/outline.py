"""The outline of a pot, made ready for drawing: a smooth outside, an even wall, a skin for glaze.

A potter gives a handful of points from foot to rim. Between them the line is
drawn as a hand would, round where it is round and sharp where it turns sharply,
and the wall is laid off square to it. Lengths here are centimetres: r from the
middle, z above the foot.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from wareboard.core.errors import ShapeError

Point = tuple[float, float]
Side = Literal["outside", "inside"]

SHARP_DEG = 50.0
RIM_STEPS = 6
RIM_BULGE = 0.15
MOST_STEPS = 24
NEAR = 16


@dataclass(frozen=True)
class SkinPoint:
    """A point of the surface that glaze can lie on.

    Attributes
    ----------
    r_cm, z_cm : float
        Where it is [cm].
    out_r, out_z : float
        Which way is away from the clay (a vector of length one).
    side : {'outside', 'inside'}
        Which side of the wall; the rim is shared half and half.
    """

    r_cm: float
    z_cm: float
    out_r: float
    out_z: float
    side: Side

    def raised(self, by_cm: float) -> Point:
        """Give the point that lies so far above the clay."""
        return max(self.r_cm + by_cm * self.out_r, 0.0), self.z_cm + by_cm * self.out_z


@dataclass(frozen=True)
class Outline:
    """A pot cut through its middle.

    Attributes
    ----------
    outer : tuple of (r, z)
        Outside, foot to rim [cm].
    skin : tuple of SkinPoint
        Outside from the foot over the rim and down inside to the middle of the floor.
    foot_cm, rim_cm : float
        Lowest height of the foot and height of the rim [cm].
    """

    outer: tuple[Point, ...]
    skin: tuple[SkinPoint, ...]
    foot_cm: float
    rim_cm: float


def cut_through(profile_cm: Sequence[Point], wall_mm: float, *, step_cm: float = 0.3) -> Outline:
    """Make a pot's outline ready for drawing.

    Parameters
    ----------
    profile_cm : sequence of (r, z)
        Outside of the pot, foot to rim [cm].
    wall_mm : float
        Thickness of the wall, square to the surface [mm].
    step_cm : float
        About how far apart the points of the drawn line lie [cm].

    Returns
    -------
    Outline
        Its outside and its skin.

    Raises
    ------
    ShapeError
        If there are fewer than two points, a radius is negative, a number is
        not finite, the pot has no height or no width, or the wall is not
        thicker than nothing.
    """
    points = _checked(profile_cm)
    if not (math.isfinite(wall_mm) and wall_mm > 0):
        raise ShapeError(
            f"A wall of {wall_mm:g} mm cannot be drawn: it must be thicker than nothing.",
            field="wall_mm",
            seen=wall_mm,
            accepted="a thickness above 0 mm",
        )
    foot = min(z for _, z in points)
    outer = _smooth(points, step_cm)
    wall = min(wall_mm / 10.0, max(r for r, _ in points), (points[-1][1] - foot) or math.inf)
    inner = _filled(_inner(outer, wall, foot + wall), step_cm)
    rim = _rim(outer[-1], inner[0], wall)
    path = [*outer, *rim, *inner]
    out = _normals(path)
    middle = len(outer) + len(rim) // 2
    skin = tuple(
        SkinPoint(r, z, nr, nz, "outside" if i < middle else "inside")
        for i, ((r, z), (nr, nz)) in enumerate(zip(path, out, strict=True))
    )
    return Outline(tuple(outer), skin, foot, points[-1][1])


def _checked(profile_cm: Sequence[Point]) -> list[Point]:
    points = [(float(r), float(z)) for r, z in profile_cm]
    if any(not (math.isfinite(r) and math.isfinite(z)) or r < 0 for r, z in points):
        raise ShapeError(
            "An outline has a point that is not a length, or lies beyond the middle.",
            field="profile_cm",
            seen=points,
            accepted="finite numbers, no negative radius",
        )
    points = [p for i, p in enumerate(points) if i == 0 or p != points[i - 1]]
    if len(points) < 2 or all(r == 0 for r, _ in points):  # noqa: PLR2004 -- a line has two ends
        raise ShapeError(
            "An outline needs at least two points, foot and rim, and some width.",
            field="profile_cm",
            seen=points,
            accepted="two points or more, foot to rim",
        )
    if points[-1][1] <= min(z for _, z in points):
        raise ShapeError(
            "An outline runs from foot to rim: its last point must stand above its lowest.",
            field="profile_cm",
            seen=points,
            accepted="points from foot to rim",
        )
    return points


def _smooth(points: list[Point], step_cm: float) -> list[Point]:
    """Draw a line through the points: round, but sharp where it turns sharply."""
    sharp = [True, *(_turn_deg(*abc) > SHARP_DEG for abc in _threes(points)), True]
    low = min(z for _, z in points)
    line = [points[0]]
    for i, (b, c) in enumerate(pairwise(points)):
        a = _mirrored(c, b) if sharp[i] else points[i - 1]
        d = _mirrored(b, c) if sharp[i + 1] else points[i + 2]
        steps = _steps(b, c, step_cm)
        for k in range(1, steps + 1):
            r, z = _between(a, b, c, d, k / steps)
            line.append((max(r, 0.0), max(z, low)))
    return line


def _steps(a: Point, b: Point, step_cm: float) -> int:
    return min(max(round(math.dist(a, b) / step_cm), 1), MOST_STEPS)


def _filled(line: list[Point], step_cm: float) -> list[Point]:
    """Put points into the long straight stretches of a line."""
    filled = line[:1]
    for a, b in pairwise(line):
        steps = _steps(a, b, step_cm)
        filled += [
            (max(a[0] + (b[0] - a[0]) * k / steps, 0.0), a[1] + (b[1] - a[1]) * k / steps)
            for k in range(1, steps + 1)
        ]
    return filled


def _threes(points: list[Point]) -> list[tuple[Point, Point, Point]]:
    return list(zip(points, points[1:], points[2:], strict=False))


def _turn_deg(a: Point, b: Point, c: Point) -> float:
    before = math.atan2(b[1] - a[1], b[0] - a[0])
    after = math.atan2(c[1] - b[1], c[0] - b[0])
    return abs(math.degrees(math.remainder(after - before, math.tau)))


def _mirrored(p: Point, about: Point) -> Point:
    return 2 * about[0] - p[0], 2 * about[1] - p[1]


def _between(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    """Give a point of the centripetal Catmull-Rom curve from b to c (t from 0 to 1)."""
    ab, bc, cd = (math.sqrt(math.dist(p, q)) for p, q in ((a, b), (b, c), (c, d)))

    def slope(p: Point, q: Point, s: Point, first: float, last: float, i: int) -> float:
        return bc * ((q[i] - p[i]) / first - (s[i] - p[i]) / (first + last) + (s[i] - q[i]) / last)

    def at(i: int) -> float:
        m1, m2 = slope(a, b, c, ab, bc, i), slope(b, c, d, bc, cd, i)
        u = 1 - t
        return (
            (1 + 2 * t) * u * u * b[i]
            + t * u * u * m1
            + t * t * (3 - 2 * t) * c[i]
            - t * t * u * m2
        )

    return at(0), at(1)


def _normals(path: Sequence[Point]) -> list[Point]:
    """Give, at each point, the direction to the right of the way along the path."""
    steps = [_unit(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(path)]
    found = []
    for before, after in zip([steps[0], *steps], [*steps, steps[-1]], strict=True):
        ahead_r, ahead_z = _unit(before[0] + after[0], before[1] + after[1])
        found.append((ahead_z, -ahead_r))
    return found


def _unit(r: float, z: float) -> Point:
    length = math.hypot(r, z)
    return (r / length, z / length) if length else (0.0, 0.0)


def _rim(outside: Point, inside: Point, wall: float) -> list[Point]:
    """Round the rim off, between its outside and its inside edge."""
    mid_r, mid_z = (outside[0] + inside[0]) / 2, (outside[1] + inside[1]) / 2
    rim = []
    for k in range(1, RIM_STEPS):
        angle = math.pi * k / RIM_STEPS
        across = math.cos(angle)
        rim.append(
            (
                mid_r + (outside[0] - mid_r) * across,
                mid_z + (outside[1] - mid_z) * across + math.sin(angle) * wall * RIM_BULGE,
            )
        )
    return rim


def _inner(outer: list[Point], wall: float, floor: float) -> list[Point]:
    """Lay the wall off square to the outside, rim to the middle of the floor."""
    shifted = [
        (p[0] - n[0] * wall, p[1] - n[1] * wall)
        for p, n in zip(outer, _normals(outer), strict=True)
    ]
    rim = outer[-1][1]
    inner: list[Point] = []
    for i in range(len(outer) - 1, -1, -1):
        r, z = shifted[i]
        near = outer[max(i - NEAR, 0) : i + NEAR + 1]
        if r < 0 or any(math.dist((r, z), q) < 0.98 * wall for q in near):
            continue
        if z < floor:
            if inner:
                inner.append(_at_height(inner[-1], (r, z), floor))
            break
        inner.append((r, z))
    inner = _level(inner, rim) if len(inner) > 1 else [(0.0, min(floor, rim))]
    return [*inner, (0.0, inner[-1][1])] if inner[-1][0] > 0 else inner


def _level(inner: list[Point], rim: float) -> list[Point]:
    """Start the inside at the height of the rim: cut what stands over it, fill what lacks."""
    below = next((i for i, (_, z) in enumerate(inner) if z < rim), len(inner) - 1)
    if below:
        return [_at_height(inner[below - 1], inner[below], rim), *inner[below:]]
    return [(inner[0][0], rim), *inner]


def _at_height(above: Point, under: Point, z_cm: float) -> Point:
    """Give the point of a stretch at a height."""
    drop = above[1] - under[1]
    part = (above[1] - z_cm) / drop if drop else 0.0
    return above[0] + (under[0] - above[0]) * part, z_cm
