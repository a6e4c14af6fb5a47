"""Damage a backup at random and try to put it back; count what is taken in though it differs.

Run it with the Python of the project::

    python tools/proof_damage.py [FLIPS TRUNCATIONS]

A backup of the demo studio is damaged by one flipped bit at a random place, or
cut at a random length, a thousand and a hundred times. Each copy must be
refused, leaving nothing behind, or be proven harmless: restored, it equals the
original in every row and every byte of every photo. Seeded. Exit code 1 if one
is neither.
"""

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from records.keeping.conftest import contents
from records.keeping.test_random_damage import damaged_copies, outcome
from server.harness import demo_folder

from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.data_folder import DataFolder

FLIPS, TRUNCATIONS = 1000, 100
SEED = 20261126


def main() -> int:
    """Run, print the figures, and say by the exit code whether they are as they should be."""
    flips, truncations = map(int, sys.argv[1:3] or (FLIPS, TRUNCATIONS))
    began, counts = time.monotonic(), Counter[str]()
    with tempfile.TemporaryDirectory() as made:
        place = Path(made)
        folder = DataFolder(demo_folder(place / "demo"))
        original = contents(folder)
        whole = keep(folder, place / "whole.zip").backup.path.read_bytes()
        for what, copy in damaged_copies(whole, seed=SEED, flips=flips, truncations=truncations):
            (place / "damaged.zip").write_bytes(copy)
            found = outcome(place / "damaged.zip", original, place / "new")
            counts[found.partition(":")[0]] += 1
            if found.startswith("wrong"):
                print(f"{what}: {found}")
    print(f"bits flipped                    {flips}")
    print(f"copies cut short                {truncations}")
    print(f"refused                         {counts['refused']}")
    print(f"restored and proven equal       {counts['harmless']}")
    print(f"wrong                           {counts['wrong']}")
    print(f"seed {SEED}, {time.monotonic() - began:.0f} s")
    return 1 if counts["wrong"] else 0


if __name__ == "__main__":
    sys.exit(main())
