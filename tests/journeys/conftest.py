"""A real browser at a real server, on a demo studio of its own."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from browsers import QUIET, Studio, door_of, free_port
from playwright.sync_api import Browser, Playwright, sync_playwright

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))

from find_browser import find  # noqa: E402 - the tool that `make test` uses too


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
