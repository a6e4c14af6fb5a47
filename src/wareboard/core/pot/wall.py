"""The inside of a pot from its outside: the outline moved in by the wall.

The wall is measured square to the surface. Each straight piece of the outline
moves inwards by the wall; where two pieces meet, the moved pieces meet. A
piece that is too short for the wall, as at a rounded foot or a foot ring,
shrinks to nothing on the way and its neighbours meet instead: a foot ring is
full of clay.

Sources
-------
Plane geometry.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from wareboard.core.errors import ShapeError

Point = tuple[float, float]

NEAR = 1e-12
"""Below this a turn is no turn, and a length no length."""

RIM_WALLS = 3.0
"""A rim is cut level if that takes no more than so many walls off or on."""


@dataclass(frozen=True)
class _Piece:
    """A straight piece of outline: where it ends, and its direction."""

    end: Point
    dr: float
    dz: float

    def inward(self) -> Point:
        """Direction square to the piece, to its left."""
        return -self.dz, self.dr

    def level(self) -> float:
        """How far along its inward direction the piece lies."""
        nr, nz = self.inward()
        return nr * self.end[0] + nz * self.end[1]


@dataclass(frozen=True)
class _Corner:
    """A corner that moves straight as the wall grows: place and movement."""

    place: Point
    move: Point

    def at(self, wall: float) -> Point:
        """Where the corner is once the wall is so thick."""
        return self.place[0] + wall * self.move[0], self.place[1] + wall * self.move[1]


def _does_not_fit(wall_cm: float) -> ShapeError:
    return ShapeError(
        f"A wall of {10.0 * wall_cm:g} mm does not fit into this outline.",
        field="wall-mm",
        seen=10.0 * wall_cm,
        accepted="a wall thinner than half of the narrowest place",
    )


def _pieces(path: Sequence[Point]) -> list[_Piece]:
    pieces = []
    for (r1, z1), (r2, z2) in pairwise(path):
        length = math.hypot(r2 - r1, z2 - z1)
        pieces.append(_Piece((r2, z2), (r2 - r1) / length, (z2 - z1) / length))
    return pieces


def _meet(one: _Piece, two: _Piece, wall_cm: float) -> _Corner:
    """Corner of two pieces, and how it moves for each unit of wall."""
    turn = one.dr * two.dz - one.dz * two.dr
    n1r, n1z = one.inward()
    if abs(turn) < NEAR:
        if one.dr * two.dr + one.dz * two.dz < 0.0 or abs(one.level() - two.level()) > NEAR**0.5:
            raise _does_not_fit(wall_cm)
        return _Corner(one.end, (n1r, n1z))
    n2r, n2z = two.inward()
    c1, c2 = one.level(), two.level()
    return _Corner(
        ((c1 * n2z - c2 * n1z) / turn, (n1r * c2 - n2r * c1) / turn),
        ((n2z - n1z) / turn, (n1r - n2r) / turn),
    )


def _corners(pieces: Sequence[_Piece], wall_cm: float) -> list[_Corner]:
    first, last = pieces[0], pieces[-1]
    if first.dr < NEAR:
        raise _does_not_fit(wall_cm)
    return [
        _Corner((0.0, first.level() / first.dr), (0.0, 1.0 / first.dr)),
        *(_meet(one, two, wall_cm) for one, two in pairwise(pieces)),
        _Corner(last.end, last.inward()),
    ]


def _along(piece: _Piece, start: Point, end: Point) -> float:
    return (end[0] - start[0]) * piece.dr + (end[1] - start[1]) * piece.dz


def _first_gone(pieces: Sequence[_Piece], corners: Sequence[_Corner], wall_cm: float) -> int | None:
    """Which piece shrinks to nothing first, if one does before the wall is there."""
    gone: list[tuple[float, int]] = []
    for i, piece in enumerate(pieces):
        there = _along(piece, corners[i].at(wall_cm), corners[i + 1].at(wall_cm))
        if there < 0.0:
            here = _along(piece, corners[i].place, corners[i + 1].place)
            gone.append((wall_cm * here / (here - there), i))
    return min(gone)[1] if gone else None


def _crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    def side(p: Point, q: Point, x: Point) -> float:
        return (q[0] - p[0]) * (x[1] - p[1]) - (q[1] - p[1]) * (x[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0


def crosses_itself(path: Sequence[Point]) -> bool:
    """Tell whether two pieces of a path cross each other."""
    edges = list(pairwise(path))
    return any(_crosses(a, b, c, d) for i, (a, b) in enumerate(edges) for c, d in edges[i + 2 :])


def moved_in(path: Sequence[Point], wall_cm: float) -> list[Point]:
    """Move an outline in by the wall.

    Parameters
    ----------
    path : sequence of (r, z)
        Outside from the middle of the foot to the rim, no point twice [cm].
    wall_cm : float
        Thickness of the wall, square to the surface [cm].

    Returns
    -------
    list of (r, z)
        Inside from the middle of the floor to the end of the wall [cm].

    Raises
    ------
    ShapeError
        If the wall does not fit into the outline.
    """
    pieces = _pieces(path)
    corners = _corners(pieces, wall_cm)
    while (gone := _first_gone(pieces, corners, wall_cm)) is not None:
        del pieces[gone]
        if not pieces:
            raise _does_not_fit(wall_cm)
        corners = _corners(pieces, wall_cm)
    inner = [corner.at(wall_cm) for corner in corners]
    if any(r <= 0.0 for r, _ in inner[1:]):
        raise _does_not_fit(wall_cm)
    if crosses_itself(inner):
        raise _does_not_fit(wall_cm)
    return inner


def _length(a: Point, b: Point) -> float:
    return math.hypot(b[0] - a[0], b[1] - a[1])


def _at_height(a: Point, b: Point, height: float) -> Point:
    return a[0] + (b[0] - a[0]) * (height - a[1]) / (b[1] - a[1]), height


def cut_level(inner: Sequence[Point], rim_cm: float, wall_cm: float) -> list[Point] | None:
    """End the inside at the height of the rim.

    Parameters
    ----------
    inner : sequence of (r, z)
        Inside as :func:`moved_in` gives it [cm].
    rim_cm : float
        Height of the rim [cm].
    wall_cm : float
        Thickness of the wall [cm].

    Returns
    -------
    list of (r, z) or None
        The inside, cut or carried on to the rim's height; None where the rim
        lies so flat that it has to be cut square to the wall.
    """
    kept = list(inner)
    most = RIM_WALLS * wall_cm
    if kept[-1][1] < rim_cm:
        if kept[-1][1] <= kept[-2][1]:
            return None
        end = _at_height(kept[-2], kept[-1], rim_cm)
        if end[0] <= 0.0 or _length(kept[-1], end) > most:
            return None
        return [*kept[:-1], end]
    taken = 0.0
    while len(kept) > 1 and kept[-2][1] > rim_cm:
        taken += _length(kept[-2], kept[-1])
        kept.pop()
    if len(kept) == 1:
        return None
    if kept[-1][1] > rim_cm:
        end = _at_height(kept[-2], kept[-1], rim_cm)
        taken += _length(kept[-1], end)
        kept[-1] = end
    return kept if taken <= most else None
