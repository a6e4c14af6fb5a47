"""Planting damage in a record folder, and hearing what is said of it."""

import json

import pytest
from record_folder_samples import SPECS

from wareboard.exchange.record_folder import FolderRefused, Limits, read_record_folder

AS_WRITTEN = "use the file as the program wrote it."
SAVE_AS = "save it as CSV, UTF-8, with commas."
BESIDE = "a table lies beside datapackage.json, as its name with .csv."
NEWER = "use the program that wrote the folder, or a newer one."
TAKE_AWAY = "take it out of the folder."
NUMBER = "write it with plain digits and one point, such as 12.5."
TIME = "write it with its offset, such as 2026-11-25T14:03:00+01:00."


def said(folder, specs=SPECS, limits=None):
    """Every sentence about a folder."""
    with pytest.raises(FolderRefused) as refusal:
        read_record_folder(folder, specs, limits or Limits())
    return [problem.say for problem in refusal.value.problems]


def replace(file, old, new):
    """Change a text in a file that must be there once."""
    text = file.read_bytes().decode()
    assert text.count(old) == 1
    file.write_bytes(text.replace(old, new).encode())


def redescribe(folder, change):
    """Change the description by a function of the package."""
    file = folder / "datapackage.json"
    package = json.loads(file.read_bytes())
    change(package)
    file.write_text(json.dumps(package), encoding="utf-8")
