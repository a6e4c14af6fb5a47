"""Pictures and sounds made for the tests."""

import io

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from wareboard.records.pictures import storage

ORIENTATION, TAKEN, OFFSET, OWNER, GPS = 0x0112, 0x9003, 0x9011, 0xA430, 0x8825
RED, BLUE = (200, 30, 30), (30, 30, 200)


def two_halves(size=(80, 40)) -> Image.Image:
    """A picture that is red on its left and blue on its right."""
    picture = Image.new("RGB", size, RED)
    picture.paste(BLUE, (size[0] // 2, 0, *size))
    return picture


def written(picture: Image.Image, kind="JPEG", **options) -> bytes:
    target = io.BytesIO()
    picture.save(target, kind, **options)
    return target.getvalue()


def upload(content: bytes, name="IMG_0001.JPG") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, content)


def stored() -> list[str]:
    return sorted(path.name for path in storage.folder("originals").iterdir())


def with_exif(**tags) -> bytes:
    exif = Image.Exif()
    for tag, value in tags.get("top", {}).items():
        exif[tag] = value
    exif.get_ifd(0x8769).update(tags.get("camera", {}))
    exif.get_ifd(GPS).update(tags.get("place", {}))
    return written(two_halves(), quality=95, exif=exif)


def box(kind: bytes, content: bytes) -> bytes:
    return (8 + len(content)).to_bytes(4, "big") + kind + content


HEIC = (
    box(b"ftyp", b"heic\x00\x00\x00\x00mif1heic")
    + box(b"meta", bytes(40))
    + box(b"mdat", bytes(99))
)
M4A = (
    box(b"ftyp", b"M4A \x00\x00\x00\x00M4A mp42") + box(b"mdat", bytes(99)) + box(b"moov", bytes(9))
)
# First bytes as https://mimesniff.spec.whatwg.org/ and the formats' own pages give them.
SOUNDS = {
    "m4a": M4A,
    "3gp": box(b"ftyp", b"3gp4\x00\x00\x00\x00") + box(b"mdat", bytes(99)),
    "webm": b"\x1aE\xdf\xa3" + bytes(99),
    "ogg": b"OggS" + bytes(99),
    "mp3": b"ID3" + bytes(99),
    "wav": b"RIFF\x63\x00\x00\x00WAVE" + bytes(95),
    "amr": b"#!AMR\n" + bytes(99),
}
