"""The whole demo in the order of the craft, and its folder."""

import tempfile
from pathlib import Path

from demo.album import keep_album
from demo.asides import keep_asides, keep_in_the_making
from demo.buckets import keep_buckets
from demo.company import keep_company
from demo.eighteen import keep_eighteen
from demo.firings import keep_firings, keep_kiln, keep_loads
from demo.forms import keep_forms
from demo.glazes import keep_glazes
from demo.ledger import POTTER, Ledger
from demo.pictures import Drawn
from demo.stores import keep_stores
from demo.tiles import keep_tiles
from wareboard import __version__
from wareboard.exchange.record_folder import Original, write_record_folder
from wareboard.records.keeping.tables import specs

STUDIO = "Culverhythe Pottery"


def tell(kept: dict[str, Path]) -> tuple[Ledger, list[Drawn]]:
    """Build every row of the demo, and its pictures.

    Parameters
    ----------
    kept : dict of str to Path
        Pictures that are drawn already, by the name they came with.
    """
    ledger = Ledger()
    ledger.add("studio", "culverhythe", name=STUDIO, currency="£", time_zone="Europe/London")
    ledger.add("members", POTTER, name="the potter", role="owner")
    keep_stores(ledger)
    keep_glazes(ledger)
    keep_buckets(ledger)
    keep_forms(ledger)
    keep_kiln(ledger)
    keep_loads(ledger)
    keep_eighteen(ledger)
    keep_company(ledger)
    keep_tiles(ledger)
    keep_firings(ledger)
    keep_in_the_making(ledger)
    keep_asides(ledger)
    return ledger, keep_album(ledger, kept)


def write(out: Path, *, kept: dict[str, Path]) -> dict[str, int]:
    """Write the demo as a record folder; gives the number of rows by table."""
    ledger, album = tell(kept)
    with tempfile.TemporaryDirectory() as drawn:
        originals = []
        for picture in album:
            file = Path(drawn) / f"{picture.sha256}.png"
            file.write_bytes(picture.content)
            originals.append(Original(picture.sha256, "png", file))
        write_record_folder(
            out,
            specs(),
            ledger.rows,
            originals,
            studio_title=STUDIO,
            program_version=__version__,
            overwrite=True,
        )
    return {table: len(rows) for table, rows in ledger.rows.items()}
