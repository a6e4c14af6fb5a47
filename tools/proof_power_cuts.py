"""Cut the power at two thousand moments of a watched run, and count what is lost or torn.

Run it with the Python of the project, where ``strace`` is installed::

    python tools/proof_power_cuts.py [CUTS]

Readings and photos are entered through the program's own actions, and a backup
is made; every write and every wait for the disk is watched. For each cut the
disk is put together as it could be found then. Both journals must lose nothing;
two settings that the program does not use show that the measure bites. Seeded.
Exit code 1 if a setting in use loses an entry, or if the measure does not bite.
"""

import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from server.harness import demo_folder
from server.power_cuts import cut_power, may_watch, watched

CUTS, ENTRIES, SEED = 2000, 120, 20261125
IN_USE = (("WAL", "FULL"), ("DELETE", "EXTRA"))
NOT_IN_USE = (("WAL", "NORMAL"), ("DELETE", "OFF"))


def main() -> int:
    """Run, print the figures, and say by the exit code whether they are as they should be."""
    if not may_watch():
        print("strace is not installed here, or not allowed: nothing was proven.")
        return 1
    cuts = int(sys.argv[1]) if len(sys.argv) > 1 else CUTS
    began, good = time.monotonic(), True
    print(f"{'journal, synchronous':24}{'cuts':>6}{'torn':>6}{'losing':>8}{'most lost':>11}")
    with tempfile.TemporaryDirectory() as made:
        data = demo_folder(Path(made) / "demo")
        for number, (journal, synchronous) in enumerate(IN_USE + NOT_IN_USE):
            place = Path(made) / str(number)
            place.mkdir()
            run = watched(data, place, entries=ENTRIES, synchronous=synchronous, journal=journal)
            found = cut_power(run, place, cuts=cuts, seed=SEED)
            bad = found.corrupt + found.losing
            good = good and (bad == 0) == ((journal, synchronous) in IN_USE)
            note = "" if (journal, synchronous) in IN_USE else "   not in use: the measure bites"
            print(
                f"{f'{journal}, {synchronous}':24}{found.cuts:6}{found.corrupt:6}"
                f"{found.losing:8}{found.most_lost:11}{note}"
            )
    print(f"{ENTRIES} entries and a backup each; seed {SEED}, {time.monotonic() - began:.0f} s")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
