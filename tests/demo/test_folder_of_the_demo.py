"""The record folder that comes with the program is the one the script writes."""

import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from wareboard.records.keeping.hand_out import hand_out
from wareboard.records.keeping.tables import KEPT

ROOT = Path(__file__).parent.parent.parent
FOLDER = ROOT / "src" / "wareboard" / "demo"
MAKE = ROOT / "tools" / "make_demo.py"
LARGEST_PHOTO = 40_000
LARGEST_ALBUM = 400_000


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    out = tmp_path_factory.mktemp("made") / "demo"
    subprocess.run([sys.executable, str(MAKE), "--out", str(out)], check=True, capture_output=True)
    return out


def files_of(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_script_writes_the_folder_byte_for_byte(written):
    made, kept = files_of(written), files_of(FOLDER)

    assert made.keys() == kept.keys(), "run tools/make_demo.py"
    assert [name for name in made if made[name] != kept[name]] == [], "run tools/make_demo.py"


def test_photos_are_small_pictures_that_open():
    photos = sorted((FOLDER / "photos").iterdir())

    for photo in photos:
        with Image.open(photo) as image:
            image.load()
            assert image.format == "PNG"
    sizes = [photo.stat().st_size for photo in photos]
    assert max(sizes) < LARGEST_PHOTO
    assert sum(sizes) < LARGEST_ALBUM


@pytest.mark.django_db
def test_folder_is_taken_in_whole(demo, told):
    for kept in KEPT:
        if not (kept.is_entry or kept.is_part):
            continue
        owner = {f"{kept.owner}__studio": demo} if kept.is_part else {"studio": demo}
        assert kept.model._base_manager.filter(**owner).count() == len(told[kept.name]), kept.name


@pytest.mark.django_db
def test_handing_out_what_was_taken_in_gives_the_same_bytes(demo, tmp_path):
    hand_out(tmp_path / "again", demo)

    again, kept = files_of(tmp_path / "again"), files_of(FOLDER)
    assert again.keys() == kept.keys()
    assert [name for name in again if again[name] != kept[name]] == []


@pytest.mark.django_db
def test_every_entry_is_one_that_a_page_would_have_kept(demo):
    for kept in KEPT:
        if not kept.is_entry:
            continue
        for row in kept.model._base_manager.filter(studio=demo):
            row.full_clean(validate_unique=False)


@pytest.mark.django_db
def test_studio_is_the_invented_one_with_one_owner(demo):
    (owner,) = demo.members.filter(role="owner", person__isnull=True)

    assert demo.name == "Culverhythe Pottery"
    assert (demo.time_zone, owner.name) == ("Europe/London", "the potter")
