"""Enter readings and photos through the program's own actions, and make a backup, telling of each.

Run as a program, so that its every write can be watched: data folder, how many,
``synchronous`` and journal. What is told goes to the file ``acks`` beside the
data folder, one id a line, after the entry was acknowledged.
"""

import io
import os
import sys
from pathlib import Path

from PIL import Image

from wareboard.cli.preparing import wake_django
from wareboard.records.keeping.data_folder import DataFolder

PAGES_BETWEEN_CHECKPOINTS = 40


def photo(number: int) -> io.BytesIO:
    """Give a small photo unlike the others."""
    written = io.BytesIO()
    Image.new("RGB", (32, 24), (number % 256, number // 256, 90)).save(written, "JPEG")
    written.seek(0)
    return written


def main(data: Path, count: int, synchronous: str, journal: str) -> None:
    """Enter so many, every fifth of them a photo, and make a backup at the end."""
    wake_django(DataFolder(data))
    from django.db import connection  # noqa: PLC0415 - needs Django set up

    from wareboard.records.glazes.actions import weigh_bucket  # noqa: PLC0415 - as above
    from wareboard.records.glazes.models import Bucket  # noqa: PLC0415 - as above
    from wareboard.records.keeping import first_run  # noqa: PLC0415 - as above
    from wareboard.records.keeping.backup import keep  # noqa: PLC0415 - as above
    from wareboard.records.pictures.actions import keep_original  # noqa: PLC0415 - as above

    owner, bucket = first_run.owner(), Bucket.objects.get(pk="limpet-bucket-1")
    with connection.cursor() as cursor:
        cursor.execute(f"PRAGMA journal_mode={journal}")
        cursor.execute(f"PRAGMA synchronous={synchronous}")
        cursor.execute(f"PRAGMA wal_autocheckpoint={PAGES_BETWEEN_CHECKPOINTS}")
    acks = os.open(data.parent / "acks", os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    for number in range(count):
        if number % 5 == 4:
            entry_id = f"photo-{number}"
            keep_original(owner, photo(number), entry_id=entry_id)
        else:
            entry_id = f"reading-{number}"
            bottle = {"full_g": 740.0 + number % 7, "empty_g": 212.0, "volume_ml": 365.0}
            weigh_bucket(owner, bucket, entry_id=entry_id, **bottle)
        os.write(acks, f"{entry_id}\n".encode())
    keep(DataFolder(data), data / "backups" / "evening.zip")
    os.write(acks, b"backup\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3], sys.argv[4])
