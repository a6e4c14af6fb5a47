"""What the documents say is so: links lead somewhere, commands run, names exist.

The lists on the pages are held against the program itself: layers, rooms,
decisions, published checks, files of others. A page that falls behind fails here.
"""

import importlib
import importlib.util
import re
import shlex
import subprocess
import sys
import tomllib
import types
from collections.abc import Iterator
from pathlib import Path

import pytest

import wareboard
from wareboard.cli.main import VERBS, main, program
from wareboard.cli.reckon import CALCULATIONS

ROOT = Path(__file__).parent.parent
SOURCE = ROOT / "src" / "wareboard"
EXAMPLES = ROOT / "examples"
PAGES = [
    *(ROOT / name for name in ("README.md", "CONTRIBUTING.md", "CHANGELOG.md")),
    *sorted((ROOT / "docs").rglob("*.md")),
    EXAMPLES / "README.md",
]
TEXTS = {str(page.relative_to(ROOT)): page.read_text(encoding="utf-8") for page in PAGES}
ARCHITECTURE = TEXTS["docs/architecture.md"]
FENCED = re.compile(r"^```(\w*)\n(.*?)^```", re.MULTILINE | re.DOTALL)
CODE = re.compile(r"`([^`\n]+)`")


def dead(page: str, text: str) -> Iterator[str]:
    """Give the links of a page that lead nowhere."""
    for target in re.findall(r"\]\(([^)\s]+)\)", FENCED.sub("", text)):
        path, _, place = target.partition("#")
        file = (ROOT / page).parent / path if path else ROOT / page
        if re.match(r"[a-z]+:", target):
            continue
        if not file.exists() or (place and place not in headings(file)):
            yield target


def headings(file: Path) -> set[str]:
    """Give the places of a page that a link can name."""
    heads = re.findall(r"^#+ (.+)$", file.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", head.lower()).replace(" ", "-") for head in heads}


@pytest.mark.parametrize("page", TEXTS)
def test_every_link_leads_somewhere(page):
    assert list(dead(page, TEXTS[page])) == []


FENCED_COMMANDS = [
    shlex.split(line, comments=True)
    for text in TEXTS.values()
    for _kind, block in FENCED.findall(text)
    for line in block.splitlines()
    if line.startswith("wareboard ")
]
SUMS = [words[1:] for words in FENCED_COMMANDS if words[1] == "reckon"]
OTHERS = [words[1:] for words in FENCED_COMMANDS if words[1] != "reckon"]


@pytest.mark.parametrize("arguments", SUMS, ids=" ".join)
def test_every_calculation_on_a_page_runs(arguments, monkeypatch, capsys):
    monkeypatch.chdir(EXAMPLES)

    code = main(arguments)

    assert (code, capsys.readouterr().err) == (0, "")


@pytest.mark.parametrize("arguments", OTHERS, ids=" ".join)
def test_every_other_command_on_a_page_is_understood(arguments):
    name, *options = arguments
    command = program.get_command(program.make_context("wareboard", []), name)

    assert command is not None
    assert command.make_context(name, options).params


def test_the_readme_shows_what_its_first_calculation_says(monkeypatch, capsys):
    blocks = FENCED.findall(TEXTS["README.md"])
    (shown,) = (block for kind, block in blocks if kind == "text")
    monkeypatch.chdir(EXAMPLES)

    main(SUMS[0])

    assert capsys.readouterr().out == shown


def test_every_verb_in_a_sentence_exists():
    named = {
        tuple(code.split()[1:3])
        for text in TEXTS.values()
        for code in CODE.findall(FENCED.sub("", text))
        if code.startswith("wareboard ")
    }

    verbs = {words[0] for words in named}
    sums = {
        words[1] for words in named if words[0] == "reckon" and words[1:] and words[1].islower()
    }
    assert verbs - set(VERBS) == set()
    assert sums - set(CALCULATIONS) == set()


def test_every_make_target_named_exists():
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    targets = set(re.findall(r"^([a-z]+):", makefile, re.MULTILINE))
    code = [
        part
        for text in TEXTS.values()
        for part in (*CODE.findall(text), *(block for _kind, block in FENCED.findall(text)))
    ]
    named = {
        target
        for part in code
        for target in re.findall(r"^make (?:[A-Z]+=\S+ )?([a-z]+)", part, re.MULTILINE)
    }

    assert {"demo", "test"} <= named
    assert named - targets == set()


def test_the_wheel_named_in_the_readme_is_of_this_version():
    named = re.findall(r"wareboard-([\d.]+)-py3", TEXTS["README.md"])

    assert named == [wareboard.__version__]


NAMED_FILES = sorted(
    {
        code
        for text in TEXTS.values()
        for code in CODE.findall(FENCED.sub("", text))
        if re.match(r"(?:src|tests|tools|docs|examples|benchmarks|requirements)/[^<* ]*$", code)
    }
)


@pytest.mark.parametrize("name", NAMED_FILES)
def test_every_file_named_exists(name):
    assert (ROOT / name).exists()


NAMED_IN_CODE = sorted(
    {
        code
        for text in TEXTS.values()
        for code in CODE.findall(FENCED.sub("", text))
        if re.fullmatch(r"wareboard(?:\.\w+)+", code) and not code.endswith(".css")
    }
)


@pytest.mark.parametrize("name", NAMED_IN_CODE)
def test_every_module_and_function_named_exists(name):
    parts = name.split(".")
    found = importlib.import_module(parts[0])
    for attribute in parts[1:]:
        if isinstance(found, types.ModuleType) and not hasattr(found, attribute):
            found = importlib.import_module(f"{found.__name__}.{attribute}")
        else:
            found = getattr(found, attribute)

    assert found is not None


def packages_in(folder: Path) -> set[str]:
    return {path.parent.name for path in folder.glob("*/__init__.py")}


def test_the_picture_of_the_layers_and_its_table_name_every_layer():
    table = set(re.findall(r"^\| `wareboard\.(\w+)` \|", ARCHITECTURE, re.MULTILINE))
    picture = (ROOT / "docs" / "pictures" / "layers.svg").read_text(encoding="utf-8")
    drawn = set(re.findall(r'<text class="name"[^>]*>(\w+)<', picture))

    assert table == packages_in(SOURCE)
    assert drawn == packages_in(SOURCE)


@pytest.mark.parametrize("layer", ["records", "core"])
def test_the_architecture_names_every_room(layer):
    named = set(CODE.findall(ARCHITECTURE))

    assert packages_in(SOURCE / layer) - named == set()


def test_the_number_that_is_followed_comes_out_as_the_page_says(demo_client):
    quoted = re.findall(r"^   > (.+)$", ARCHITECTURE, re.MULTILINE)

    reply = demo_client.post(
        "/glazes/buckets/limpet-bucket-2/",
        {"full_g": "748", "in_bucket_l": "7"},
        headers={"HX-Request": "true"},
    )

    answer = reply.context["answer"]
    assert quoted == [answer.say, f"{answer.working} {answer.doubt}"]


def test_the_readings_behind_it_are_those_the_page_says(demo_member):
    from wareboard.core.slop import density_from_bottle  # noqa: PLC0415 - beside its use
    from wareboard.records.glazes.bridge import (  # noqa: PLC0415 - needs Django
        liked_density,
        water_for,
    )
    from wareboard.records.glazes.models import Bucket  # noqa: PLC0415 - as above
    from wareboard.records.shelf.queries import readings_of_good_pots  # noqa: PLC0415 - as above

    glaze = Bucket.objects.get(pk="limpet-bucket-2").glaze
    liked = liked_density(readings_of_good_pots(demo_member, glaze), scale_step_g=1.0)
    density = density_from_bottle(748.0, 212.0, 365.0)
    spread = density.doubt["sg"]
    needed = water_for(7.0, density, liked)

    assert (liked.readings, f"{liked.sg:.2f}", f"{liked.half:.3f}") == (5, "1.50", "0.006")
    told = (f"{density.result.sg:.4f}", f"{spread.low:.3f}", f"{spread.high:.3f}")
    assert f"gravity of {told[0]}, somewhere from {told[1]} to {told[2]}" in ARCHITECTURE
    ends = needed.doubt["water_ml"]
    said = f"says −{-needed.result.water_ml:.0f} ml for seven litres, "
    said += f"from −{-ends.low:.0f} to −{-ends.high:.0f}"
    assert said in ARCHITECTURE


def test_a_table_that_is_added_is_handed_out_too():
    from django.apps import apps  # noqa: PLC0415 - needs Django

    from wareboard.records.keeping.tables import KEPT  # noqa: PLC0415 - as above
    from wareboard.records.people.models import Attempt, Person, SignInKey  # noqa: PLC0415 - as above

    of_the_record = {
        model for model in apps.get_models() if model.__module__.startswith("wareboard.records.")
    }

    # Who may sign in belongs to one machine, not to the record.
    assert of_the_record - {kept.model for kept in KEPT} == {Attempt, Person, SignInKey}


def test_a_table_that_is_changed_has_its_migration(db, capsys):
    from django.core.management import call_command  # noqa: PLC0415 - needs Django

    call_command("makemigrations", dry_run=True, verbosity=1)

    assert capsys.readouterr().out == "No changes detected\n"


def test_the_list_of_decisions_is_whole():
    pages = sorted(p.name for p in (ROOT / "docs" / "decisions").glob("[0-9]*.md"))
    listed = re.findall(r"\]\((\d[^)]*\.md)\)", TEXTS["docs/decisions/README.md"])

    assert listed == pages
    assert [int(name[:4]) for name in pages] == list(range(1, len(pages) + 1))


def make_validation() -> types.ModuleType:
    path = ROOT / "tools" / "make_validation.py"
    spec = importlib.util.spec_from_file_location("make_validation", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["make_validation"] = module
    spec.loader.exec_module(module)
    return module


def test_the_validation_page_lists_what_the_markers_list():
    done = subprocess.run(
        [sys.executable, "tools/make_validation.py", "--check"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )

    assert (done.returncode, done.stderr) == (0, "")


def test_figures_of_the_long_checks_outlive_a_new_page():
    tool = make_validation()
    figures = f"{tool.PROOF[0]}\n| search | 0.3 s |\n{tool.PROOF[1]}"

    page = tool.written([], f"an older page\n\n{figures}\n")

    assert tool.proof_of(page) == figures


def test_files_of_others_are_named_with_their_licence():
    notice = (ROOT / "NOTICE").read_text(encoding="utf-8")
    static = SOURCE / "web" / "static" / "wareboard"
    taken = tomllib.loads((static / "vendor" / "VENDORED.toml").read_text(encoding="utf-8"))
    lines = [re.split(r"  +", line.strip()) for line in notice.splitlines()]
    listed = {tuple(cells) for cells in lines if len(cells) == 3}

    assert listed == {
        *(
            (f"{t['name']} {t['version']}", t["licence"], f"vendor/{t['licence_file']}")
            for t in taken["taken"]
        ),
        ("Atkinson Hyperlegible", "OFL-1.1", "fonts/OFL.txt"),
    }
    assert [cells[2] for cells in listed if not (static / cells[2]).is_file()] == []
