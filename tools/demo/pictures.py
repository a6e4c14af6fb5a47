"""Invented pictures of the demo: a pot or a shelf in plain colours on a plain ground.

They are drawn at twice their size and brought down, and kept without loss. A
picture that is in the folder already stays as it is while the drawing is the
same to the eye, so that another version of the drawing library changes nothing.
"""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageStat

from demo.forms import SHAPES

Colour = tuple[int, int, int]

TWICE = 2
# The wall as each day's light has it, from the first firing to the last.
WALLS: tuple[Colour, ...] = (
    (224, 218, 206),
    (221, 216, 208),
    (214, 210, 203),
    (219, 211, 199),
    (206, 206, 204),
)
TABLE: Colour = (176, 160, 138)
CLAY: Colour = (201, 170, 128)
HOLE: Colour = (52, 46, 40)
BANDS = 24
ALIKE_LEVELS = 2.0
"""Pictures that differ by less than this on the average are the same [levels of 255]."""


@dataclass(frozen=True)
class Sitter:
    """What is to be seen of a pot."""

    form: str
    swatch: str
    foot_gap_mm: float = 6.0
    holes: int = 0
    ran: bool = False
    burst: bool = False


@dataclass(frozen=True)
class Drawn:
    """A picture as a file."""

    came_as: str
    content: bytes
    width_px: int
    height_px: int

    @property
    def sha256(self) -> str:
        """Hash of its bytes."""
        return hashlib.sha256(self.content).hexdigest()


def draw_row(
    name: str, sitters: Sequence[Sitter], *, firing: int, width_px: int, height_px: int
) -> Drawn:
    """Draw pots side by side on a table or a shelf, in the light of a firing's opening."""
    image = Image.new("RGB", (width_px * TWICE, height_px * TWICE), WALLS[firing - 1])
    pen = ImageDraw.Draw(image)
    ground = int(image.height * 0.84)
    pen.rectangle((0, ground, image.width, image.height), fill=TABLE)
    widest = sum(2.4 * max(r for r, _ in SHAPES[s.form].outline) for s in sitters)
    tallest = max(SHAPES[s.form].outline[-1][1] for s in sitters)
    scale = min(image.width * 0.94 / widest, ground * 0.86 / tallest)
    free = image.width - widest * scale
    x = free / 2
    for sitter in sitters:
        half = 1.2 * max(r for r, _ in SHAPES[sitter.form].outline) * scale
        _draw_pot(image, sitter, (x + half, ground + 0.02 * image.height), scale, Random(name))
        x += 2 * half
    small = image.reduce(TWICE)
    file = BytesIO()
    small.save(file, "PNG", optimize=True)
    return Drawn(name, file.getvalue(), small.width, small.height)


def _draw_pot(
    image: Image.Image, sitter: Sitter, foot: tuple[float, float], scale: float, random: Random
) -> None:
    outline = SHAPES[sitter.form].outline
    x, y = foot
    if sitter.burst:
        _draw_shards(image, foot, scale, random)
        return
    right = [(x + r * scale, y - z * scale) for r, z in outline]
    left = [(2 * x - px, py) for px, py in reversed(right)]
    mask = Image.new("L", image.size, 0)
    ImageDraw.Draw(mask).polygon(right + left, fill=255)
    line = y if sitter.ran else y - sitter.foot_gap_mm / 10 * scale
    widest = max(r for r, _ in outline) * scale
    image.paste(_shaded(image.size, x, widest, line, _colour(sitter.swatch)), mask=mask)
    pen = ImageDraw.Draw(image)
    if sitter.ran:
        pen.ellipse((x - 1.25 * outline[0][0] * scale, y - 0.35 * scale,
                     x + 1.25 * outline[0][0] * scale, y + 0.35 * scale),
                    fill=_colour(sitter.swatch))  # fmt: skip
    top = y - outline[-1][1] * scale
    for _ in range(sitter.holes):
        hx = x + random.uniform(-0.75, 0.75) * widest
        hy = random.uniform(top, line)
        if mask.getpixel((int(hx), int(hy))):
            pen.ellipse((hx - 2, hy - 2, hx + 2, hy + 2), fill=HOLE)


def _shaded(
    size: tuple[int, int], x: float, widest: float, line: float, glaze: Colour
) -> Image.Image:
    """Fill with the glaze above the line and clay below, light from the left in bands."""
    filling = Image.new("RGB", size, CLAY)
    pen = ImageDraw.Draw(filling)
    for band in range(BANDS):
        left = x - widest + 2 * widest * band / BANDS
        right = x - widest + 2 * widest * (band + 1) / BANDS
        light = 112 - abs(3 * band - BANDS) * 38 // BANDS
        for (top, bottom), colour in (((0, line), glaze), ((line, size[1]), CLAY)):
            shade = tuple(min(255, part * light // 100) for part in colour)
            pen.rectangle((left, top, right, bottom), fill=shade)
    return filling


def _draw_shards(
    image: Image.Image, foot: tuple[float, float], scale: float, random: Random
) -> None:
    pen = ImageDraw.Draw(image)
    for _ in range(22):
        x = foot[0] + random.uniform(-9, 9) * scale
        y = foot[1] - random.uniform(0, 1.6) * scale
        corners = [
            (x + random.uniform(-1.6, 1.6) * scale, y + random.uniform(-0.7, 0.7) * scale)
            for _ in range(4)
        ]
        pen.polygon(corners, fill=random.choice((CLAY, _colour("#c07f4b"))))


def _colour(swatch: str) -> Colour:
    return int(swatch[1:3], 16), int(swatch[3:5], 16), int(swatch[5:7], 16)


def as_kept(drawn: Drawn, kept: Path | None) -> Drawn:
    """Give the picture that is kept already, if it looks the same."""
    if kept is None or not kept.exists():
        return drawn
    content = kept.read_bytes()
    with Image.open(BytesIO(content)) as old, Image.open(BytesIO(drawn.content)) as new:
        if old.size != new.size:
            return drawn
        unlike = ImageStat.Stat(ImageChops.difference(old.convert("RGB"), new.convert("RGB")))
    if max(unlike.mean) > ALIKE_LEVELS:
        return drawn
    return Drawn(drawn.came_as, content, drawn.width_px, drawn.height_px)
