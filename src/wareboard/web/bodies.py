"""Reading what a request brings, before anyone works on it.

A phone that leaves the Wi-Fi in the middle of a photo must not hold the studio
up. What a request brings is therefore read first, by many threads that only
wait; few at a time then work on what has arrived. A sender who falls silent is
let go.
"""

import queue
import tempfile
import threading
from collections.abc import Callable, Iterable
from contextlib import closing
from typing import IO, Any

from wareboard.web.hosts import is_known, own_names
from wareboard.web.limits import announced_bytes

Environ = dict[str, Any]
StartResponse = Callable[..., object]
Program = Callable[[Environ, Any], Iterable[bytes]]

CHUNK_BYTES = 1 << 16
IN_MEMORY_BYTES = 1 << 20
SILENT_FOR_S = 15.0


class FellSilent(Exception):
    """A sender stopped in the middle."""


class BodiesFirst:
    """Run a program on requests that have arrived whole.

    Parameters
    ----------
    program : callable
        The WSGI program.
    at_once : int
        How many requests it works on at the same time.
    silent_for_s : float
        How long a sender may say nothing [s].
    """

    def __init__(
        self, program: Program, *, at_once: int, silent_for_s: float = SILENT_FOR_S
    ) -> None:
        self.program = program
        self.turns = threading.BoundedSemaphore(at_once)
        self.silent_for_s = silent_for_s
        self.names = own_names()

    def __call__(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Read, then wait for a turn, then work."""
        length = announced_bytes(environ.get("CONTENT_LENGTH"))
        # What is refused anyway is not read first.
        if not length or not is_known(environ.get("HTTP_HOST", ""), self.names):
            return self.work_on(environ, start_response)
        try:
            body = read_whole(environ["wsgi.input"], length, silent_for_s=self.silent_for_s)
        except FellSilent:
            start_response(
                "408 Request Timeout", [("Content-Type", "text/plain"), ("Connection", "close")]
            )
            return [b"This did not arrive in full. Send it again.\n"]
        with closing(body):
            return self.work_on({**environ, "wsgi.input": body}, start_response)

    def work_on(self, environ: Environ, start_response: StartResponse) -> Iterable[bytes]:
        """Wait for a turn, then run the program; it reads all it needs before it returns."""
        with self.turns:
            return self.program(environ, start_response)


def read_whole(source: Any, length: int, *, silent_for_s: float) -> IO[bytes]:
    """Read a body of a known length.

    Raises
    ------
    FellSilent
        If nothing comes for too long, or the sender is gone.
    """
    arrived: queue.SimpleQueue[bytes | None] = queue.SimpleQueue()
    threading.Thread(target=pass_on, args=(source, length, arrived), daemon=True).start()
    body = tempfile.SpooledTemporaryFile(max_size=IN_MEMORY_BYTES)  # noqa: SIM115 - closed by whoever asked for it
    try:
        while length:
            chunk = next_of(arrived, silent_for_s)
            length -= len(chunk)
            body.write(chunk)
    except BaseException:
        body.close()
        raise
    body.seek(0)
    return body


def next_of(arrived: "queue.SimpleQueue[bytes | None]", silent_for_s: float) -> bytes:
    """Give what arrived next."""
    try:
        chunk = arrived.get(timeout=silent_for_s)
    except queue.Empty:
        chunk = None
    if chunk is None:
        raise FellSilent
    return chunk


def pass_on(source: Any, length: int, arrived: "queue.SimpleQueue[bytes | None]") -> None:
    """Hand on what comes, from a thread of its own: a read cannot be given up."""
    try:
        while length > 0 and (chunk := source.read(min(CHUNK_BYTES, length))):
            length -= len(chunk)
            arrived.put(chunk)
    finally:
        arrived.put(None)
