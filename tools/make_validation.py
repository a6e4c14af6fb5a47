"""Write ``docs/validation.md``: what is held against pages that somebody else printed.

The checks themselves are the tests in ``tests/published``; their markers say
which source, where in it, and how close. They are run first, and the page is
written only if each of them ends as its marker says. With ``--check`` nothing is
run or written: it only says whether the page lists what the markers list.

What stands between the two marks of ``PROOF`` is left as it is; the long checks
(``make proof``) put their figures there.
"""

import ast
import contextlib
import io
import re
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "validation.md"
TESTS = "tests/published"
QUIET = ["-q", "-m", "published", "-p", "no:cacheprovider", "--rootdir", str(ROOT)]
PROOF = ("<!-- proof: begin -->", "<!-- proof: end -->")
NO_PROOF = f"{PROOF[0]}\nNo figures yet: `make proof` puts them here.\n{PROOF[1]}"

KNOWN_WRONG = "known wrong"
READ, RECALLED, MISTAKEN = "read", "from memory", "read; the page is wrong"
COPIED = "copied rightly"

AREAS = {
    "chemistry": "Oxides, minerals and the unity formula",
    "recipe": "Recipes",
    "slop": "Slop: powder, water, density",
    "coat": "Coats",
    "pot": "Pots: surface, pores, shrinkage",
    "drying": "Drying",
    "firing": "Heat-work and cones",
    "melt": "The melt",
    "packing": "Packing",
    "why": "What changed",
    "": "More",
}

NOTES = {
    "firing": """\
The law of heat-work is the cone chart read the other way round. What says something about the law
itself are the checks on holds and on how a cone bends. A listing that was printed apart from the
chart shows that the chart's own numbers stand.
""",
}

COPIED_NOTE = """\
Our own tables were typed from these very pages, and a steady climb meets the chart by construction.
So these checks show that the numbers were copied and turned round without a slip, and nothing more.
"""

RECALLED_NOTE = """\
Nobody has read these numbers on a page: they were recalled, and wait to be looked up. Until then
they prove nothing. The cones among them stand in our own table just as they were recalled, so for
these a check shows only that they were copied rightly.
"""

HEAD = """\
# What is held against other people's numbers

Made by `make docs` from the markers in [`tests/published`](../tests/published); not written by
hand.

Every number that is expected here is somebody else's: a book, a data sheet, a post, a chart. None
was reckoned by this program first. They do not all prove as much, so they are counted apart:
numbers that were read on the page that is named; numbers that our own tables were copied from; and,
in a table of their own at the end, numbers from memory, which nobody has looked up yet.

- **agreement** is how close it has to come: from the digits that were printed, or, where the page
  says "about", from what we took that to mean.
- **read**: the number was read where it says. **copied rightly**: it was read there, and our own
  table was typed from it. **read; the page is wrong**: the check shows by how much. **from
  memory**: it was recalled and waits to be looked up.
- **does not agree**: the program gives another number, for the reason that is named. Such a check
  is kept on purpose, and fails as soon as the numbers do agree.
"""

PROOF_HEAD = """\
## The long checks

`make proof` runs these: simulations and searches that take minutes, with their seeds, so that the
same figures come out again.
"""


@dataclass(frozen=True)
class Check:
    """One place of one source, held by one test.

    Attributes
    ----------
    file : str
        Name of the test's file.
    line : int
        Where in it the test begins.
    key : str
        Short name of the source, as in the marker.
    where : str
        Place in the source.
    says : str
        What is held, in the words of the test's name.
    agreement : str
        How close it has to come.
    why_not : str
        Why the program does not agree; blank where it does.
    copied : bool
        Whether our own table was typed from this place.
    """

    file: str
    line: int
    key: str
    where: str
    says: str
    agreement: str
    why_not: str
    copied: bool

    @property
    def standing(self) -> str:
        """How far the printed number itself can be trusted."""
        if self.agreement == KNOWN_WRONG:
            return MISTAKEN
        if RECALLED in f"{self.key} {self.where}":
            return RECALLED
        return COPIED if self.copied else READ

    @property
    def ends(self) -> str:
        """How it ends, for people."""
        return f"**does not agree**: {self.why_not}" if self.why_not else "agrees"


class Listener:
    """Hears from pytest which checks there are."""

    def __init__(self) -> None:
        self.checks: list[Check] = []

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Note what each marker says."""
        for item in session.items:
            mark = item.get_closest_marker("published")
            assert mark is not None  # noqa: S101 - the only kind that was asked for
            fails = item.get_closest_marker("xfail")
            path, line, _name = item.location
            name = getattr(item, "originalname", item.name)
            self.checks.append(
                Check(
                    file=Path(path).name,
                    line=line or 0,
                    key=str(mark.args[0]),
                    where=str(mark.kwargs["where"]),
                    says=in_words(name),
                    agreement=str(mark.kwargs["agreement"]),
                    why_not=str(fails.kwargs["reason"]).rstrip(".") if fails else "",
                    copied=bool(mark.kwargs.get("copied", False)),
                )
            )


def in_words(name: str) -> str:
    """Turn a test's name back into its sentence; 83_3 is 83.3.

    Parameters
    ----------
    name : str
        Name of the function.
    """
    return re.sub(r"(?<=\d)_(?=\d)", ".", name.removeprefix("test_")).replace("_", " ")


def collected(*, run: bool) -> list[Check]:
    """Ask pytest for the checks.

    Parameters
    ----------
    run : bool
        Whether to run them too.

    Raises
    ------
    SystemExit
        If they cannot be collected, or one does not end as its marker says.
    """
    listener = Listener()
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        options = [] if run else ["--collect-only"]
        code = pytest.main([*QUIET, *options, str(ROOT / TESTS)], plugins=[listener])
    if code != pytest.ExitCode.OK:
        raise SystemExit(f"{said.getvalue()}\nThe page is not written.")
    return listener.checks


def source_of(file: str) -> str:
    """Give the first paragraph of a test file: what its source is."""
    text = (ROOT / TESTS / file).read_text(encoding="utf-8")
    said = ast.get_docstring(ast.parse(text)) or ""
    return " ".join(said.split("\n\n")[0].split())


def area_of(file: str) -> str:
    """Give the room of the core that a test file asks first; blank where it asks none."""
    text = (ROOT / TESTS / file).read_text(encoding="utf-8")
    rooms = re.findall(r"^from wareboard\.core\.(\w+)", text, re.MULTILINE)
    return next((room for room in rooms if room in AREAS), "")


def cell(text: str) -> str:
    """Write a text so that it stays one cell of a table."""
    return text.replace("|", "\\|")


def section(file: str, checks: Iterable[Check]) -> list[str]:
    """Write what one source says, one line a place."""
    lines = [
        f"**{cell(source_of(file))}** [{file}](../{TESTS}/{file})",
        "",
        "| where | what is held | checks | agreement | standing | |",
        "|---|---|---:|---|---|---|",
    ]
    for check, same in groupby(checks):
        cells = (check.where, check.says, str(len(list(same))))
        ends = (check.agreement, check.standing, check.ends)
        lines.append("| " + " | ".join(map(cell, (*cells, *ends))) + " |")
    return [*lines, ""]


def sections(checks: Iterable[Check]) -> list[str]:
    """Write what several sources say, in the order of their files."""
    lines = []
    for file, of_file in groupby(checks, key=lambda c: c.file):
        lines += section(file, of_file)
    return lines


def table_of_recalled(checks: Iterable[Check]) -> list[str]:
    """Write what was recalled and not read, one line a place."""
    lines = ["| test | what was recalled | what is held | checks | agreement | |"]
    lines += ["|---|---|---|---:|---|---|"]
    for check, same in groupby(checks):
        linked = f"[{check.file}](../{TESTS}/{check.file})"
        cells = (linked, check.where, check.says, str(len(list(same))))
        lines.append("| " + " | ".join(map(cell, (*cells, check.agreement, check.ends))) + " |")
    return [*lines, ""]


def counts(checks: Sequence[Check]) -> list[str]:
    """Count on top what the page holds."""
    agree = [check for check in checks if not check.why_not]
    by = {
        "agree with a number that was read": sum(c.standing == READ for c in agree),
        "copied rightly: our own table was typed from that number": sum(
            c.standing == COPIED for c in agree
        ),
        "agree with a number from memory, which waits to be looked up": sum(
            c.standing == RECALLED for c in agree
        ),
        "show by how much a printed number is wrong": sum(c.standing == MISTAKEN for c in agree),
        "do not agree, each with its reason": len(checks) - len(agree),
    }
    sources = len({check.key for check in checks})
    return [
        f"{len(checks)} checks from {sources} sources:",
        "",
        "| checks | |",
        "|---:|---|",
        *(f"| {count} | {what} |" for what, count in by.items()),
        "",
    ]


def proof_of(page: str) -> str:
    """Give the block of the long checks as it stands in a page, or an empty one."""
    begin, end = (re.escape(mark) for mark in PROOF)
    found = re.search(f"{begin}.*?{end}", page, re.DOTALL)
    return found[0] if found else NO_PROOF


def written(checks: Sequence[Check], before: str) -> str:
    """Write the page.

    Parameters
    ----------
    checks : sequence of Check
        One entry for each check that was collected.
    before : str
        The page as it was; its block of the long checks is kept.
    """
    places = list(AREAS)
    areas = {check.file: area_of(check.file) for check in checks}

    def order(check: Check) -> tuple[int, str, int, str]:
        return places.index(areas[check.file]), check.file, check.line, check.why_not

    lines = [HEAD, *counts(checks)]
    in_order = sorted(checks, key=order)
    recalled = [check for check in in_order if check.standing == RECALLED]
    looked_up = [check for check in in_order if check.standing != RECALLED]
    for area, found in groupby(looked_up, key=lambda c: areas[c.file]):
        of_area = list(found)
        copied = [check for check in of_area if check.standing == COPIED]
        lines += [f"## {AREAS[area]}", "", *([NOTES[area]] if area in NOTES else [])]
        lines += sections([check for check in of_area if check.standing != COPIED])
        if copied:
            lines += [f"### Copied rightly: {len(copied)} checks", "", COPIED_NOTE]
            lines += sections(copied)
    if recalled:
        lines += [f"## From memory, to be looked up: {len(recalled)} checks", "", RECALLED_NOTE]
        lines += table_of_recalled(recalled)
    return "\n".join([*lines, PROOF_HEAD, proof_of(before), ""])


def main() -> int:
    """Write the page, or only say whether it is in step."""
    only_look = "--check" in sys.argv[1:]
    checks = collected(run=not only_look)
    before = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    page = written(checks, before)
    if only_look:
        if page == before:
            return 0
        print("docs/validation.md is not what the markers say: run `make docs`.", file=sys.stderr)
        return 1
    PAGE.write_text(page, encoding="utf-8", newline="\n")
    print(f"docs/validation.md: {len(checks)} checks")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
