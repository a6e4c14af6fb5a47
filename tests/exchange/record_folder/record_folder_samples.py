"""A small record to write and to damage: two pots, their coats, a log, a photo and a sound."""

import hashlib
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path
from typing import NamedTuple

from wareboard.exchange.record_folder import (
    ORIGINALS,
    Column,
    Original,
    Row,
    TableSpec,
    write_record_folder,
)

POTS = TableSpec(
    name="pots",
    title="Pots",
    description="One pot a row.",
    columns=(
        Column("id", "string", title="Id", description="Stays the same for ever."),
        Column("form", "string", choices=("bowl", "mug"), required=True, title="Form"),
        Column("thrown_on", "date", title="Thrown on"),
        Column("weight_g", "number", unit="g", minimum=0.0, maximum=50_000.0, title="Weight"),
        Column("sold", "boolean", title="Sold"),
        Column("note", "string", title="Note"),
        Column("pair_id", "string", refers_to="pots", title="The other of a pair"),
        Column("picture", "string", refers_to=ORIGINALS, title="Picture"),
    ),
)
COATS = TableSpec(
    name="coats",
    title="Coats",
    description="One coat of glaze on one pot a row, in the order in which they went on.",
    columns=(
        Column("pot_id", "string", refers_to="pots", title="Pot"),
        Column("place", "integer", minimum=1, title="Place in the order"),
        Column("glaze", "string", required=True, title="Glaze"),
    ),
    key=("pot_id", "place"),
)
LOG_LINES = TableSpec(
    name="log_lines",
    title="Log lines",
    description="One reading of the pyrometer a row.",
    columns=(
        Column("id", "integer", title="Id"),
        Column("at", "datetime", required=True, title="When"),
        Column("temp_c", "number", unit="\N{DEGREE SIGN}C", title="Temperature"),
        Column("sound", "string", refers_to=ORIGINALS, title="What was said"),
    ),
    optional=True,
)
SPECS = (POTS, COATS, LOG_LINES)
TITLES = {"studio_title": "Clay Lane", "program_version": "0.1.0"}
PHOTO = b"not really a photo"
SOUND = b"not really a sound"
AN_HOUR_AHEAD = timezone(timedelta(hours=1))


def sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


PHOTO_PATH = f"photos/{sha256(PHOTO)}.jpg"
SOUND_PATH = f"sounds/{sha256(SOUND)}.m4a"
ROWS: dict[str, list[Row]] = {
    "pots": [
        {
            "id": "p-2",
            "form": "mug",
            "thrown_on": None,
            "weight_g": 412.0,
            "sold": False,
            "note": '=cmd, "foot"\ncracked',
            "pair_id": "p-1",
            "picture": None,
        },
        {
            "id": "p-1",
            "form": "bowl",
            "thrown_on": date(2026, 11, 2),
            "weight_g": 0.1,
            "sold": True,
            "note": None,
            "pair_id": "p-2",
            "picture": PHOTO_PATH,
        },
    ],
    "coats": [
        {"pot_id": "p-1", "place": 10, "glaze": "'Old' white"},
        {"pot_id": "p-1", "place": 9, "glaze": "-5 blue"},
    ],
    "log_lines": [
        {
            "id": 1,
            "at": datetime(2026, 11, 25, 14, 3, 7, 250_000, tzinfo=AN_HOUR_AHEAD),
            "temp_c": 1222.5,
            "sound": SOUND_PATH,
        },
        {"id": 2, "at": datetime(2026, 11, 25, 13, 4, tzinfo=UTC), "temp_c": None, "sound": None},
    ],
}


class Studio(NamedTuple):
    """A place to write to, and originals kept beside it."""

    place: Path
    originals: list[Original]

    def write(self, name: str = "record", **changes: object) -> Path:
        folder = self.place / name
        arguments = {
            "specs": SPECS,
            "rows_by_table": ROWS,
            "originals": self.originals,
            **TITLES,
            **changes,
        }
        write_record_folder(folder, **arguments)
        return folder


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by its path, hidden ones too."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }
