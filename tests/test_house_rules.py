"""The house rules that no linter knows.

Which package may import which is held by the contracts in ``pyproject.toml``;
here stands what is finer: the order inside a room, the names and lengths of
files, what a template must say, and what may not be written anywhere.
"""

import ast
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
SOURCE = ROOT / "src" / "wareboard"
ROOMS = ("people", "pictures", "stores", "glazes", "ware", "kiln", "shelf")
# urls → views → forms → actions → queries → bridge → models: each may know those after it.
ORDER = ("urls", "views", "forms", "actions", "queries", "bridge", "models")
NO_NAMES = {"utils.py", "helpers.py", "common.py", "misc.py"}
LONGEST = 400


def tracked(*patterns: str) -> list[Path]:
    """Give the files that git knows."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", *patterns],
        cwd=ROOT,
        check=True,
        capture_output=True,
    ).stdout.decode()
    return [ROOT / name for name in listed.split("\0") if name and (ROOT / name).is_file()]


PYTHON = [path for path in tracked("*.py") if "migrations" not in path.parts]
TEMPLATES = tracked("src/wareboard/**/*.html", "src/wareboard/*.html")


def imports_of(path: Path) -> set[str]:
    """Give the modules a file imports, written out."""
    package = ".".join(path.relative_to(ROOT / "src").with_suffix("").parts[:-1])
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package if node.level else ""
            module = ".".join(part for part in (base, node.module or "") if part)
            found |= {module} | {f"{module}.{alias.name}" for alias in node.names}
    return found


def test_no_file_is_longer_than_four_hundred_lines():
    long = {
        str(path.relative_to(ROOT)): lines
        for path in PYTHON
        if (lines := len(path.read_text(encoding="utf-8").splitlines())) > LONGEST
    }

    assert long == {}


def test_files_are_named_after_what_they_know():
    assert [str(path) for path in PYTHON if path.name in NO_NAMES] == []


@pytest.mark.parametrize("room", ROOMS)
def test_inside_a_room_imports_point_from_the_address_to_the_models(room):
    folder = SOURCE / "records" / room
    against = []
    for place, name in enumerate(ORDER):
        path = folder / f"{name}.py"
        if not path.exists():
            continue
        own = f"wareboard.records.{room}."
        known = {
            module.removeprefix(own).split(".")[0]
            for module in imports_of(path)
            if module.startswith(own)
        }
        against += [(name, earlier) for earlier in ORDER[:place] if earlier in known]

    assert against == []


def test_views_leave_the_database_to_queries_and_actions():
    guilty = [
        str(path.relative_to(ROOT))
        for path in [*SOURCE.glob("records/*/views.py"), *SOURCE.glob("web/pages/*.py")]
        if re.search(r"\.objects\b", path.read_text(encoding="utf-8"))
    ]

    assert guilty == []


def test_every_module_says_what_it_is():
    silent = [
        str(path.relative_to(ROOT))
        for path in PYTHON
        if ROOT / "tests" not in path.parents
        and not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    ]

    assert silent == []


def test_a_fragment_says_what_it_needs():
    silent = [
        str(path.relative_to(ROOT))
        for path in TEMPLATES
        if path.name.startswith("_")
        and not path.read_text(encoding="utf-8").startswith(("{# Needs", "{# Goes"))
    ]

    assert silent == []


@pytest.mark.parametrize(
    ("what", "pattern"),
    [
        ("an inline style", r"\sstyle\s*="),
        ("an inline script", r"<script(?![^>]*\ssrc=)"),
        ("an inline handler", r"\son[a-z]+\s*="),
        ("something from outside", r"(?:src|href)\s*=\s*[\"']?(?:https?:)?//"),
    ],
)
def test_no_template_holds(what, pattern):
    guilty = [
        str(path.relative_to(ROOT))
        for path in TEMPLATES
        if re.search(pattern, path.read_text(encoding="utf-8"))
    ]

    assert guilty == [], what


def test_the_style_sheet_fetches_nothing_from_outside():
    sheets = tracked("src/wareboard/web/static/wareboard/*.css")

    assert sheets
    assert [
        p.name for p in sheets if re.search(r"url\([\"']?(?:https?:)?//|@import", p.read_text())
    ] == []


def test_the_locks_name_no_registry():
    locks = sorted((ROOT / "requirements").glob("*.txt"))

    assert [lock.name for lock in locks] == ["dev.txt", "run.txt"]
    assert [lock.name for lock in locks if "://" in lock.read_text(encoding="utf-8")] == []


def test_what_runs_is_locked_for_the_checks_too():
    def pins(name: str) -> set[str]:
        text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
        return set(re.findall(r"^[a-z0-9][\w.-]*==\S+", text, re.MULTILINE))

    assert pins("run.txt") - pins("dev.txt") == set()


def test_nothing_we_ship_calls_a_pot_safe_to_eat_from():
    claim = re.compile(r"food[ -]?safe", re.IGNORECASE)
    shipped = [
        *tracked("src/wareboard/**/*.py", "src/wareboard/**/*.html", "docs/*.md", "README.md")
    ]

    assert [
        str(p.relative_to(ROOT)) for p in shipped if claim.search(p.read_text(encoding="utf-8"))
    ] == []


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_has_migrations_that_are_found(room):
    assert (SOURCE / "records" / room / "migrations" / "__init__.py").exists()


def test_every_migration_is_all_or_nothing():
    guilty = [
        str(path.relative_to(ROOT))
        for path in tracked("src/wareboard/records/*/migrations/*.py")
        if re.search(r"^\s*atomic\s*=\s*False", path.read_text(encoding="utf-8"), re.MULTILINE)
    ]

    assert guilty == []
