"""The server: who listens where, how it starts and how it ends.

The workers are processes of their own. Nothing that was opened before they
start, above all no database connection, is used by them.
"""

import gc
import multiprocessing
import os
import socket
import threading
import time
from collections.abc import Callable
from contextlib import closing

from wareboard.web.bodies import BodiesFirst, Program
from wareboard.web.listening import LOOPBACK, Place

WORKERS = 2
# Work is done by two threads a worker: more would fight for the interpreter. The
# others wait for what phones send, which may be slow.
AT_ONCE = 2
THREADS = 16
HEADER_TIMEOUT_MS = 10_000
STOP_WITHIN_S = 4
NEW_BEFORE_TIDYING = 50_000
"""Objects that a worker makes before it looks for leavings: a long page makes more than that."""

WHILE_IT_IS_READ_S = 0.5
FIRST_PAGE = ("base.html", "today.html", "parts/_sign.html")

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

    threading.Thread(target=warm_up, daemon=True).start()
    # What is loaded by now stays: looking through it for leavings would only take time.
    gc.collect()
    gc.freeze()
    gc.set_threshold(NEW_BEFORE_TIDYING)
    return BodiesFirst(program, at_once=AT_ONCE)


def warm_up() -> None:
    """Make the first page ready while its reader is still on the way, then the others."""
    from django.template.loader import get_template  # noqa: PLC0415 - only in the worker
    from django.urls import reverse  # noqa: PLC0415 - as above

    from wareboard.records.people import later  # noqa: PLC0415 - as above

    reverse("kiln:home")
    for name in FIRST_PAGE:
        get_template(name)
    time.sleep(WHILE_IT_IS_READ_S)
    later.load_all()


def end_with_server() -> None:
    """End this worker when the server is gone, however it went."""
    server = multiprocessing.parent_process()
    if server is not None:
        server.join()
        os._exit(1)
