"""A few small photos, so that pages with pictures have some."""

import hashlib
import io
from datetime import datetime
from pathlib import Path

from PIL import Image

from wareboard.records.pictures.models import Original

from .book import Book

WIDTH_PX, HEIGHT_PX = 320, 240


def keep_photo(book: Book, originals: Path, number: int, at: datetime) -> Original:
    """Add a photo of one colour, its file in the folder of originals."""
    colour = tuple(book.chance.randrange(256) for _ in range(3))
    drawn = io.BytesIO()
    Image.new("RGB", (WIDTH_PX, HEIGHT_PX), colour).save(drawn, "PNG")
    sha256 = hashlib.sha256(drawn.getvalue()).hexdigest()
    originals.mkdir(mode=0o700, parents=True, exist_ok=True)
    (originals / f"{sha256}.png").write_bytes(drawn.getvalue())
    return book.entry(
        Original,
        f"photo-{number:04d}",
        at,
        sha256=sha256,
        suffix="png",
        size_bytes=len(drawn.getvalue()),
        width_px=WIDTH_PX,
        height_px=HEIGHT_PX,
        came_as=f"photo-{number}.png",
    )
