"""A real browser at a real server, on a demo studio of its own."""

import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))

from find_browser import find  # noqa: E402 - the tool that `make test` uses too

PHONE = {"width": 390, "height": 844}
TABLE = {"width": 1280, "height": 900}
PATIENCE_S = 60
QUIET = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@dataclass
class Studio:
    """A running studio.

    Attributes
    ----------
    address : str
        Where it answers.
    door : str
        The address with the one-time key.
    """

    address: str
    door: str


@dataclass
class Watch:
    """What a page did that it should not.

    Attributes
    ----------
    outside : list of str
        Requests that left this machine.
    complaints : list of str
        What the browser complained of.
    """

    outside: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def opened(tmp_path_factory) -> Iterator[Studio]:
    """The demo studio, opened as anybody opens it."""
    folder = tmp_path_factory.mktemp("journeys")
    port, log = free_port(), folder / "log"
    environment = {k: v for k, v in os.environ.items() if not k.startswith(("WAREBOARD", "DJANGO"))}
    command = [sys.executable, "-m", "wareboard", "open", "--demo", "--no-browser"]
    command += ["--data", str(folder / "data"), "--port", str(port)]
    with log.open("wb") as out:
        server = subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT, env=environment)
    try:
        yield Studio(f"http://127.0.0.1:{port}", door_of(log, server))
    finally:
        server.terminate()
        server.wait(timeout=20)


def door_of(log: Path, server: subprocess.Popen[bytes]) -> str:
    """Wait until the studio says where it is."""
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end and server.poll() is None:
        found = re.search(r"http://127\.0\.0\.1:\d+/sign-in/\S+", log.read_text())
        if found:
            return found[0]
        time.sleep(0.1)
    raise AssertionError(f"the studio did not open:\n{log.read_text()}")


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="session")
def browser(playwright) -> Iterator[Browser]:
    path = find()
    assert path, "no Chromium was found: run `python tools/find_browser.py --install`"
    running = playwright.chromium.launch(executable_path=path, args=QUIET)
    yield running
    running.close()


@pytest.fixture(scope="session")
def signed_in_state(opened, browser) -> dict[str, object]:
    """Come in once, by the door."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(opened.door)
    state = context.storage_state()
    context.close()
    return state


def context_for(
    browser: Browser, state, *, size, scheme: str = "light", javascript: bool = True
) -> BrowserContext:
    return browser.new_context(
        viewport=size,
        color_scheme=scheme,
        storage_state=state,
        java_script_enabled=javascript,
        has_touch=size["width"] < 600,
    )


def watched(page: Page, address: str) -> Watch:
    """Note what leaves the machine and what the browser complains of."""
    watch = Watch()

    def asked(request) -> None:
        if not request.url.startswith((address, "data:", "blob:")):
            watch.outside.append(request.url)

    def complained(message) -> None:
        if message.type in {"error", "warning"}:
            watch.complaints.append(f"{page.url}: {message.text}")

    page.on("request", asked)
    page.on("console", complained)
    page.on("pageerror", lambda error: watch.complaints.append(f"{page.url}: {error}"))
    return watch
