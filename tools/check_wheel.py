"""Build the wheel, hold its list against the tree, install it elsewhere and start it.

Data files fall out of a wheel without a word; so every file that git knows
under ``src/wareboard`` must be in it, and a fresh environment must open the
demo studio from it.
"""

import json
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
import venv
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WAIT_S = 60


def build(target: Path) -> Path:
    """Build the wheel from a copy of the tracked tree."""
    subprocess.run(
        [
            sys.executable,
            "-m",
            "build",
            "--wheel",
            "--no-isolation",
            "--outdir",
            str(target),
            str(ROOT),
        ],
        check=True,
        stdout=subprocess.DEVNULL,
    )
    (wheel,) = target.glob("*.whl")
    return wheel


def missing_from(wheel: Path) -> set[str]:
    """Name tracked files of the package that the wheel lacks."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "src/wareboard"], cwd=ROOT, check=True, capture_output=True
    ).stdout
    tracked = {name.removeprefix("src/") for name in listed.decode().split("\0") if name}
    with zipfile.ZipFile(wheel) as archive:
        return tracked - set(archive.namelist())


def install(wheel: Path, folder: Path) -> Path:
    """Install the wheel and the locked parts into an empty environment."""
    venv.create(folder, with_pip=True)
    python = folder / ("Scripts" if os.name == "nt" else "bin") / "python"
    pip = [str(python), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run(
        [*pip, "--require-hashes", "-r", str(ROOT / "requirements" / "run.txt")], check=True
    )
    subprocess.run([*pip, "--no-deps", str(wheel)], check=True)
    return python


def free_port() -> int:
    """Find a port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def starts(python: Path, folder: Path) -> str:
    """Open the demo studio from the wheel and read its first page."""
    port = free_port()
    environment = {**os.environ, "PYTHONPATH": ""}
    command = [str(python), "-m", "wareboard", "open", "--demo", "--no-browser"]
    command += ["--data", str(folder / "dämo studio"), "--port", str(port)]
    log = folder / "log"
    with log.open("wb") as out:
        server = subprocess.Popen(
            command, cwd=folder, env=environment, stdout=out, stderr=subprocess.STDOUT
        )
        try:
            end = time.monotonic() + WAIT_S
            while time.monotonic() < end:
                found = re.search(rb"http://127\.0\.0\.1:\d+/sign-in/\S+", log.read_bytes())
                if found:
                    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
                    try:
                        with opener.open(found[0].decode(), timeout=10) as page:
                            return str(page.read().decode())
                    except OSError:
                        pass
                time.sleep(0.2)
        finally:
            server.terminate()
            server.wait(timeout=15)
    raise SystemExit(f"The demo studio did not open from the wheel:\n{log.read_text()}")


def main() -> None:
    """Run all three checks."""
    with tempfile.TemporaryDirectory(prefix="wareboard wheel ") as name:
        folder = Path(name)
        wheel = build(folder / "dist")
        lacking = missing_from(wheel)
        if lacking:
            raise SystemExit("The wheel lacks:\n  " + "\n  ".join(sorted(lacking)))
        python = install(wheel, folder / "environment")
        version = subprocess.run(
            [
                str(python),
                "-m",
                "wareboard",
                "reckon",
                "slop",
                "--sg",
                "1.5",
                "--solid",
                "2.5",
                "--json",
            ],
            check=True,
            capture_output=True,
            cwd=folder,
        )
        assert round(json.loads(version.stdout)["result"]["dry_g"]) == 833, version.stdout  # noqa: S101,PLR2004 - Brongniart's own figure
        page = starts(python, folder)
        if "Culverhythe" not in page:
            raise SystemExit("The first page is not the demo studio's.")
        size = wheel.stat().st_size / 1e6
        print(f"wheel {wheel.name}: {size:.1f} MB, complete, installs alone, opens the demo studio")
        shutil.rmtree(folder / "environment", ignore_errors=True)


if __name__ == "__main__":
    main()
