"""Pages that are loaded when they are first asked for."""

import inspect
import subprocess
import sys

from addresses import patterns
from django.urls import get_resolver

from wareboard.records.people.later import MODULES, load_all

STARTED = """
import sys
from wareboard.cli.preparing import held_record
from wareboard.records.keeping.data_folder import DataFolder
from pathlib import Path
with held_record(DataFolder(Path(sys.argv[1]))):
    from wareboard.web.serving import load_ahead
    load_ahead()
    from wareboard.records.people.later import MODULES
    print(sorted(MODULES & set(sys.modules)))
"""


def test_every_page_that_is_named_is_there():
    every = [entry.callback for _route, entry in patterns(get_resolver())]
    pages = [view for view in every if view.__module__ in MODULES]

    load_all()

    assert len(pages) > len(MODULES)
    for page in pages:
        there = getattr(sys.modules[page.__module__], page.__name__)
        assert next(iter(inspect.signature(there).parameters)) == "request"


def test_a_studio_starts_without_the_pages_that_nobody_asked_for(tmp_path):
    done = subprocess.run(
        [sys.executable, "-c", STARTED, str(tmp_path / "data")],
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout.splitlines()[-1] == "[]"
