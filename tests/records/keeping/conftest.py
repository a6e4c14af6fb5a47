"""A small studio's data folder, made once by the program itself and copied for each test."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from wareboard.records.keeping import database
from wareboard.records.keeping.data_folder import DataFolder

POPULATE = Path(__file__).parent / "populate.py"


def populated(path: Path, *options: str) -> Path:
    made = subprocess.run(
        [sys.executable, POPULATE, path, *options],
        env={key: value for key, value in os.environ.items() if key != "WAREBOARD_DATA"}
        | {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stderr
    return path


@pytest.fixture(scope="session")
def studio_of_old(tmp_path_factory):
    return populated(tmp_path_factory.mktemp("made") / "Wareboard")


@pytest.fixture(scope="session")
def older_studio_of_old(tmp_path_factory):
    return populated(tmp_path_factory.mktemp("made-older") / "Wareboard", "--older")


@pytest.fixture
def folder(studio_of_old, tmp_path):
    return DataFolder(Path(shutil.copytree(studio_of_old, tmp_path / "Wareboard")))


@pytest.fixture
def older(older_studio_of_old, tmp_path):
    return DataFolder(Path(shutil.copytree(older_studio_of_old, tmp_path / "Wareboard")))


@pytest.fixture
def stick(tmp_path):
    path = tmp_path / "stick"
    path.mkdir()
    return path


def contents(folder: DataFolder) -> dict[str, object]:
    """What a studio holds: every row of every table, and every original's bytes."""
    with database.opened(folder.record) as connection:
        rows: dict[str, object] = {
            table: sorted(
                map(repr, connection.execute(f"SELECT * FROM {database.quoted(table)}"))  # noqa: S608 - a name of ours, quoted
            )
            for table in database.tables(connection)
        }
    for original in sorted(folder.originals.iterdir()):
        rows[original.name] = original.read_bytes()
    return rows


def names_in(path: Path) -> list[str]:
    return sorted(file.name for file in path.iterdir())
