"""All speeds, each beside its floor and its target, measured in one run.

    python benchmarks/run.py      # what `make bench` calls; under ten minutes

A shared machine is noisy, so what is compared is timed in turn in the same run
and given as a ratio; the pages are given in milliseconds, with the number of
processors. It ends with exit code 1 if anything misses its target.
"""

import os
import platform
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Measured:
    """One benchmark.

    Attributes
    ----------
    script : str
        Which script measures it; it ends with 0 where the target is met.
    what : str
        What is measured, against what.
    target : str
        In words.
    """

    script: str
    what: str
    target: str


ALL = (
    Measured(
        "heatwork.py",
        "heat-work of a long log over all cones, against one exponential a line and cone",
        "at most 0.6 of the floor in steps of the meter, 1.6 for any numbers",
    ),
    Measured(
        "start.py",
        "wareboard reckon unity as a whole program, against Python loading numpy",
        "no longer than that",
    ),
    Measured(
        "first_page.py",
        "first page after wareboard open, against a bare Django page served alike",
        "at most twice as long",
    ),
    Measured(
        "record_folder.py",
        "record folder of 20,000 pots written and read, against a library's check of its rows",
        "no longer than that",
    ),
    Measured(
        "pages.py",
        "every page on a record of ten years",
        "at most 12 queries and no more than in a tenth of it; p95 100 ms alone and 250 ms"
        " while four phones write; What changed? 1 s",
    ),
)


def main() -> int:
    started = time.perf_counter()
    print(f"Python {platform.python_version()}, {os.cpu_count()} processors", flush=True)
    met: list[tuple[Measured, bool]] = []
    for one in ALL:
        print(f"\n== {one.what}\n   target: {one.target}\n", flush=True)
        done = subprocess.run([sys.executable, str(HERE / one.script)], check=False)
        met.append((one, done.returncode == 0))
    print("\n== All together")
    for one, well in met:
        print(f"{'met   ' if well else 'MISSED'}  {one.what}")
    print(f"in {(time.perf_counter() - started) / 60:.1f} minutes")
    return int(not all(well for _one, well in met))


if __name__ == "__main__":
    sys.exit(main())
