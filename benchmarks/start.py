"""How long a short command takes, against loading numpy alone.

Run it with the Python of the project::

    python benchmarks/start.py

It starts ``wareboard reckon unity RECIPE.csv --json`` and ``python -c "import
numpy"`` in turn, so that both meet the same other work on the machine, with
bytecode present for both, and prints the medians and their ratio. It ends with
exit code 1 if the command took longer.
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROUNDS = 31
EXAMPLES = Path(__file__).parents[1] / "examples"
COMMAND = Path(sys.executable).with_name("wareboard")
NUMPY = [sys.executable, "-c", "import numpy"]
UNITY = [str(COMMAND), "reckon", "unity", "limestone.csv", "--json"]


def seconds(command: list[str]) -> float:
    settings = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    start = time.perf_counter()
    subprocess.run(command, cwd=EXAMPLES, env=settings, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - start


def main() -> int:
    seconds(NUMPY), seconds(UNITY)  # the first run of each writes the bytecode
    pairs = [(seconds(NUMPY), seconds(UNITY)) for _ in range(ROUNDS)]
    numpy = statistics.median(pair[0] for pair in pairs)
    unity = statistics.median(pair[1] for pair in pairs)
    ratio = unity / numpy
    print(f"{ROUNDS} rounds, bytecode present, median of each")
    print(f"import numpy                 {1000 * numpy:6.1f} ms")
    print(f"wareboard reckon unity       {1000 * unity:6.1f} ms")
    print(f"ratio                        {ratio:6.2f}  (at most 1.00)")
    return 0 if ratio <= 1.0 else 1


if __name__ == "__main__":
    sys.exit(main())
