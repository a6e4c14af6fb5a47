"""How long a large record takes to hand out and to take in.

Run it with the Python of the project::

    python benchmarks/record_folder.py

It writes a record of 20,000 pots and 120,000 log lines, reads it back, and has
the library for Data Packages check the same rows, all three in turn, three
times, and prints the medians. It ends with exit code 1 if writing or reading
takes longer than the library's check of the rows.
"""

import hashlib
import random
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from frictionless import Package

from wareboard.exchange.record_folder import (
    ORIGINALS,
    Column,
    Original,
    Row,
    TableSpec,
    read_record_folder,
    write_record_folder,
)

POTS, LINES, ROUNDS = 20_000, 120_000, 3
SPECS = (
    TableSpec(
        "pots",
        "Pots",
        "One pot a row.",
        (
            Column("id", "string"),
            Column("form", "string", choices=("bowl", "mug")),
            Column("thrown_on", "date"),
            Column("weight_g", "number", "g", minimum=0),
            Column("sold", "boolean"),
            Column("note", "string"),
            Column("pair_id", "string", refers_to="pots"),
            Column("picture", "string", refers_to=ORIGINALS),
        ),
    ),
    TableSpec(
        "log_lines",
        "Log lines",
        "One reading a row.",
        (
            Column("id", "integer"),
            Column("firing_id", "integer", required=True),
            Column("at", "datetime", required=True),
            Column("temp_c", "number", "\N{DEGREE SIGN}C"),
            Column("source", "string", choices=("by hand", "kiln")),
        ),
    ),
)


def a_record(picture: str) -> dict[str, list[Row]]:
    draw = random.Random(7)
    start = datetime(2026, 11, 25, tzinfo=UTC)
    return {
        "pots": [
            {
                "id": f"p-{number:05}",
                "form": "mug",
                "thrown_on": date(2020, 1, 1) + timedelta(days=number % 2_000),
                "weight_g": draw.uniform(200.0, 900.0),
                "sold": number % 3 == 0,
                "note": '=a "note"\nof two lines' if number % 5 else None,
                "pair_id": f"p-{number - 1:05}" if number else None,
                "picture": picture if number == 0 else None,
            }
            for number in range(POTS)
        ],
        "log_lines": [
            {
                "id": number,
                "firing_id": number // 1_000,
                "at": start + timedelta(seconds=10.5 * number),
                "temp_c": draw.uniform(20.0, 1_280.0),
                "source": "kiln",
            }
            for number in range(LINES)
        ],
    }


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def main() -> int:
    with tempfile.TemporaryDirectory() as place:
        photo = Path(place, "photo")
        photo.write_bytes(b"photo")
        original = Original(hashlib.sha256(b"photo").hexdigest(), "jpg", photo)
        rows, folder = a_record(original.path), Path(place, "record")
        took: dict[str, list[float]] = {"write": [], "read": [], "rows by the library": []}
        for _ in range(ROUNDS):
            took["write"].append(
                seconds(
                    lambda: write_record_folder(
                        folder,
                        SPECS,
                        rows,
                        [original],
                        studio_title="Clay Lane",
                        program_version="0",
                        overwrite=True,
                    )
                )
            )
            took["read"].append(seconds(lambda: read_record_folder(folder, SPECS)))
            package = Package(str(folder / "datapackage.json"))
            took["rows by the library"].append(seconds(package.validate))
    median = {name: statistics.median(times) for name, times in took.items()}
    for name, time_s in median.items():
        print(f"{name}: {time_s:.2f} s for {POTS:,} pots and {LINES:,} log lines")
    return int(max(median["write"], median["read"]) > median["rows by the library"])


if __name__ == "__main__":
    sys.exit(main())
