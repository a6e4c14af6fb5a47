"""Write a made-up record of ten years into a data folder of its own.

Run it with the Python of the project::

    python benchmarks/ten_years.py FOLDER            # 20,000 pots
    python benchmarks/ten_years.py FOLDER --scale 0.1

The folder must be new. It is an ordinary data folder afterwards: look at it
with ``wareboard open --data FOLDER``.
"""

import argparse
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

from decade.size import Size

from wareboard.cli.preparing import held_record
from wareboard.records.keeping import database
from wareboard.records.keeping.data_folder import DataFolder


def write(folder: Path, size: Size, until: datetime) -> dict[str, int]:
    """Write a record into a new data folder; once a process.

    Parameters
    ----------
    folder : Path
        Where; it must not exist yet, or be empty.
    size : Size
        How large.
    until : datetime
        The record's last day.

    Returns
    -------
    dict of str to int
        Rows by table.
    """
    data = DataFolder(folder.absolute())
    with held_record(data):
        from decade.telling import tell  # noqa: PLC0415 - needs Django set up

        from wareboard.records.keeping import first_run  # noqa: PLC0415 - as above

        rows = tell(first_run.owner(), size, until, originals=data.originals).keep()
        from django.db import connections  # noqa: PLC0415 - as above

        connections.close_all()
    database.settle(data.record)
    return rows


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--scale", type=float, default=1.0, help="share of the 20,000 pots")
    asked = parser.parse_args()
    started = time.perf_counter()
    rows = write(asked.folder, Size.scaled(asked.scale), datetime.now(UTC).replace(microsecond=0))
    took_s = time.perf_counter() - started
    size_mb = DataFolder(asked.folder).record.stat().st_size / 1e6
    for table, count in rows.items():
        print(f"{table:<15} {count:>8,}")
    print(f"{sum(rows.values()):,} rows, {size_mb:.0f} MB, in {took_s:.0f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())
