"""A backup with random damage is refused, or the damage is proven harmless."""

import random
import shutil

import pytest

from wareboard.records.keeping import database
from wareboard.records.keeping.backup import keep
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.records.keeping.refusals import BackupRefused, RecordNewer

from .conftest import contents
from .test_restore import put_back, without_what_opens

FLIPS, TRUNCATIONS = 100, 10


def damaged_copies(whole: bytes, *, seed: int, flips: int, truncations: int):
    """Give copies with one bit flipped, half of them near the ends, and copies cut short."""
    draw = random.Random(seed)  # noqa: S311 - a sample, not a secret
    for number in range(flips):
        near_the_end = number % 2 == 1
        at = draw.randrange(max(0, len(whole) - 6000) if near_the_end else 0, len(whole))
        copy = bytearray(whole)
        copy[at] ^= 1 << draw.randrange(8)
        yield f"bit flipped at {at}", bytes(copy)
    for _ in range(truncations):
        at = draw.randrange(len(whole))
        yield f"cut at {at}", whole[:at]


def outcome(path, original: dict[str, object], place) -> str:
    """Try a backup: refused, harmless, or wrong."""
    try:
        put_back(path, DataFolder(place))
    except (BackupRefused, RecordNewer):
        return "wrong: something was left" if place.exists() else "refused"
    same = contents(DataFolder(place)) == without_what_opens(original)
    shutil.rmtree(place)
    return "harmless" if same else "wrong: taken in"


@pytest.fixture
def monday(folder, stick):
    return keep(folder, stick / "monday.zip").backup.path


def test_damaged_backups_are_refused_or_harmless(folder, monday, stick):
    original, wrong = contents(folder), []
    for what, copy in damaged_copies(
        monday.read_bytes(), seed=20261125, flips=FLIPS, truncations=TRUNCATIONS
    ):
        path = stick / "damaged.zip"
        path.write_bytes(copy)
        found = outcome(path, original, stick / "new")
        if found.startswith("wrong"):
            wrong.append((what, found))

    assert wrong == []


def test_the_measure_notices_what_is_taken_in_though_it_differs(folder, stick):
    original = contents(folder)
    with database.opened(folder.record) as connection:
        connection.execute("UPDATE wareboard_studio SET name = 'another'")

    changed = keep(folder, stick / "changed.zip").backup.path

    assert outcome(changed, original, stick / "new") == "wrong: taken in"
