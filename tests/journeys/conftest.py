"""A real browser at a real server, on a demo studio of its own."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from browsers import Studio, door_of, free_port
from playwright.sync_api import Browser


@contextmanager
def opening(folder: Path) -> Iterator[Studio]:
    """Open the demo studio as anybody opens it, on a data folder of its own."""
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


def come_in(browser: Browser, studio: Studio) -> dict[str, object]:
    """Go in by the door and keep what the browser was given."""
    context = browser.new_context()
    context.new_page().goto(studio.door)
    state = context.storage_state()
    context.close()
    return state


@pytest.fixture(scope="session")
def opened(tmp_path_factory) -> Iterator[Studio]:
    """The demo studio, for whoever only looks."""
    with opening(tmp_path_factory.mktemp("journeys")) as studio:
        yield studio


@pytest.fixture
def opened_anew(tmp_path, browser) -> Iterator[tuple[Studio, dict[str, object]]]:
    """The demo studio of one test alone, which may change it."""
    with opening(tmp_path) as studio:
        yield studio, come_in(browser, studio)


@pytest.fixture(scope="session")
def signed_in_state(opened, browser) -> dict[str, object]:
    """Come in once, by the door."""
    return come_in(browser, opened)
