"""Photograph the demo studio for the README: the phone beside the table.

Opens the demo in a data folder that goes away, takes two pictures of Today in a
real browser, and puts them side by side into ``docs/pictures/today.png``.
"""

import io
import re
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from find_browser import find
from PIL import Image
from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
PICTURE = ROOT / "docs" / "pictures" / "today.png"
PHONE = (390, 844)
TABLE = (1280, 844)
GAP_PX = 30
EDGE = "#b9ada0"
MOST_BYTES = 200_000
WAIT_S = 60
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"]


def free_port() -> int:
    """Find a port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def way_in(log: Path) -> str:
    """Wait for the address that the studio prints."""
    end = time.monotonic() + WAIT_S
    while time.monotonic() < end:
        found = re.search(r"http://127\.0\.0\.1:\d+/sign-in/\S+", log.read_text(encoding="utf-8"))
        if found:
            return found[0]
        time.sleep(0.2)
    raise SystemExit(f"The demo studio did not open:\n{log.read_text(encoding='utf-8')}")


def photographs(browser: Browser, address: str) -> list[Image.Image]:
    """Take Today in the hand and at the table, signed in once."""
    first = browser.new_context(color_scheme="light")
    page = first.new_page()
    page.goto(address)
    home, signed_in = page.url, first.storage_state()
    taken = []
    for width, height in (PHONE, TABLE):
        context = browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme="light",
            storage_state=signed_in,
        )
        page = context.new_page()
        page.goto(home, wait_until="networkidle")
        taken.append(Image.open(io.BytesIO(page.screenshot())).convert("RGB"))
    return taken


def side_by_side(pictures: list[Image.Image]) -> Image.Image:
    """Put pictures of one height beside each other, each with a thin edge."""
    width = sum(p.width + 2 for p in pictures) + GAP_PX * (len(pictures) - 1)
    whole = Image.new("RGBA", (width, pictures[0].height + 2), (0, 0, 0, 0))
    left = 0
    for picture in pictures:
        framed = Image.new("RGB", (picture.width + 2, picture.height + 2), EDGE)
        framed.paste(picture, (1, 1))
        whole.paste(framed, (left, 0))
        left += framed.width + GAP_PX
    return whole.quantize(128)


def main() -> int:
    """Take the picture, and refuse one that is too large for a README."""
    port = str(free_port())
    with tempfile.TemporaryDirectory(prefix="wareboard picture ") as name:
        folder = Path(name)
        log = folder / "log"
        command = [sys.executable, "-m", "wareboard", "open", "--demo", "--no-browser"]
        command += ["--data", str(folder / "demo"), "--port", port]
        with log.open("wb") as out:
            studio = subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT)
            try:
                address = way_in(log)
                with sync_playwright() as play:
                    browser = play.chromium.launch(executable_path=find(), args=QUIET)
                    whole = side_by_side(photographs(browser, address))
                    browser.close()
            finally:
                studio.terminate()
                studio.wait(timeout=15)
    whole.save(PICTURE, optimize=True)
    size = PICTURE.stat().st_size
    print(f"{PICTURE.relative_to(ROOT)}: {size // 1000} kB")
    return 1 if size > MOST_BYTES else 0


if __name__ == "__main__":
    raise SystemExit(main())
