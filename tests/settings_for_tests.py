"""The program's settings on a data folder that goes away with the test run."""

import atexit
import os
import shutil
import tempfile
from pathlib import Path

if "WAREBOARD_DATA" not in os.environ:
    # Whoever makes the folder takes it away; workers of a run inherit it and leave it alone.
    made = tempfile.mkdtemp(prefix="wareboard-test-")
    os.environ["WAREBOARD_DATA"] = made
    atexit.register(shutil.rmtree, made, ignore_errors=True)

from wareboard.web.settings import *  # noqa: F403 - the folder must be named first

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
DATABASES["default"]["TEST"] = {"NAME": Path(os.environ["WAREBOARD_DATA"]) / "test.sqlite3"}  # noqa: F405 - from the settings above
