"""A pot drawn as archaeologists draw them: half of it cut through, half as it stands.

On the left the wall is cut and the coats lie on it where they were put, drawn
thicker than they are but all by the same factor, so that a thick lip is seen.
On the right the pot is seen from outside in the colour of its glaze, and bare
clay is bare. The drawing is plain SVG with classes; the style sheet gives the
clay and the ink, so it follows day and night. Only glaze colours stand in it.
"""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby, pairwise
from typing import Literal

from wareboard.core.errors import ShapeError

from .outline import Outline, Point, SkinPoint, cut_through

Extent = Literal["whole", "lip", "below the lip", "foot"]

LEAST_FACTOR = 4.0
FACTOR_PX_CM = 40.0
"""A coat is drawn ``max(LEAST_FACTOR, FACTOR_PX_CM / px_cm)`` times thicker than it is."""

UNKNOWN_COAT_MM = 0.5
"""Drawn for a coat nobody weighed [mm]; common practice for one dip."""

FOOT_GAP_MM = 4.0
"""Left bare above the foot where nobody measured it [mm]; common practice."""

LIP_CM = 2.0
"""How deep a lip or a foot is taken to be where nobody said [cm]; a guess."""

TAPER_CM = 0.35
STEP_PX = 4.0
STEP_CM = 0.15
PAD_PX = 2.0
INK_PX = 1.4
WALL_INK_PX = 0.9
GAP_PX = 16.0
SWATCH = re.compile(r"#[0-9a-fA-F]{6}")


@dataclass(frozen=True)
class CoatDrawn:
    """One coat, as it is to be drawn.

    Attributes
    ----------
    swatch : str
        Colour of the glaze, ``#rrggbb``.
    side : {'outside', 'inside', 'both'}
        Which side of the wall.
    thickness_mm : float or None
        Dry thickness [mm]; None where it was not weighed.
    extent : {'whole', 'lip', 'below the lip', 'foot'}
        How far it goes.
    depth_cm : float or None
        Depth of the lip or the foot [cm], measured upright; None where nobody said.
    """

    swatch: str
    side: Literal["outside", "inside", "both"] = "both"
    thickness_mm: float | None = None
    extent: Extent = "whole"
    depth_cm: float | None = None


def pot_drawing(
    profile_cm: Sequence[Point],
    wall_mm: float,
    coats: Sequence[CoatDrawn] = (),
    *,
    title: str,
    desc: str = "",
    px_cm: float = 4.5,
    foot_gap_mm: float | None = None,
    general: bool = False,
) -> str:
    """Draw a pot, half cut through and half as it stands.

    Parameters
    ----------
    profile_cm : sequence of (r, z)
        Outside of the pot, foot to rim [cm].
    wall_mm : float
        Thickness of the wall [mm].
    coats : sequence of CoatDrawn
        In the order they were put on.
    title, desc : str
        What the drawing shows, for who cannot see it.
    px_cm : float
        Scale [px per cm]. Pots on one board need one scale.
    foot_gap_mm : float or None
        Bare clay above the foot outside [mm]; None takes what is common.
    general : bool
        Whether the outline is a general one; it is then drawn with a broken line.

    Returns
    -------
    str
        An ``<svg>`` element whose lower edge is the pot's foot.

    Raises
    ------
    ShapeError
        If the outline or the scale cannot be drawn, or a colour is not ``#rrggbb``.
    """
    if not (math.isfinite(px_cm) and px_cm > 0):
        raise ShapeError(
            f"A scale of {px_cm:g} px per cm cannot be drawn.",
            field="px_cm",
            seen=px_cm,
            accepted="a scale above 0",
        )
    for coat in coats:
        _check(coat)
    shape = cut_through(profile_cm, wall_mm, step_cm=max(STEP_PX / px_cm, STEP_CM))
    gap_cm = (FOOT_GAP_MM if foot_gap_mm is None else foot_gap_mm) / 10.0
    layers = _layers(shape, coats, gap_cm)
    thick_cm = max((top for layer in layers for top in layer.tops_cm), default=0.0)
    factor = max(LEAST_FACTOR, FACTOR_PX_CM / px_cm)
    sheet = _Sheet(shape, px_cm, thick_cm * factor)

    inside = [p for p in shape.skin if p.side == "inside"]
    drawn = [
        sheet.area("inside", [*_below_rim(inside, shape), (0.0, shape.rim_cm)], left=True),
        *(_bloom(sheet, inside, coat, shape) for coat in coats if coat.side != "outside"),
        sheet.area("clay", [(0.0, shape.foot_cm), *shape.outer, (0.0, shape.rim_cm)], left=False),
        *(_seen(sheet, shape, coat, gap_cm) for coat in coats if coat.side != "inside"),
        *(layer.drawn(sheet, factor) for layer in layers),
        sheet.area(
            "clay wall",
            [
                (0.0, shape.foot_cm),
                (shape.outer[0][0], shape.foot_cm),
                *((p.r_cm, p.z_cm) for p in shape.skin),
            ],
            left=True,
            stroke=True,
        ),
        sheet.line("outline", [(0.0, shape.foot_cm), *shape.outer], left=False),
        sheet.rim(),
        sheet.middle(),
    ]
    kind = "pot-drawing general" if general else "pot-drawing"
    says = f"<title>{escape(title)}</title>" + (f"<desc>{escape(desc)}</desc>" if desc else "")
    w, h = f"{sheet.width:.1f}", f"{sheet.height:.1f}"
    return (
        f'<svg class="{kind}" role="img" xmlns="http://www.w3.org/2000/svg" '
        f'width="{w}" height="{h}" viewBox="0 0 {w} {h}">{says}{"".join(drawn)}</svg>'
    )


def scale_for(
    profiles_cm: Iterable[Sequence[Point]], width_px: float, *, most_px_cm: float = 4.5
) -> float:
    """Give the scale at which pots stand side by side on one board.

    Parameters
    ----------
    profiles_cm : iterable of outlines
        The pots of the board [cm].
    width_px : float
        How long the board is on the page [px].
    most_px_cm : float
        Scale not to go beyond, so that a single pot is not a giant [px per cm].

    Returns
    -------
    float
        Scale [px per cm], at least 1.
    """
    widths_cm = [2 * max(r for r, _ in profile) for profile in profiles_cm]
    if not widths_cm:
        return most_px_cm
    gaps_px = len(widths_cm) * GAP_PX
    return min(most_px_cm, max((width_px - gaps_px) / sum(widths_cm), 1.0))


def _check(coat: CoatDrawn) -> None:
    if not SWATCH.fullmatch(coat.swatch):
        raise ShapeError(
            f"The colour {coat.swatch!r} cannot be drawn.",
            field="swatch",
            seen=coat.swatch,
            accepted="#rrggbb",
        )
    if coat.thickness_mm is not None and not 0 <= coat.thickness_mm <= 50:  # noqa: PLR2004 -- a coat of 5 cm is a slip of the pen
        raise ShapeError(
            f"A coat of {coat.thickness_mm:g} mm cannot be drawn.",
            field="thickness_mm",
            seen=coat.thickness_mm,
            accepted="0 to 50 mm",
        )


def _covers(coat: CoatDrawn, shape: Outline, z_cm: float, gap_cm: float | None) -> bool:
    """Say whether a coat reaches a height; a gap is left only where one is given."""
    depth = LIP_CM if coat.depth_cm is None else coat.depth_cm
    if coat.extent == "foot":
        return z_cm <= shape.foot_cm + depth
    if gap_cm is not None and z_cm < shape.foot_cm + gap_cm:
        return False
    if coat.extent == "lip":
        return z_cm >= shape.rim_cm - depth
    if coat.extent == "below the lip":
        return z_cm < shape.rim_cm - depth
    return True


@dataclass(frozen=True)
class _Layer:
    """A stretch of one coat: the skin it lies on, and how high below and above it."""

    swatch: str
    skin: tuple[SkinPoint, ...]
    bases_cm: tuple[float, ...]
    tops_cm: tuple[float, ...]

    def drawn(self, sheet: "_Sheet", factor: float) -> str:
        """Draw the stretch, all of it thicker by one factor."""
        under = [p.raised(b * factor) for p, b in zip(self.skin, self.bases_cm, strict=True)]
        over = [p.raised(t * factor) for p, t in zip(self.skin, self.tops_cm, strict=True)]
        return sheet.area("coat", [*under, *reversed(over)], left=True, fill=self.swatch)


def _layers(shape: Outline, coats: Iterable[CoatDrawn], gap_cm: float) -> list[_Layer]:
    """Lay the coats on the skin one over the other."""
    lies = [0.0] * len(shape.skin)
    layers = []
    for coat in coats:
        thick = (UNKNOWN_COAT_MM if coat.thickness_mm is None else coat.thickness_mm) / 10.0
        under = [
            coat.side in (p.side, "both")
            and _covers(coat, shape, p.z_cm, gap_cm if p.side == "outside" else None)
            for p in shape.skin
        ]
        for covered, run in groupby(range(len(lies)), key=under.__getitem__):
            if not covered:
                continue
            stretch = list(run)
            grown = [thick * part for part in _tapered(shape.skin, stretch)]
            bases = tuple(lies[i] for i in stretch)
            tops = tuple(base + more for base, more in zip(bases, grown, strict=True))
            layers.append(_Layer(coat.swatch, tuple(shape.skin[i] for i in stretch), bases, tops))
            for i, top in zip(stretch, tops, strict=True):
                lies[i] = top
    return layers


def _tapered(skin: Sequence[SkinPoint], stretch: list[int]) -> list[float]:
    """Let a stretch of coat run out at its ends, but not at the foot or the middle of the floor."""
    way = [0.0]
    for i, j in pairwise(stretch):
        way.append(way[-1] + math.dist((skin[i].r_cm, skin[i].z_cm), (skin[j].r_cm, skin[j].z_cm)))
    starts_open = stretch[0] > 0
    ends_open = stretch[-1] < len(skin) - 1
    return [
        min(
            1.0,
            at / TAPER_CM if starts_open else 1.0,
            (way[-1] - at) / TAPER_CM if ends_open else 1.0,
        )
        for at in way
    ]


def _seen(sheet: "_Sheet", shape: Outline, coat: CoatDrawn, gap_cm: float) -> str:
    """Colour the right half where the coat is seen from outside."""
    outer = _finely(shape.outer)
    under = [_covers(coat, shape, z, gap_cm) for _, z in outer]
    drawn = []
    for covered, run in groupby(range(len(outer)), key=under.__getitem__):
        stretch = [outer[i] for i in run]
        if covered and len(stretch) > 1:
            band = [(0.0, stretch[0][1]), *stretch, (0.0, stretch[-1][1])]
            drawn.append(sheet.area("glaze", band, left=False, fill=coat.swatch))
    return "".join(drawn)


def _bloom(sheet: "_Sheet", inside: list[SkinPoint], coat: CoatDrawn, shape: Outline) -> str:
    """Tint the hollow on the left with the glaze that is seen inside."""
    reached = [p for p in inside if _covers(coat, shape, p.z_cm, None)]
    if len(reached) < 2:  # noqa: PLR2004 -- an area needs two points beside the middle
        return ""
    seen = _below_rim(reached, shape)
    ends = [(0.0, seen[-1][1]), (0.0, seen[0][1])]
    return sheet.area("bloom", [*seen, *ends], left=True, fill=coat.swatch)


def _below_rim(skin: Iterable[SkinPoint], shape: Outline) -> list[Point]:
    return [(p.r_cm, min(p.z_cm, shape.rim_cm)) for p in skin]


def _finely(line: Sequence[Point]) -> list[Point]:
    """Put three points into each stretch, so that a glaze line falls where it should."""
    fine = [line[0]]
    for (r0, z0), (r1, z1) in pairwise(line):
        fine += [(r0 + (r1 - r0) * k / 4, z0 + (z1 - z0) * k / 4) for k in range(1, 5)]
    return fine


class _Sheet:
    """The paper: turns centimetres into pixels, the middle of the pot into its middle."""

    def __init__(self, shape: Outline, px_cm: float, thick_cm: float) -> None:
        self.px_cm = px_cm
        self.shape = shape
        widest = max(r for r, _ in shape.outer)
        highest = max(*(z for _, z in shape.outer), *(p.z_cm for p in shape.skin))
        self.middle_px = (widest + thick_cm) * px_cm + PAD_PX
        self.width = 2 * self.middle_px
        self.height = (highest + thick_cm - shape.foot_cm) * px_cm + PAD_PX + INK_PX / 2

    def at(self, point: Point, *, left: bool) -> str:
        """Give a point in pixels."""
        r, z = point
        x = self.middle_px + (-r if left else r) * self.px_cm
        y = self.height - INK_PX / 2 - (z - self.shape.foot_cm) * self.px_cm
        return f"{x:.1f},{y:.1f}"

    def area(
        self,
        kind: str,
        points: Iterable[Point],
        *,
        left: bool,
        fill: str = "",
        stroke: bool = False,
    ) -> str:
        """Draw a closed area."""
        way = "L".join(self.at(p, left=left) for p in points)
        colour = f' fill="{fill}"' if fill else ""
        pen = f' stroke-width="{WALL_INK_PX}"' if stroke else ""
        return f'<path class="{kind}"{colour}{pen} d="M{way}Z"/>'

    def line(self, kind: str, points: Iterable[Point], *, left: bool) -> str:
        """Draw an open line."""
        way = "L".join(self.at(p, left=left) for p in points)
        return f'<path class="{kind}" stroke-width="{INK_PX}" d="M{way}"/>'

    def rim(self) -> str:
        """Draw the mouth: one line from rim to rim."""
        rim = (self.shape.outer[-1][0], self.shape.rim_cm)
        edge = next((p.r_cm for p in self.shape.skin if p.side == "inside"), rim[0])
        ends = self.at((edge, self.shape.rim_cm), left=True), self.at(rim, left=False)
        return f'<path class="lip" stroke-width="1" d="M{ends[0]}L{ends[1]}"/>'

    def middle(self) -> str:
        """Draw the line where the cut half meets the seen half."""
        ends = (
            self.at((0.0, self.shape.foot_cm), left=True),
            self.at((0.0, self.shape.rim_cm), left=True),
        )
        return f'<path class="middle" stroke-width=".8" d="M{ends[0]}L{ends[1]}"/>'
