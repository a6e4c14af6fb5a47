"""The program as it is installed: real processes, few of them."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
UNITY = ("reckon", "unity", "limestone.csv", "--json")


def program(*arguments: str | bytes, **settings: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "wareboard", *arguments],
        cwd=EXAMPLES,
        capture_output=True,
        check=False,
        env=os.environ | settings,
    )


def test_a_real_run_answers_with_one_object() -> None:
    done = program(*UNITY)

    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout)["reckoned"] == "unity"


def test_a_real_failure_has_exit_code_2_and_nothing_on_standard_output() -> None:
    done = program("reckon", "unity", "none.csv")

    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr.decode().strip() == "none.csv: the file is not there."


def test_the_command_and_the_module_are_the_same_program() -> None:
    command = Path(sys.executable).with_name("wareboard")

    done = subprocess.run([command, *UNITY], cwd=EXAMPLES, capture_output=True, check=True)

    assert done.stdout == program(*UNITY).stdout


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "utf-8"])
def test_an_answer_is_shown_on_any_terminal(encoding: str) -> None:
    done = program("reckon", "solid", "limestone.csv", PYTHONIOENCODING=encoding)

    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(sys.platform == "win32", reason="file names are text on Windows")
def test_a_file_name_that_is_no_text_is_refused_in_text() -> None:
    done = program("reckon", "unity", b"\xff.csv", "--json")

    assert done.returncode == 2
    assert json.loads(done.stdout)["error"]["field"] == "recipe"


@pytest.mark.skipif(sys.platform == "win32", reason="pipes end otherwise on Windows")
@pytest.mark.parametrize("arguments", [UNITY, ("reckon", "unity", "none.csv", "--json")])
def test_a_reader_that_leaves_is_no_reason_to_shout(arguments: tuple[str, ...]) -> None:
    reader, writer = os.pipe()
    os.close(reader)

    done = subprocess.run(
        [sys.executable, "-m", "wareboard", *arguments],
        cwd=EXAMPLES,
        stdout=writer,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writer)

    assert (done.returncode, done.stderr) == (1, b"")


def test_a_short_command_loads_nothing_heavy() -> None:
    script = (
        "import sys\n"
        "from wareboard.cli.main import main\n"
        f"main({list(UNITY)!r})\n"
        "heavy = {'numpy', 'scipy', 'pint', 'django', 'altair', 'pathlib', 'decimal'}\n"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)\n"
    )

    done = subprocess.run(
        [sys.executable, "-c", script], cwd=EXAMPLES, capture_output=True, text=True, check=True
    )

    assert done.stderr == "[]\n"


def test_all_pages_are_at_hand_before_anything_heavy_is_loaded(tmp_path) -> None:
    script = (
        "import sys, django\n"
        "django.setup()\n"
        "import wareboard.web.urls\n"
        "print(sorted({'numpy', 'scipy', 'pint', 'altair', 'PIL'} & set(sys.modules)))\n"
    )
    settings = {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings", "WAREBOARD_DATA": str(tmp_path)}

    done = subprocess.run(
        [sys.executable, "-c", script],
        env=dict(os.environ) | settings,
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout == "[]\n"
