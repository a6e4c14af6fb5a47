"""The six paired tiles that settle it: bag A from the jar, bag B, and re-balanced."""

from demo.ledger import Ledger
from demo.pots import Dip, Judged, Plan, faults, keep_pot

TILE_G = 100
SOUND = (Judged("outside", "up", "not one hole"),)
OF = {"a": "bag A from the jar", "b": "bag B", "c": "bag B, re-balanced"}
HOLED = {
    "limpet": (Judged("outside", "down", "stony, pinholed", faults("stony", "pinhole")),),
    "rill": (Judged("outside", "down", "cloudy, pinholed", faults("cloudy", "pinhole")),),
}
TILES = tuple(
    Plan(
        number=30 + place,
        form="test-tile",
        dry_g=TILE_G,
        firing=5,
        level="middle",
        dips=(Dip(f"{glaze}-tub-{tile}", "outside", 0.53),),
        judged=HOLED[glaze] if tile == "b" else SOUND,
        foot_gap_mm=8,
        name=f"tile, {glaze.capitalize()}, {OF[tile]}",
        own_id=f"tile-{glaze}-{tile}",
        note="Side by side with the other two on the middle shelf.",
        scale_digits=1,
        facts={"test_piece": True},
    )
    for place, (glaze, tile) in enumerate((g, t) for g in ("limpet", "rill") for t in "abc")
)


def keep_tiles(ledger: Ledger) -> None:
    """Write the tiles."""
    for plan in TILES:
        keep_pot(ledger, plan)
