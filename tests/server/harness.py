"""The real server in a data folder of its own: started, asked, killed, started again.

The long checks under ``tools/`` use the same harness with larger numbers.
"""

import contextlib
import http.client
import json
import os
import random
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlencode

from wareboard.records.keeping import database

CSRF = "a" * 32
BUCKET = "/glazes/buckets/limpet-bucket-1/"
UP_WITHIN_S = 30.0


def free_port() -> int:
    with contextlib.closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@dataclass
class Reply:
    """What came back."""

    status: int
    headers: dict[str, str]
    body: bytes


@dataclass
class Studio:
    """A studio that runs as a program of its own.

    Attributes
    ----------
    data : Path
        Its data folder.
    options : tuple of str
        More options for ``wareboard open``.
    largest_file_bytes : int, optional
        No file of the studio may grow beyond this, as on a full disk.
    """

    data: Path
    options: tuple[str, ...] = ()
    largest_file_bytes: int | None = None
    settings: dict[str, str] = field(default_factory=dict)
    port: int = field(default_factory=free_port)
    cookies: dict[str, str] = field(default_factory=lambda: {"wareboard_csrf": CSRF})
    process: subprocess.Popen[str] | None = None
    told: dict[str, object] = field(default_factory=dict)

    def start(self) -> "Studio":
        """Start the program and come in by its one-time key."""
        keep = {key: value for key, value in os.environ.items() if key != "WAREBOARD_DATA"}
        command = (sys.executable, "-m", "wareboard", "open", "--data", str(self.data))
        self.process = subprocess.Popen(
            [*command, "--port", str(self.port), "--no-browser", "--json", *self.options],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            stdin=subprocess.DEVNULL,
            text=True,
            env=keep | {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings"} | self.settings,
            start_new_session=True,
            preexec_fn=self.limit if self.largest_file_bytes else None,  # noqa: PLW1509 - sets one limit, no locks
        )
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        assert line, self.process.stderr and self.process.stderr.read()
        told = json.loads(line)
        assert "result" in told, told
        self.told = told["result"]
        self.wait_until_up()
        address = str(self.told["address"])
        reply = self.ask("GET", address[address.index("/sign-in/") :])
        assert reply.status == 302, reply
        return self

    def limit(self) -> None:
        """Let no file grow further; the system then refuses a write as a full disk does."""
        import resource  # noqa: PLC0415 - there is none on Windows

        resource.setrlimit(resource.RLIMIT_FSIZE, (self.largest_file_bytes,) * 2)

    def wait_until_up(self) -> None:
        """Wait until the health page answers."""
        until = time.monotonic() + UP_WITHIN_S
        while time.monotonic() < until:
            with contextlib.suppress(OSError, http.client.HTTPException):
                if self.ask("GET", "/health/").status == 200:
                    return
            time.sleep(0.02)
        raise AssertionError("the studio did not come up")

    def ask(
        self, method: str, path: str, typed: dict[str, str] | None = None, **headers: str
    ) -> Reply:
        """Ask for a page, as a browser that keeps its cookies would."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        cookies = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        sent = {"Cookie": cookies, "X-CSRFToken": CSRF, **headers}
        body = None
        if typed is not None:
            body = urlencode(typed)
            sent["Content-Type"] = "application/x-www-form-urlencoded"
        try:
            connection.request(method, path, body, sent)
            reply = connection.getresponse()
            content = reply.read()
        finally:
            connection.close()
        for value in reply.headers.get_all("Set-Cookie") or []:
            name, _, rest = value.partition("=")
            if name == "wareboard_session":
                self.cookies[name] = rest.partition(";")[0]
        return Reply(reply.status, dict(reply.headers.items()), content)

    def weigh(self, entry_id: str) -> int:
        """Enter a reading of a bucket; give the answer's code."""
        typed = {"entry_id": entry_id, "full_g": "740", "empty_g": "212", "volume_ml": "365"}
        return self.ask("POST", BUCKET, typed).status

    def kill(self) -> None:
        """Kill server and workers at once, as a machine would that runs out of memory."""
        assert self.process is not None
        os.killpg(self.process.pid, signal.SIGKILL)
        self.end()

    def stop(self, with_signal: int = signal.SIGTERM) -> float:
        """Stop the studio in the usual way; give the seconds it took."""
        assert self.process is not None
        began = time.monotonic()
        self.process.send_signal(with_signal)
        self.end()
        return time.monotonic() - began

    def end(self) -> None:
        """Wait for the end of the process, and close what it wrote to."""
        assert self.process is not None
        self.process.wait(timeout=30)
        for pipe in (self.process.stdout, self.process.stderr):
            if pipe is not None:
                pipe.close()

    def kept(self) -> set[str]:
        """Give the ids of every reading in the record, as it lies on the disk."""
        with database.opened(self.data / "record.sqlite3") as connection:
            assert database.pragma(connection, "integrity_check") == "ok"
            return {row[0] for row in connection.execute("SELECT id FROM wareboard_reading")}


@dataclass
class Figures:
    """What a run of kills came to."""

    kills: int = 0
    acknowledged: int = 0
    lost: list[str] = field(default_factory=list)


def kill_and_compare(data: Path, *, kills: int, seed: int, clients: int = 4) -> Figures:
    """Kill the studio at random moments while several clients write, and look for what is gone."""
    draw = random.Random(seed)  # noqa: S311 - a sample, not a secret
    figures, acknowledged = Figures(), set[str]()
    for number in range(kills):
        studio = Studio(data).start()
        stopping = threading.Event()
        writers = [
            threading.Thread(
                target=write_until, args=(studio, f"kill-{number}-{client}", stopping, acknowledged)
            )
            for client in range(clients)
        ]
        for writer in writers:
            writer.start()
        time.sleep(draw.uniform(0.05, 0.8))
        studio.kill()
        stopping.set()
        for writer in writers:
            writer.join()
        figures.kills += 1
        figures.lost.extend(sorted(acknowledged - studio.kept()))
    figures.acknowledged = len(acknowledged)
    return figures


def write_until(
    studio: Studio, prefix: str, stopping: threading.Event, acknowledged: set[str]
) -> None:
    """Enter readings one after the other, noting those that were acknowledged."""
    number = 0
    while not stopping.is_set():
        number += 1
        entry_id = f"{prefix}-{number}"
        try:
            status = studio.weigh(entry_id)
        except (OSError, http.client.HTTPException):
            return
        if status == 302:
            acknowledged.add(entry_id)


def demo_folder(place: Path) -> Path:
    """Make a data folder with the demo studio in it, by starting and stopping the program."""
    studio = Studio(place, options=("--demo",)).start()
    studio.stop()
    return place


def copied(folder: Path, place: Path) -> Path:
    """Give a copy of a data folder."""
    return Path(shutil.copytree(folder, place))


def run(*arguments, **settings):
    """Run a command to its end."""
    keep = {key: value for key, value in os.environ.items() if key != "WAREBOARD_DATA"}
    return subprocess.run(
        [sys.executable, "-m", "wareboard", *map(str, arguments)],
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        timeout=60,
        check=False,
        env=keep | {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings"} | settings,
    )


def error_of(done) -> dict[str, object]:
    assert done.returncode == 2, done.stderr
    return json.loads(done.stdout)["error"]
