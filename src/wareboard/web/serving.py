"""The server: who listens where, how it starts and how it ends.

The workers are processes of their own. Nothing that was opened before they
start, above all no database connection, is used by them.
"""

import multiprocessing
import os
import socket
import sys
import threading
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass

from wareboard.records.keeping.refusals import PortTaken
from wareboard.web.bodies import BodiesFirst, Program

LOOPBACK = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # noqa: S104 - only where phones are let in, after a password is set
USUAL_PORT = 8473
LAST_PORT = 65_535
WORKERS = 2
# Work is done by two threads a worker: more would fight for the interpreter. The
# others wait for what phones send, which may be slow.
AT_ONCE = 2
THREADS = 16
HEADER_TIMEOUT_MS = 10_000
STOP_WITHIN_S = 4
PLAIN_HTTP = (
    "Phones speak plain HTTP with this machine: whoever shares the Wi-Fi can read along, the"
    " password too. Use a network of your own, and a password that you use nowhere else."
)

LOGGING = {
    "loggers": {
        "_granian": {"handlers": ["console"], "level": "ERROR", "propagate": False},
    },
    "handlers": {
        "console": {
            "formatter": "generic",
            "class": "logging.StreamHandler",
            "stream": "ext://sys.stderr",
        },
    },
}


@dataclass(frozen=True)
class Place:
    """Where the server listens.

    Attributes
    ----------
    port : int
        The port.
    phones : bool
        Whether other machines of the network are let in.
    """

    port: int
    phones: bool = False

    @property
    def listens_on(self) -> str:
        """The address the server binds to."""
        return EVERYWHERE if self.phones else LOOPBACK

    @property
    def here(self) -> str:
        """The studio's address for a browser on this machine."""
        return f"http://{LOOPBACK}:{self.port}/"

    def on_network(self) -> str:
        """Give the studio's address for a phone; empty where there is no network."""
        own = own_address()
        return f"http://{own}:{self.port}/" if self.phones and own else ""


def own_address() -> str:
    """Find this machine's address on its network; nothing is sent for it."""
    with closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as probe:
        try:
            # Connecting a datagram socket only asks the routing table.
            probe.connect(("192.168.255.255", 9))
            own: str = probe.getsockname()[0]
        except OSError:
            return ""
    return "" if own.startswith(("127.", "0.")) else own


def is_free(address: str, port: int) -> bool:
    """Say whether nobody listens on a port."""
    with closing(socket.socket(socket.AF_INET, socket.SOCK_STREAM)) as probe:
        if sys.platform == "win32":
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((address, port))
            probe.listen(1)
        except OSError:
            return False
    return True


def refuse_taken(place: Place) -> None:
    """Refuse a port that is taken, naming the next free one.

    Raises
    ------
    PortTaken
        If another program listens there; ``accepted`` is the next free port.
    """
    if is_free(place.listens_on, place.port):
        return
    following = (
        port
        for port in range(place.port + 1, min(place.port + 100, LAST_PORT + 1))
        if is_free(place.listens_on, port)
    )
    free = next(following, None)
    offer = f" Port {free} is free: add --port {free}" if free else " Give another with --port"
    raise PortTaken(
        f"Another program listens on port {place.port}.{offer}.",
        field="port",
        seen=place.port,
        accepted=str(free or "a free port"),
    )


def load_ahead() -> None:
    """Load the program before the workers are forked, so that the first page is quick.

    Nothing is opened: a connection made here must not be used by a worker.
    """
    from django.urls import get_resolver  # noqa: PLC0415 - needs Django

    from wareboard.web import wsgi  # noqa: F401, PLC0415 - as above; loaded for its effect

    list(get_resolver().url_patterns)


def serve(place: Place, *, started: Callable[[], object] | None) -> None:
    """Serve the studio until it is stopped by Ctrl-C or SIGTERM.

    Parameters
    ----------
    place : Place
        Where to listen.
    started : callable, optional
        Called in a thread of its own once the studio answers.
    """
    from granian import Granian  # noqa: PLC0415 - commands that serve nothing need not load it
    from granian.constants import HTTPModes, Interfaces  # noqa: PLC0415 - as above
    from granian.http import HTTP1Settings  # noqa: PLC0415 - as above
    from granian.log import LogLevels  # noqa: PLC0415 - as above

    server = Granian(
        "wareboard.web.serving:application",
        factory=True,
        address=place.listens_on,
        port=place.port,
        interface=Interfaces.WSGI,
        http=HTTPModes.http1,
        http1_settings=HTTP1Settings(header_read_timeout=HEADER_TIMEOUT_MS),
        workers=WORKERS,
        blocking_threads=THREADS,
        blocking_threads_idle_timeout=600,
        respawn_failed_workers=True,
        workers_kill_timeout=STOP_WITHIN_S,
        websockets=False,
        log_level=LogLevels.error,
        log_dictconfig=LOGGING,
    )
    if started is not None:
        threading.Thread(target=tell_when_up, args=(place, started), daemon=True).start()
    server.serve()


def tell_when_up(place: Place, started: Callable[[], object]) -> None:
    """Wait until the studio answers, then say so."""
    for _ in range(200):
        # It sleeps first: while a worker is forked this thread must hold nothing.
        time.sleep(0.1)
        with closing(socket.socket(socket.AF_INET, socket.SOCK_STREAM)) as probe:
            probe.settimeout(0.1)
            if probe.connect_ex((LOOPBACK, place.port)) == 0:
                started()
                return


def application() -> Program:
    """Give a worker the program to run, and end the worker with its server."""
    threading.Thread(target=end_with_server, daemon=True).start()
    from wareboard.web.wsgi import (  # noqa: PLC0415 - only in the worker
        application as program,
    )

    return BodiesFirst(program, at_once=AT_ONCE)


def end_with_server() -> None:
    """End this worker when the server is gone, however it went."""
    server = multiprocessing.parent_process()
    if server is not None:
        server.join()
        os._exit(1)
