"""Four phones that enter readings, weighings and log lines while somebody else looks at pages."""

import http.client
import statistics
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing import Event, Process, Queue
from pathlib import Path
from typing import Any

from server.harness import Studio

PHONES = 4
PAUSE_S = 0.5
"""What a phone waits between its entries; people wait much longer."""

KEPT = 302


class Phones:
    """Four phones, and what they entered.

    Parameters
    ----------
    examples : dict of str to list of str
        Ids of buckets, pots and firings to write to, by what they are.
    """

    def __init__(self, examples: dict[str, list[str]]) -> None:
        self.ms: list[float] = []
        self.refused = 0
        self._examples = examples

    @contextmanager
    def writing_to(self, studio: Studio) -> Iterator[None]:
        """Let them write, from a process of their own, until the block ends."""
        stopping = Event()
        told: Queue[list[tuple[float, int]]] = Queue()
        given = (studio.port, studio.cookies, self._examples, stopping, told)
        process = Process(target=_write, args=given, daemon=True)
        process.start()
        try:
            yield
        finally:
            stopping.set()
            for ms, status in told.get(timeout=60):
                self.ms.append(ms)
                self.refused += status != KEPT
            process.join(timeout=60)

    def said(self) -> str:
        """Say in one line what they did."""
        p95 = statistics.quantiles(self.ms, n=20)[-1] if len(self.ms) > 1 else float("nan")
        return (
            f"{PHONES} phones entered {len(self.ms)} readings, weighings and log lines meanwhile, "
            f"one each {PAUSE_S:g} s; p95 {p95:.0f} ms; {self.refused} refused"
        )


def _write(
    port: int,
    cookies: dict[str, str],
    examples: dict[str, list[str]],
    stopping: Any,
    told: "Queue[list[tuple[float, int]]]",
) -> None:
    done: list[tuple[float, int]] = []
    phones = [
        threading.Thread(
            target=_one_phone, args=(port, dict(cookies), examples, number, stopping, done)
        )
        for number in range(PHONES)
    ]
    for phone in phones:
        phone.start()
    for phone in phones:
        phone.join()
    told.put(done)


def _one_phone(
    port: int,
    cookies: dict[str, str],
    examples: dict[str, list[str]],
    number: int,
    stopping: Any,
    done: list[tuple[float, int]],
) -> None:
    studio = Studio(Path(), port=port, cookies=cookies)
    turn = number
    while not stopping.wait(PAUSE_S):
        path, typed = _entry(examples, turn)
        typed["sure"] = "on"  # made-up numbers may be hard to believe: this one looked again
        typed["entry_id"] = f"phone-{number}-{turn}-{time.time_ns()}"
        start = time.perf_counter()
        try:
            status = studio.ask("POST", path, typed).status
        except (OSError, http.client.HTTPException):
            status = 0
        done.append(((time.perf_counter() - start) * 1e3, status))
        turn += 1


def _entry(examples: dict[str, list[str]], turn: int) -> tuple[str, dict[str, str]]:
    """Give what is entered next: a reading, a weighing, or a log line."""

    def one(kind: str) -> str:
        return examples[kind][turn // 3 % len(examples[kind])]

    if turn % 3 == 0:
        full_g = str(740 + turn % 40)
        return f"/glazes/buckets/{one('buckets')}/", {"full_g": full_g, "in_bucket_l": "6"}
    if turn % 3 == 1:
        weight_g = str(400 + turn % 90)
        return f"/ware/pots/{one('pots')}/weigh/", {"weight_g": weight_g, "state": "bone dry"}
    # A kiln that climbs slowly: a line that no kiln can have would be asked about.
    temp_c = str(20 + turn // 60)
    return f"/kiln/firings/{one('firings')}/", {"temp_c": temp_c, "flame": "clear"}
