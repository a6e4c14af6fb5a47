"""The program's settings on a data folder that goes away with the test run."""

import os
import tempfile
from pathlib import Path

os.environ.setdefault("WAREBOARD_DATA", tempfile.mkdtemp(prefix="wareboard-test-"))

from wareboard.web.settings import *  # noqa: F403 - the folder must be named first

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
DATABASES["default"]["TEST"] = {"NAME": Path(os.environ["WAREBOARD_DATA"]) / "test.sqlite3"}  # noqa: F405 - from the settings above
