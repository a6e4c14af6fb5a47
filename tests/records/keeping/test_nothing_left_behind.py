"""A run of the tests leaves no folder behind."""

import os
import subprocess
import sys
from pathlib import Path

TESTS = Path(__file__).parents[2]


def run_in(room: Path, *, data: Path | None = None) -> list[str]:
    """Load the settings of the tests in a process of its own; name what stays."""
    env = {key: value for key, value in os.environ.items() if key != "WAREBOARD_DATA"}
    if data is not None:
        env["WAREBOARD_DATA"] = str(data)
    done = subprocess.run(
        [sys.executable, "-c", "import settings_for_tests as s; print(s.DATA.is_dir())"],
        env=env | {"TMPDIR": str(room), "TEMP": str(room), "TMP": str(room)},
        cwd=TESTS,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout == "True\n"
    return sorted(path.name for path in room.iterdir())


def test_the_data_folder_of_the_tests_goes_away_with_them(tmp_path):
    assert run_in(tmp_path) == []


def test_a_data_folder_that_was_given_stays(tmp_path):
    given = tmp_path / "given"
    given.mkdir()

    assert run_in(tmp_path, data=given) == ["given"]
