"""How quick every page is on a record of ten years, and how often it asks its database.

Run it with the Python of the project::

    python benchmarks/pages.py            # about five minutes
    python benchmarks/pages.py --quickly  # a tenth of the record, few rounds

Two records are made up, one of 20,000 pots and one of a tenth of that. In both
the questions of every page to the database are counted. Then the program is
opened as anybody opens it, and one browser asks for every page in turn, round
after round: alone, then while four phones enter readings, weighings and log
lines, and so on by turns. A shared machine is noisy, so of each page's p95 the
median of three passes counts. Nothing but this machine is asked. It ends with
exit code 1 if a page misses its target.
"""

import argparse
import compileall
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from decade.phones import Phones  # noqa: E402 - needs the tests' harness, which is not installed
from server.harness import Studio  # noqa: E402 - as above

HERE = Path(__file__).parent
MOST_QUERIES = 12
ALONE_MS, AMONG_PHONES_MS = 100.0, 250.0
# A comparison of thousands of pots: it may ask more often, and take a second.
LONG = "shelf/what-changed/?"
LONG_MS = 1000.0
PASSES = 3
ROUNDS, LONG_ROUNDS, ROUNDS_AT_A_TENTH, WARMING = 15, 5, 10, 2
QUIET = 1.3
WENT_WELL = 200
FULL, A_GLANCE = (1.0, PASSES, ROUNDS), (0.1, 1, 5)
Asked = tuple[str, int, list[float]]
LEGEND = """
queries: in the long record / in a tenth of it. Times in ms: one browser alone (p50, p95),
p95 while four phones write, and p95 in a tenth of the record. Target: alone / among phones.
"""


@dataclass
class Page:
    """One page and what was measured of it.

    Attributes
    ----------
    route, path : str
        As the resolver spells it, and the example that was asked for.
    queries, queries_at_a_tenth : int
        Questions to the database in the large and in the small record.
    alone_ms, among_phones_ms, at_a_tenth_ms : list of list of float
        How long each answer took, pass by pass [ms].
    """

    route: str
    path: str
    queries: int = 0
    queries_at_a_tenth: int = 0
    alone_ms: list[list[float]] = field(default_factory=list)
    among_phones_ms: list[list[float]] = field(default_factory=list)
    at_a_tenth_ms: list[list[float]] = field(default_factory=list)

    @property
    def is_long(self) -> bool:
        """Whether it compares thousands of pots."""
        return self.route.startswith(LONG)

    @property
    def targets_ms(self) -> tuple[float, float]:
        """What it may take alone, and among phones [ms]."""
        return (LONG_MS, LONG_MS) if self.is_long else (ALONE_MS, AMONG_PHONES_MS)

    @property
    def is_met(self) -> bool:
        """Whether it keeps to all its targets."""
        alone, among = self.targets_ms
        few = self.queries <= min(MOST_QUERIES, self.queries_at_a_tenth)
        return (
            (few or self.is_long)
            and p95(self.alone_ms) <= alone
            and p95(self.among_phones_ms) <= among
        )


def p95(passes: list[list[float]]) -> float:
    """Give the time that nineteen of twenty answers kept to, median of the passes [ms]."""
    return statistics.median(
        statistics.quantiles(ms, n=20, method="inclusive")[-1] if len(ms) > 1 else max(ms)
        for ms in passes
    )


def p50(passes: list[list[float]]) -> float:
    """Give the time of the middle answer of all [ms]."""
    return statistics.median(took for ms in passes for took in ms)


def made_up(place: Path, scale: float) -> Path:
    """Write a record in a process of its own."""
    command = [sys.executable, str(HERE / "ten_years.py"), str(place), "--scale", str(scale)]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    print(f"record at {scale:g}: {done.stdout.strip().splitlines()[-1]}", flush=True)
    return place


def counted(folder: Path) -> list[dict[str, object]]:
    """Count what every page asks, in a process of its own."""
    command = [sys.executable, str(HERE / "queries.py"), str(folder), "--json"]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    found: list[dict[str, object]] = json.loads(done.stdout)
    return [one for one in found if one["is_page"]]


def examples(folder: Path) -> dict[str, list[str]]:
    """Give what the phones write to."""
    command = [sys.executable, str(HERE / "queries.py"), str(folder), "--examples"]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    found: dict[str, list[str]] = json.loads(done.stdout)
    return found


class Noise:
    """How busy the machine was: a fixed piece of work, timed again and again."""

    def __init__(self) -> None:
        self.ms: list[float] = []

    def listen(self) -> None:
        """Do the piece of work once more."""
        start = time.perf_counter()
        sum(number * number for number in range(20_000))
        self.ms.append((time.perf_counter() - start) * 1e3)

    @property
    def factor(self) -> float:
        """How many times its best the work took at p95."""
        return p95([self.ms]) / min(self.ms)

    def said(self) -> str:
        """Say it in one line."""
        line = f"meanwhile a fixed piece of work took {self.factor:.1f} times its best at p95"
        if self.factor > QUIET:
            line += ": the machine was busy, and what was missed by less than that may be met"
        return line


NOISE = Noise()


def ask_each(studio: Studio, asked: list[Asked]) -> None:
    """Ask for pages in turn, round after round: path, rounds, and where the times go."""
    for number in range(-WARMING, max(rounds for _path, rounds, _ms in asked)):
        NOISE.listen()
        for path, rounds, ms in asked:
            if number >= rounds:
                continue
            start = time.perf_counter()
            status = studio.ask("GET", path).status
            took = (time.perf_counter() - start) * 1e3
            if status != WENT_WELL:
                raise SystemExit(f"{path} answered {status}")
            if number >= 0:
                ms.append(took)


def opened(folder: Path) -> Studio:
    """Open a studio, and say how long that took."""
    start = time.perf_counter()
    studio = Studio(folder).start()
    studio.ask("GET", "/")
    print(f"wareboard open, front door: {time.perf_counter() - start:.2f} s", flush=True)
    return studio


def measure(place: Path, *, scale: float, passes: int, rounds: int) -> list[Page]:
    """Measure every page."""
    large, small = made_up(place / "large", scale), made_up(place / "small", scale / 10)
    few = {one["route"]: one for one in counted(small)}
    pages = {
        str(one["route"]): Page(str(one["route"]), str(one["path"]), int(str(one["queries"])))
        for one in counted(large)
    }
    for route, page in pages.items():
        page.queries_at_a_tenth = int(str(few[route]["queries"])) if route in few else -1

    def asked(page: Page, path: str, most: int, passes: list[list[float]]) -> Asked:
        passes.append([])
        return path, min(most, LONG_ROUNDS) if page.is_long else most, passes[-1]

    written = examples(large)
    studio = opened(large)
    phones = Phones(written)
    try:
        for _ in range(passes):
            ask_each(studio, [asked(p, p.path, rounds, p.alone_ms) for p in pages.values()])
            with phones.writing_to(studio):
                among = [asked(p, p.path, rounds, p.among_phones_ms) for p in pages.values()]
                ask_each(studio, among)
    finally:
        studio.stop()
    print(phones.said(), flush=True)
    studio = opened(small)
    try:
        ask_each(
            studio,
            [
                asked(p, str(few[route]["path"]), ROUNDS_AT_A_TENTH, p.at_a_tenth_ms)
                for route, p in pages.items()
                if route in few
            ],
        )
    finally:
        studio.stop()
    if phones.refused:
        raise SystemExit("Entries of the phones were refused.")
    return list(pages.values())


def table(pages: list[Page]) -> list[str]:
    """Write the table: page, queries, times [ms], targets [ms], met or missed."""
    width = max(len(page.route) for page in pages) + 1
    head = f"{'page':<{width}} queries    p50    p95  phones  (tenth)  target"
    lines = [head, "-" * len(head)]
    for page in pages:
        alone, among = page.targets_ms
        tenth = p95(page.at_a_tenth_ms) if page.at_a_tenth_ms else float("nan")
        lines.append(
            f"{'/' + page.route:<{width}} {page.queries:>3}/{page.queries_at_a_tenth:<3}"
            f" {p50(page.alone_ms):>6.0f} {p95(page.alone_ms):>6.0f}"
            f"  {p95(page.among_phones_ms):>6.0f}  {tenth:>7.0f}  {alone:.0f}/{among:.0f}"
            f" {'met' if page.is_met else 'MISSED'}"
        )
    return lines


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quickly", action="store_true", help="a tenth of all")
    quickly = parser.parse_args().quickly
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    compileall.compile_dir(ROOT / "src", quiet=1)
    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else float("nan")
    print(f"{os.cpu_count()} processors, load {load:.1f} before; bytecode present", flush=True)
    with tempfile.TemporaryDirectory() as place:
        scale, passes, rounds = A_GLANCE if quickly else FULL
        pages = measure(Path(place), scale=scale, passes=passes, rounds=rounds)
    print(LEGEND)
    print("\n".join(table(pages)))
    missed = [page for page in pages if not page.is_met]
    print(f"\n{len(pages) - len(missed)} of {len(pages)} pages met their targets; {NOISE.said()}")
    return int(bool(missed))


if __name__ == "__main__":
    sys.exit(main())
