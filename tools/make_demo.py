"""Write the demo studio's record folder, the same bytes every time.

python tools/make_demo.py            # into src/wareboard/demo
python tools/make_demo.py --out DIR  # somewhere else
"""

import argparse
import csv
import os
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
FOLDER = HERE.parent / "src" / "wareboard" / "demo"


def main() -> None:
    """Build all rows and write the folder."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, default=FOLDER, help="folder to write")
    out = parser.parse_args().out
    with tempfile.TemporaryDirectory() as data:
        os.environ["DJANGO_SETTINGS_MODULE"] = "wareboard.web.settings"
        os.environ["WAREBOARD_DATA"] = data
        sys.path.insert(0, str(HERE))
        import django  # noqa: PLC0415 - needs the settings named first

        django.setup()
        from demo.telling import write  # noqa: PLC0415 - needs Django set up

        counts = write(out, kept=kept_pictures(FOLDER))
    print(f"{out}: {sum(counts.values())} rows in {len(counts)} tables")


def kept_pictures(folder: Path) -> dict[str, Path]:
    """Find the pictures that a folder holds already, by the name they came with."""
    found = {}
    for table in folder.glob("*.csv"):
        with table.open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                if row.get("came_as"):
                    photo = f"{row['sha256']}.{row['suffix']}"
                    found[row["came_as"]] = folder / "photos" / photo
    return found


if __name__ == "__main__":
    main()
