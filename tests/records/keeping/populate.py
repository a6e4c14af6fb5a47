"""Make a data folder with a small studio in it: run as a program, given the folder.

With ``--older`` the record is then taken back to a version that had no shelf
yet, as a record of years ago would be.
"""

import io
import sys
from pathlib import Path

from PIL import Image

from wareboard.cli.preparing import held_record
from wareboard.records.keeping.data_folder import DataFolder


def photo(colour: str) -> io.BytesIO:
    written = io.BytesIO()
    Image.new("RGB", (64, 48), colour).save(written, "JPEG")
    written.seek(0)
    return written


def fill() -> None:
    from django.contrib.sessions.backends.db import SessionStore  # noqa: PLC0415 - needs Django set up

    from wareboard.records.keeping import first_run  # noqa: PLC0415 - needs Django set up
    from wareboard.records.people import attempts, keys  # noqa: PLC0415 - needs Django set up
    from wareboard.records.pictures.actions import keep_original  # noqa: PLC0415 - needs Django set up

    owner = first_run.owner()
    owner.person.set_password("three dry pots")
    owner.person.save()
    for number, colour in enumerate(("maroon", "olive", "gray"), start=1):
        keep_original(owner, photo(colour), entry_id=f"photo-{number}")
    note = io.BytesIO(b"OggS" + bytes(range(200)))
    keep_original(owner, note, entry_id="note-1", kind="sound")
    session = SessionStore()
    session["whose"] = "a session that must not leave this machine"
    session.create()
    keys.make_key(owner)
    attempts.begin("potter", "192.168.1.9")


def take_back() -> None:
    from django.db import connection  # noqa: PLC0415 - needs Django set up
    from django.db.migrations.executor import MigrationExecutor  # noqa: PLC0415 - needs Django set up

    MigrationExecutor(connection).migrate([("wareboard_shelf", None)])


if __name__ == "__main__":
    with held_record(DataFolder(Path(sys.argv[1]))):
        fill()
        if "--older" in sys.argv:
            take_back()
