"""Find a Chromium for the journeys; install one where that is allowed.

Prints the path. Order: ``WAREBOARD_BROWSER``, a browser on the path, the one
that Playwright keeps; with ``--install`` Debian's package, else Playwright's.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
MAC = Path("/Applications/Google Chrome.app/Contents/MacOS/Google Chrome")


def of_playwright() -> str | None:
    """Give the browser that Playwright has fetched before, if it is there."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - only where nothing else is found

    with sync_playwright() as playwright:
        path = playwright.chromium.executable_path
    return path if Path(path).exists() else None


def find() -> str | None:
    """Give the path of a browser, or None."""
    named = os.environ.get("WAREBOARD_BROWSER")
    if named:
        return named
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None and MAC.exists():
        return str(MAC)
    return found or of_playwright()


def install() -> None:
    """Install a browser in the way this machine allows."""
    apt = shutil.which("apt-get")
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    sudo = [] if root else ["sudo", "-n"]
    if apt and (
        root
        or (
            shutil.which("sudo")
            and subprocess.run(["sudo", "-n", "true"], check=False, capture_output=True).returncode
            == 0
        )
    ):
        subprocess.run([*sudo, apt, "update", "-qq"], check=False)
        done = subprocess.run(
            [*sudo, apt, "install", "-y", "-qq", "--no-install-recommends", "chromium"], check=False
        )
        if done.returncode == 0:
            return
    subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False)


def main() -> int:
    """Find or install, and say where it is."""
    path = find()
    if path is None and "--install" in sys.argv:
        install()
        path = find()
    if path is None:
        print(
            "No Chromium was found and none could be installed: install chromium, "
            "or name a browser in WAREBOARD_BROWSER.",
            file=sys.stderr,
        )
        return 1
    print(path)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
