"""What a worker makes ready while the reader of the first page is still on the way."""

import os
import subprocess
import sys

from wareboard.web.serving import FIRST_PAGE, warm_up

NEW_RECORD = """
import sys
from pathlib import Path
from wareboard.cli.preparing import held_record
from wareboard.records.keeping.data_folder import DataFolder
with held_record(DataFolder(Path(sys.argv[1]))):
    pass
"""

WORKER = """
import sys, threading
from wareboard.web import serving
serving.application()
for thread in threading.enumerate():
    if thread is not threading.main_thread():
        thread.join(10)
from wareboard.records.people.later import MODULES
print(len(MODULES) > 20, MODULES - set(sys.modules))
"""


def run(code, *arguments, **surroundings):
    command = [sys.executable, "-W", "error", "-c", code, *arguments]
    env = os.environ | surroundings
    return subprocess.run(command, capture_output=True, text=True, check=True, env=env)


def test_what_is_made_ready_is_what_the_first_page_is_made_of(demo_client):
    warm_up()

    used = {template.name for template in demo_client.get("/").templates}

    assert set(FIRST_PAGE) <= used


def test_a_worker_that_begins_with_nothing_loads_all_pages(tmp_path):
    data = str(tmp_path / "data")
    run(NEW_RECORD, data)

    done = run(WORKER, WAREBOARD_DATA=data, DJANGO_SETTINGS_MODULE="wareboard.web.settings")

    assert (done.stdout, done.stderr) == ("True set()\n", "")
