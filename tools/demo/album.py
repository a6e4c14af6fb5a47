"""Which pictures the demo has, and what they are pictures of."""

from datetime import timedelta
from pathlib import Path
from random import Random

from demo.buckets import BUCKETS
from demo.company import others_of
from demo.eighteen import EIGHTEEN
from demo.firings import LEVELS
from demo.glazes import GLAZES
from demo.ledger import Ledger, when
from demo.pictures import Drawn, Sitter, as_kept, draw_row
from demo.pots import LOAD_DAYS, Plan
from demo.tiles import TILES
from wareboard.records.keeping.tables import KEPT
from wareboard.records.pictures.models import Original

PICTURES = next(kept.name for kept in KEPT if kept.model is Original)
POT_PX = (320, 280)
SHELF_PX = (560, 150)
SWATCH = {glaze: swatch for glaze, _, swatch, *_ in GLAZES}
GLAZE_OF = {bucket: glaze for bucket, glaze, *_ in BUCKETS}
PALE_ROSEHIP = "#b59a92"
SHOWN = (1, 5, 8, 10, 11, 13, 14, 15, 18)
SHELVES_OF = (1, 4)
HOLED = frozenset({"pot-09", "pot-10", "pot-11", "pot-13", "tile-limpet-b", "tile-rill-b"})


def keep_album(ledger: Ledger, kept: dict[str, Path]) -> list[Drawn]:
    """Write the rows of all pictures; gives the pictures themselves.

    Parameters
    ----------
    ledger : Ledger
        With the pots and firings written.
    kept : dict of str to Path
        Pictures that are in the folder already, by the name they came with.
    """
    album = []
    for plan in EIGHTEEN:
        if plan.number in SHOWN:
            name = f"{plan.pot}.png"
            picture = _draw(name, [_sitter(plan)], plan.firing, POT_PX)
            album.append(_keep(ledger, picture, kept, plan.firing, plan.number))
            _attach(ledger, name, plan)
    for firing in SHELVES_OF:
        for level in LEVELS:
            name = f"firing-{firing}-{level}.png"
            sitters = _on_shelf(firing, level)
            picture = _draw(name, sitters, firing, SHELF_PX)
            album.append(_keep(ledger, picture, kept, firing, 0))
            at = when(LOAD_DAYS[firing].opened) - timedelta(minutes=25)
            ledger.entry(
                "shelf_photos",
                f"firing-{firing}-{level}",
                at,
                firing=f"firing-{firing}",
                level=level,
                original=_original(name),
            )
    name = "tiles-limpet.png"
    limpet = [plan for plan in TILES if plan.pot.startswith("tile-limpet")]
    sitters = [_sitter(plan) for plan in limpet]
    picture = _draw(name, sitters, 5, POT_PX)
    album.append(_keep(ledger, picture, kept, 5, 0))
    for plan in limpet:
        _attach(ledger, name, plan)
    return album


def _draw(name: str, sitters: list[Sitter], firing: int, size_px: tuple[int, int]) -> Drawn:
    width_px, height_px = size_px
    return draw_row(name, sitters, firing=firing, width_px=width_px, height_px=height_px)


def _original(name: str) -> str:
    return f"photo-{name.removesuffix('.png')}"


def _keep(ledger: Ledger, picture: Drawn, kept: dict[str, Path], firing: int, number: int) -> Drawn:
    picture = as_kept(picture, kept.get(picture.came_as))
    at = when(LOAD_DAYS[firing].opened) + timedelta(minutes=5 + number)
    ledger.entry(
        PICTURES,
        _original(picture.came_as),
        at,
        sha256=picture.sha256,
        kind="photo",
        suffix="png",
        size_bytes=len(picture.content),
        width_px=picture.width_px,
        height_px=picture.height_px,
        came_as=picture.came_as,
    )
    return picture


def _attach(ledger: Ledger, name: str, plan: Plan) -> None:
    at = when(LOAD_DAYS[plan.firing].opened) + timedelta(minutes=40 + plan.number)
    ledger.entry("pot_photos", f"{plan.pot}-photo", at, pot=plan.pot, original=_original(name))


def _sitter(plan: Plan) -> Sitter:
    glaze = GLAZE_OF[plan.dips[-1].bucket]
    words = {fault["word"] for verdict in plan.judged for fault in verdict.faults}
    return Sitter(
        plan.form,
        PALE_ROSEHIP if "pale" in words else SWATCH[glaze],
        plan.foot_gap_mm or 0.0,
        holes=45 if plan.pot in HOLED else 0,
        ran="run" in words,
        burst="burst" in words,
    )


def _on_shelf(firing: int, level: str) -> list[Sitter]:
    random = Random(f"{firing} {level}")
    told = [_sitter(plan) for plan in EIGHTEEN if (plan.firing, plan.level) == (firing, level)]
    swatches = [SWATCH[glaze] for glaze in ("rill", "samphire", "limpet", "rowan")]
    others = [
        Sitter(other.form, random.choice(swatches))
        for other in others_of(firing)
        if other.level == level
    ]
    row = told + others
    random.shuffle(row)
    return row
