"""Run the long checks and write their figures, with the commit, into docs/validation.md.

    python tools/proof.py            # all of them, some ten minutes
    python tools/proof.py kills      # one of them

What `make test` runs is a seeded tenth of each or less.
"""

import os
import re
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

from make_validation import PROOF

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "validation.md"
CHECKS = {
    "kills": ("tools/proof_kills.py", "The whole server killed while four clients write"),
    "damage": ("tools/proof_damage.py", "Backups damaged at random and put back"),
    "power": ("tools/proof_power_cuts.py", "Power cuts, simulated from a watched run"),
}


def commit() -> str:
    """Name the commit, and say where the tree differs from it."""

    def git(*words: str) -> str:
        done = subprocess.run(["git", *words], cwd=ROOT, check=True, capture_output=True, text=True)
        return done.stdout.strip()

    changed = ", with changes" if git("status", "--porcelain", "src") else ""
    return git("rev-parse", "--short", "HEAD") + changed


def told_before() -> dict[str, str]:
    """Read the figures that stand on the page."""
    begin, end = (re.escape(mark) for mark in PROOF)
    block = re.search(f"{begin}(.*?){end}", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    found = re.findall(r"<!-- (\w+) -->\n(.*?)(?=\n<!-- |\Z)", block[1] if block else "", re.DOTALL)
    return {name: text.strip() for name, text in found}


def main() -> int:
    """Run what was asked for; a check that fails is written down as failed."""
    wanted = sys.argv[1:] or list(CHECKS)
    told, failed = told_before(), False
    for name in wanted:
        script, title = CHECKS[name]
        print(f"{title} …", flush=True)
        done = subprocess.run(
            [sys.executable, script], cwd=ROOT, capture_output=True, text=True, check=False
        )
        failed = failed or done.returncode != 0
        state = "as it should be" if done.returncode == 0 else "NOT as it should be"
        day = f"{datetime.now(UTC):%d %B %Y}"
        cores = os.cpu_count()
        head = f"**{title}**: {state}. Commit {commit()}, {day}, {cores} cores.\n\n"
        told[name] = f"{head}```\n{done.stdout.strip()}\n```"
        print(done.stdout, done.stderr, sep="\n")
    body = "\n\n".join(f"<!-- {name} -->\n{told[name]}" for name in CHECKS if name in told)
    page = PAGE.read_text(encoding="utf-8")
    start, stop = page.index(PROOF[0]), page.index(PROOF[1])
    PAGE.write_text(f"{page[:start]}{PROOF[0]}\n{body}\n{page[stop:]}", encoding="utf-8")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
