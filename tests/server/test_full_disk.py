"""A disk that takes no more: said in a sentence, and what was acknowledged stays."""

import subprocess
import sys

import pytest

from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.data_folder import DataFolder

from .harness import Studio

pytestmark = [
    pytest.mark.server,
    pytest.mark.skipif(sys.platform == "win32", reason="Windows limits no file's size"),
]


def test_full_disk_is_said_and_nothing_acknowledged_is_lost(data):
    room = (data / "record.sqlite3").stat().st_size + 400_000
    studio = Studio(data, largest_file_bytes=room).start()

    statuses = []
    while len(statuses) < 2000 and statuses[-3:] != [507, 507, 507]:
        statuses.append(studio.weigh(f"entry-{len(statuses)}"))
    page = studio.ask("GET", "/glazes/buckets/limpet-bucket-1/")
    refused = studio.ask("POST", "/glazes/buckets/limpet-bucket-1/", {"full_g": "740"})
    studio.kill()

    again = Studio(data).start()
    late = again.weigh("after-room-was-made")
    again.stop()

    acknowledged = {f"entry-{n}" for n, status in enumerate(statuses) if status == 302}
    assert set(statuses) == {302, 507}
    assert page.status == 200
    assert refused.status in {422, 507}
    assert acknowledged - again.kept() == set()
    assert len(acknowledged) > 10
    assert late == 302


@pytest.mark.parametrize("share", [0.1, 0.5, 0.99])
def test_backup_on_a_full_disk_leaves_no_file_of_its_name(data, tmp_path, share):
    stick = tmp_path / "stick"
    stick.mkdir()
    needed_bytes = keep(DataFolder(data), tmp_path / "whole.zip").backup.size_bytes
    limited = Studio(data, largest_file_bytes=int(share * needed_bytes))

    done = subprocess.run(
        [sys.executable, "-m", "wareboard", "keep", stick / "monday.zip", "--data", data],
        preexec_fn=limited.limit,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 2, done.stderr
    assert "older backups are as they were" in done.stderr
    assert list(stick.iterdir()) == []
    assert [path.name for path in data.iterdir() if path.name.endswith(".part")] == []
