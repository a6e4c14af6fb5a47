"""Heat-work of a long log over all cones, against one pass of ``exp`` over points × cones.

The floor is what the plainest exact way cannot do without: one exponential for
every line and every cone, written into memory that is already there. Both are
timed in turn in the same run and the medians compared.

    python benchmarks/heatwork.py

prints milliseconds of ours, of the floor, and their ratio, and ends with 1 if a
ratio is over its bound.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"  # one core against one core; numpy reads it on import

import statistics
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np

from wareboard.core.firing.cone import reckon_cone
from wareboard.core.firing.heatwork import log_pieces, piece_progress, progress, running
from wareboard.core.firing.log import FiringLog, firing_log
from wareboard.core.firing.series import cone_series

LINES = 108_000
RUNS = 41
BOUNDS = {"in 0.25 °C steps": 0.6, "any doubles": 1.6}
SERIES = cone_series()
TABLE = SERIES.table


def a_log(step_c: float) -> tuple[np.ndarray, np.ndarray]:
    """Thirty hours, a line a second, 1.5 °C of noise; rounded to a step unless that is 0."""
    hours = np.arange(LINES) / 3600.0
    temp_c = np.interp(hours, [0, 2, 4, 12, 20, 20.5, 30], [20, 95, 95, 600, 1285, 1285, 300])
    temp_c += np.random.default_rng(7).normal(0, 1.5, LINES)
    return hours, np.round(temp_c / step_c) * step_c if step_c else temp_c


def read_and_work(hours: np.ndarray, temp_c: np.ndarray) -> np.ndarray:
    return progress(TABLE, firing_log(hours, temp_c))


def milliseconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1e3


def worst_miss(log: FiringLog) -> float:
    """Largest relative difference from adding up the pieces one by one."""
    total = np.zeros(len(TABLE.curves))
    from_c, to_c, gaps = log_pieces(log)
    for start in range(0, gaps.size, 10_000):
        part = slice(start, start + 10_000)
        total += piece_progress(TABLE, from_c[part], to_c[part], gaps[part]).sum(axis=1)
    return float(np.abs(progress(TABLE, log) / total - 1).max())


def main() -> int:
    over = 0
    for name, bound in BOUNDS.items():
        hours, temp_c = a_log(0.25 if "steps" in name else 0.0)
        log = firing_log(hours, temp_c)
        exponents = (temp_c - TABLE.bend_c[:, np.newaxis]) / TABLE.low_span_c[:, np.newaxis]
        room = np.empty_like(exponents)
        works: dict[str, Callable[[], object]] = {
            "ours": partial(progress, TABLE, log),
            "with reading the log": partial(read_and_work, hours, temp_c),
            "floor": partial(np.exp, exponents, out=room),
        }
        timed: dict[str, list[float]] = {key: [] for key in works}
        for _ in range(RUNS):
            for key, work in works.items():
                timed[key].append(milliseconds(work))
        middle = {key: statistics.median(found) for key, found in timed.items()}
        ratio = middle["ours"] / middle["floor"]
        whole = middle["with reading the log"] / middle["floor"]
        over += ratio > bound
        print(
            f"{LINES:,} lines, {name}, {len(TABLE.curves)} cones: ours {middle['ours']:.2f} ms, "
            f"floor {middle['floor']:.2f} ms, ratio {ratio:.2f} (at most {bound}); with reading "
            f"the log {whole:.2f}; worst miss {worst_miss(log):.1e}"
        )
    live = running(TABLE, log)
    one_more = statistics.median(
        milliseconds(lambda: live.after(live.hours + 1 / 3600, live.temp_c - 0.1))
        for _ in range(201)
    )
    whole_answer = statistics.median(
        milliseconds(lambda: reckon_cone(SERIES, log)) for _ in range(9)
    )
    print(f"one more line in a live log: {one_more * 1e3:.0f} µs")
    print(f"the whole answer with its doubt: {whole_answer:.0f} ms")
    return int(over > 0)


if __name__ == "__main__":
    sys.exit(main())
