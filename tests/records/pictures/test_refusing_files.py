"""What is torn, too large, or no photo is refused in a sentence, and nothing is kept."""

import errno
import os
import random
import zlib
from pathlib import Path

import pytest
from django.conf import settings
from PIL import Image, PngImagePlugin

from wareboard.records.pictures import photos, storage
from wareboard.records.pictures.actions import FileRefused, keep_original
from wareboard.records.pictures.disk import Disk
from wareboard.records.pictures.models import Original

from .samples import (
    ORIENTATION,
    TAKEN,
    stored,
    upload,
    with_exif,
    written,
)

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "GIF"])
@pytest.mark.parametrize("cut", [1, 2, 12, 50, 0.5])
def test_photo_that_arrived_incomplete_is_refused(member, kind, cut):
    noise = Image.frombytes("RGB", (64, 64), os.urandom(64 * 64 * 3))
    content = written(noise, kind)
    lost = cut if cut >= 1 else int(len(content) * cut)

    with pytest.raises(FileRefused, match="incomplete"):
        keep_original(member, upload(content[:-lost]))

    assert (stored(), Original.objects.filter(studio=member.studio).count()) == ([], 0)


def png_claiming(width: int, height: int) -> bytes:
    """A small file that says it is a huge picture."""
    picture = PngImagePlugin.Image.new("1", (8, 8))
    content = bytearray(written(picture, "PNG"))
    content[16:24] = width.to_bytes(4, "big") + height.to_bytes(4, "big")

    content[29:33] = zlib.crc32(bytes(content[12:29])).to_bytes(4, "big")
    return bytes(content)


@pytest.mark.parametrize("side", [10_000, 20_000, 60_000])
def test_picture_that_claims_too_many_pixels_is_refused_unread(member, side):
    with pytest.raises(FileRefused, match="too many pixels"):
        keep_original(member, upload(png_claiming(side, side)))

    assert stored() == []


@pytest.mark.parametrize(
    "content",
    [
        b"<html><script>alert(1)</script></html>",
        b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>",
        b"%PDF-1.7 ...",
        b"MZ\x90\x00",
        b"PK\x03\x04",
        b"hello",
        b"RIFF\x00\x00\x00\x00AVI ",
    ],
)
def test_what_is_no_photo_is_refused(member, content):
    with pytest.raises(FileRefused, match="no photo"):
        keep_original(member, upload(content))

    assert stored() == []


def test_empty_file_is_refused(member):
    with pytest.raises(FileRefused, match="empty"):
        keep_original(member, upload(b""))


def test_damaged_photo_is_refused(member, jpeg):
    with pytest.raises(FileRefused, match=r"can be read|damaged"):
        keep_original(member, upload(jpeg[:160] + bytes(600) + b"\xff\xd9"))


@pytest.mark.filterwarnings("ignore::UserWarning:PIL.TiffImagePlugin")
def test_damage_anywhere_never_becomes_a_fault_of_the_program(member):
    whole = bytearray(with_exif(top={ORIENTATION: 6}, camera={TAKEN: "2026:10:04 17:31:00"}))
    draw = random.Random(20261125)  # noqa: S311 - a sample, not a secret
    outcomes = set()
    for _ in range(300):
        torn = whole.copy()
        for _ in range(draw.randint(1, 20)):
            torn[draw.randrange(3, 400)] = draw.randrange(256)
        try:
            photos.read_photo(bytes(torn))
            outcomes.add("read")
        except photos.PhotoUnreadable:
            outcomes.add("refused")

    assert outcomes == {"read", "refused"}


def test_file_beyond_the_limit_is_refused_and_not_left_lying(member, jpeg, monkeypatch):
    monkeypatch.setitem(keep_original.__globals__["MOST_BYTES"], "photo", 100)

    with pytest.raises(FileRefused, match="too large"):
        keep_original(member, upload(jpeg))

    assert list(storage.folder("originals").iterdir()) == []


def test_sound_is_no_photo_and_photo_no_sound(member, jpeg):
    with pytest.raises(FileRefused, match="no sound"):
        keep_original(member, upload(jpeg), kind="sound")
    with pytest.raises(FileRefused, match="no photo"):
        keep_original(member, upload(b"OggS" + bytes(100)))


# The n-th file operation fails


class FullDisk(Disk):
    def __init__(self, fails_at: int) -> None:
        self.fails_at, self.steps = fails_at, 0

    def step(self, name: str, path: Path) -> None:
        self.steps += 1
        if self.steps == self.fails_at:
            raise OSError(errno.ENOSPC, f"No space left on device, at {name}", str(path))


def test_disk_that_is_full_at_any_step_is_said_and_leaves_no_entry(member, jpeg):
    said = set()
    for step in range(1, 60):
        try:
            keep_original(member, upload(jpeg), entry_id="phone-1", disk=FullDisk(step))
        except FileRefused as refused:
            said.add("full" in str(refused))
            assert not Original.objects.filter(pk="phone-1").exists()
            parts = [path.name for path in Path(settings.DATA).rglob(".*.part")]
            assert parts == []
        else:
            break

    assert (step > 10, said) == (True, {True})
    kept = Original.objects.get(pk="phone-1")
    assert storage.original_path(kept.file_name).read_bytes() == jpeg
