"""Kill the real server at random moments while four clients write, and count what is lost.

Run it with the Python of the project::

    python tools/proof_kills.py [KILLS]

It starts ``wareboard open`` on a demo studio, enters readings from four clients
at once, kills server and workers (SIGKILL) at a random moment, starts it again
and compares every entry that was acknowledged with the record on the disk.
Seeded; 200 kills take a few minutes. Exit code 1 if a single one is lost.

With no loss in n kills the true share lies below 3/n with 95 % confidence.
"""

import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from server.harness import demo_folder, kill_and_compare

KILLS = 200
SEED = 20261125
CLIENTS = 4


def main() -> int:
    """Run, print the figures, and say by the exit code whether they are as they should be."""
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else KILLS
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as place:
        data = demo_folder(Path(place) / "demo")
        found = kill_and_compare(data, kills=kills, seed=SEED, clients=CLIENTS)
    print(f"kills of the whole server       {found.kills}")
    print(f"clients writing at once         {CLIENTS}")
    print(f"entries acknowledged            {found.acknowledged}")
    print(f"acknowledged entries lost       {len(found.lost)}")
    print(f"share of kills that lose one    under {3 / found.kills:.1%} (95 %)")
    print(f"seed {SEED}, {time.monotonic() - began:.0f} s")
    for entry in found.lost[:10]:
        print(f"lost: {entry}")
    return 1 if found.lost else 0


if __name__ == "__main__":
    sys.exit(main())
