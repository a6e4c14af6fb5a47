"""What journeys need to start a studio and a browser, and to watch a page."""

import re
import socket
import subprocess
import time
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page

PHONE = {"width": 390, "height": 844}
TABLE = {"width": 1280, "height": 900}
PATIENCE_S = 60


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


def door_of(log: Path, server: subprocess.Popen[bytes]) -> str:
    """Wait until the studio says where it is."""
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end and server.poll() is None:
        found = re.search(r"http://127\.0\.0\.1:\d+/sign-in/\S+", log.read_text())
        if found:
            return found[0]
        time.sleep(0.1)
    raise AssertionError(f"the studio did not open:\n{log.read_text()}")


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
