"""Photos and spoken notes: kept byte for byte, shown upright and bare, and refused when torn."""

import errno
import hashlib
import io
import os
import random
from pathlib import Path

import pytest
from django.conf import settings
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image, ImageCms, PngImagePlugin

from wareboard.records.people.entry import EntryRefused
from wareboard.records.pictures import photos, storage
from wareboard.records.pictures.actions import FileRefused, keep_original
from wareboard.records.pictures.disk import Disk
from wareboard.records.pictures.kinds import FileKind, kind_of
from wareboard.records.pictures.models import Original

pytestmark = pytest.mark.django_db
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


@pytest.fixture(autouse=True)
def own_folders(tmp_path, settings):
    settings.DATA = tmp_path


@pytest.fixture
def jpeg():
    return written(two_halves(), quality=95)


# Kept


def test_original_is_kept_byte_for_byte_under_its_hash(member, jpeg):
    kept = keep_original(member, upload(jpeg))

    assert kept.sha256 == hashlib.sha256(jpeg).hexdigest()
    assert (Path(settings.DATA) / "originals" / kept.file_name).read_bytes() == jpeg
    assert (kept.suffix, kept.size_bytes, kept.width_px, kept.height_px) == (
        "jpg",
        len(jpeg),
        80,
        40,
    )


def test_same_photo_twice_is_two_entries_of_one_file(member, jpeg):
    first, second = keep_original(member, upload(jpeg)), keep_original(member, upload(jpeg))

    assert first.pk != second.pk
    assert stored() == [first.file_name]


def test_same_entry_sent_twice_is_kept_once(member, jpeg):
    first = keep_original(member, upload(jpeg), entry_id="phone-1")
    second = keep_original(member, upload(jpeg), entry_id="phone-1")

    assert first == second
    assert Original.objects.filter(studio=member.studio).count() == 1


def test_id_that_another_studio_holds_is_refused(member, demo_member, jpeg):
    keep_original(demo_member, upload(jpeg), entry_id="phone-1")

    with pytest.raises(EntryRefused):
        keep_original(member, upload(jpeg), entry_id="phone-1")


@pytest.mark.parametrize(
    ("name", "kept_as"),
    [
        ("../../etc/passwd", "passwd"),
        ("C:\\photos\\pot.jpg", "pot.jpg"),
        ("CON.jpg", "CON.jpg"),
        ("vase 🏺.jpg", "vase 🏺.jpg"),
    ],
)
def test_name_is_only_remembered(member, jpeg, name, kept_as):
    file = io.BytesIO(jpeg)
    file.name = name

    kept = keep_original(member, file)

    assert kept.came_as == kept_as
    assert stored() == [kept.file_name]


def test_endless_name_is_cut(member, jpeg):
    file = io.BytesIO(jpeg)
    file.name = "a" * 5000

    assert len(keep_original(member, file).came_as) <= 200


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "GIF", "MPO"])
def test_usual_formats_are_read(member, kind):
    kept = keep_original(member, upload(written(two_halves(), kind)))

    assert (kept.width_px, kept.height_px) == (80, 40)


@pytest.mark.parametrize(
    "picture",
    [
        two_halves().convert("CMYK"),
        two_halves().convert("L"),
        two_halves().convert("RGBA"),
        two_halves().convert("P"),
        two_halves().convert("LA"),
        Image.new("I;16", (80, 40), 40_000),
    ],
    ids=["CMYK", "grey", "with clear parts", "palette", "grey and clear", "sixteen bits"],
)
def test_unusual_pictures_get_a_view(member, picture):
    content = written(picture, "JPEG" if picture.mode == "CMYK" else "PNG")

    kept = keep_original(member, upload(content))

    with Image.open(storage.view_path(kept.sha256, "small")) as view:
        assert (view.mode, view.size) == ("RGB", (80, 40))


def test_sixteen_bits_of_grey_keep_their_lightness(member):
    kept = keep_original(member, upload(written(Image.new("I;16", (80, 40), 0x8080), "PNG")))

    with Image.open(storage.view_path(kept.sha256, "small")) as view:
        assert view.getpixel((40, 20)) == pytest.approx((128, 128, 128), abs=2)


def test_clear_parts_are_shown_on_white(member):
    kept = keep_original(member, upload(written(Image.new("RGBA", (80, 40), (0, 0, 0, 0)), "PNG")))

    with Image.open(storage.view_path(kept.sha256, "small")) as view:
        assert view.getpixel((40, 20)) == (255, 255, 255)


def test_colours_of_a_profile_are_turned_into_those_of_a_screen(member):
    swapped = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    plain = written(two_halves(), quality=95)
    with_profile = written(two_halves(), quality=95, icc_profile=swapped)

    views = []
    for content in (plain, with_profile):
        kept = keep_original(member, upload(content))
        with Image.open(storage.view_path(kept.sha256, "small")) as view:
            views.append(view.getpixel((10, 10)))
            assert "icc_profile" not in view.info

    # The same profile in and out: each channel may be off by rounding.
    assert views[1] == pytest.approx(views[0], abs=3)


def with_exif(**tags) -> bytes:
    exif = Image.Exif()
    for tag, value in tags.get("top", {}).items():
        exif[tag] = value
    exif.get_ifd(0x8769).update(tags.get("camera", {}))
    exif.get_ifd(GPS).update(tags.get("place", {}))
    return written(two_halves(), quality=95, exif=exif)


# Where the red half is once the picture stands upright; Pillow maps the values the same way.
@pytest.mark.parametrize(
    ("turned", "size", "red_at"),
    [
        (1, (80, 40), (10, 20)),
        (2, (80, 40), (70, 20)),
        (3, (80, 40), (70, 20)),
        (4, (80, 40), (10, 20)),
        (5, (40, 80), (20, 10)),
        (6, (40, 80), (20, 10)),
        (7, (40, 80), (20, 70)),
        (8, (40, 80), (20, 70)),
    ],
)
def test_view_is_upright_however_the_camera_was_held(member, turned, size, red_at):
    kept = keep_original(member, upload(with_exif(top={ORIENTATION: turned})))

    with Image.open(storage.view_path(kept.sha256, "large")) as view:
        assert view.size == size
        assert view.getpixel(red_at) == pytest.approx(RED, abs=12)
    assert (kept.width_px, kept.height_px) == size


def test_view_carries_nothing_of_what_the_camera_wrote(member):
    content = with_exif(
        top={ORIENTATION: 6, 0x013B: "Ann Potter"},
        camera={TAKEN: "2026:10:04 17:31:00", OWNER: "Ann Potter"},
        place={1: "N", 2: (51.0, 30.0, 0.0)},
    )

    kept = keep_original(member, upload(content))

    for size in photos.SIZES:
        view = storage.view_path(kept.sha256, size).read_bytes()
        assert b"Exif" not in view
        assert b"Ann Potter" not in view
    assert b"Ann Potter" in storage.original_path(kept.file_name).read_bytes()


@pytest.mark.parametrize(
    ("camera", "taken"),
    [
        ({TAKEN: "2026:10:04 17:31:00"}, "2026:10:04 17:31:00"),
        ({TAKEN: "2026:10:04 17:31:00", OFFSET: "+01:00"}, "2026:10:04 17:31:00 +01:00"),
        ({TAKEN: "171546:00:00 00:00:00"}, "171546:00:00 00:00:00"),
        ({TAKEN: "x" * 500}, ""),
        ({TAKEN: "\x1b[31m"}, ""),
        ({}, ""),
    ],
)
def test_time_is_kept_as_the_camera_wrote_it(member, camera, taken):
    assert keep_original(member, upload(with_exif(camera=camera))).taken == taken


def test_large_photo_gets_views_of_two_sizes(member):
    kept = keep_original(member, upload(written(two_halves((3000, 2000)))))

    sizes = {}
    for size in photos.SIZES:
        with Image.open(storage.view_path(kept.sha256, size)) as view:
            sizes[size] = view.size
    assert sizes == {"large": (1600, 1067), "small": (480, 320)}


# Refused


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
    import zlib  # noqa: PLC0415 - here alone

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


# Kinds that are kept without a view, and sounds


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


def test_photo_that_cannot_be_read_here_is_kept_without_a_view(signed_in, member):
    kept = keep_original(member, upload(HEIC, "IMG_2.HEIC"))

    reply = signed_in.get(f"/pictures/{kept.pk}/small/")

    assert (kept.suffix, kept.width_px) == ("heic", None)
    assert storage.original_path(kept.file_name).read_bytes() == HEIC
    assert "no preview" in reply.content.decode()


def test_heic_under_another_name_is_told_by_its_bytes(member):
    assert keep_original(member, upload(HEIC, "IMG_2.JPG")).suffix == "heic"


@pytest.mark.parametrize("lost", [1, 20, 100])
def test_photo_of_boxes_that_arrived_incomplete_is_refused(member, lost):
    with pytest.raises(FileRefused, match="incomplete"):
        keep_original(member, upload(HEIC[:-lost]))


@pytest.mark.parametrize("suffix", SOUNDS)
def test_spoken_note_of_the_usual_recorders_is_kept(member, suffix):
    kept = keep_original(member, upload(SOUNDS[suffix], "note"), kind="sound")

    assert (kept.kind, kept.suffix) == ("sound", suffix)
    assert kind_of(SOUNDS[suffix]) == FileKind("sound", suffix)


# Shown


@pytest.fixture
def photo(member, jpeg):
    return keep_original(member, upload(jpeg), entry_id="photo-1")


def body(reply) -> bytes:
    return b"".join(reply.streaming_content) if reply.streaming else reply.content


INERT = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "sandbox; default-src 'none'",
    "Cache-Control": "private, max-age=86400",
}


def test_view_is_a_bare_jpeg_that_can_do_nothing(signed_in, photo):
    reply = signed_in.get("/pictures/photo-1/large/")

    assert reply.headers["Content-Type"] == "image/jpeg"
    assert reply.headers["Content-Disposition"] == f'inline; filename="{photo}.jpg"'
    assert {name: reply.headers[name] for name in INERT} == INERT
    assert body(reply) == storage.view_path(photo.sha256, "large").read_bytes()


def test_original_comes_back_byte_for_byte_as_a_file_to_save(signed_in, photo, jpeg):
    reply = signed_in.get("/pictures/photo-1/original/")

    assert reply.headers["Content-Disposition"] == f'attachment; filename="{photo}.jpg"'
    assert {name: reply.headers[name] for name in INERT} == INERT
    assert body(reply) == jpeg


def test_picture_that_is_a_page_as_well_is_served_inert(signed_in, member):
    note = PngImagePlugin.PngInfo()
    note.add_text("Comment", "<script>alert(1)</script>")
    kept = keep_original(member, upload(written(two_halves(), "PNG", pnginfo=note)))

    original = signed_in.get(f"/pictures/{kept.pk}/original/")
    view = body(signed_in.get(f"/pictures/{kept.pk}/small/"))

    assert original.headers["Content-Security-Policy"] == "sandbox; default-src 'none'"
    assert b"<script>" in body(original)
    assert b"<script>" not in view


def test_view_that_was_thrown_away_is_made_again(signed_in, photo):
    before = storage.view_path(photo.sha256, "small").read_bytes()
    for size in photos.SIZES:
        storage.view_path(photo.sha256, size).unlink()

    reply = signed_in.get("/pictures/photo-1/small/")

    assert body(reply) == before


@pytest.mark.parametrize("page", ["small", "large", "original"])
def test_original_that_is_gone_is_said_in_its_place(signed_in, photo, page):
    storage.original_path(photo.file_name).unlink()
    for size in photos.SIZES:
        storage.view_path(photo.sha256, size).unlink()

    reply = signed_in.get(f"/pictures/photo-1/{page}/")

    assert reply.status_code == 404
    assert "missing" in reply.content.decode()


@pytest.mark.parametrize(
    ("asked", "status", "first", "last"),
    [
        ("bytes=0-1", 206, 0, 1),
        ("bytes=5-", 206, 5, -1),
        ("bytes=-4", 206, -4, -1),
        ("bytes=0-999999999", 206, 0, -1),
        ("bytes=0-1,4-5", 200, 0, -1),
        ("pages=1", 200, 0, -1),
    ],
)
def test_player_gets_the_part_it_asks_for(signed_in, member, asked, status, first, last):
    kept = keep_original(member, upload(M4A, "note.m4a"), kind="sound")

    reply = signed_in.get(f"/pictures/{kept.pk}/original/", headers={"range": asked})

    whole = len(M4A)
    wanted = M4A[first % whole if first < 0 else first : whole + last + 1 if last < 0 else last + 1]
    assert (reply.status_code, body(reply)) == (status, wanted)
    assert reply.headers["Content-Type"] == "audio/mp4"


def test_part_beyond_the_end_is_refused(signed_in, photo):
    reply = signed_in.get("/pictures/photo-1/original/", headers={"range": "bytes=99999999-"})

    assert reply.status_code == 416


@pytest.mark.parametrize("page", ["small", "large", "original"])
def test_people_of_another_studio_find_nothing(stranger, photo, page):
    assert stranger.get(f"/pictures/photo-1/{page}/").status_code == 404


@pytest.mark.parametrize("page", ["small", "large", "original"])
def test_unknown_photo_is_not_found(signed_in, page):
    assert signed_in.get(f"/pictures/none/{page}/").status_code == 404


def test_unknown_size_is_not_found(signed_in, photo):
    assert signed_in.get("/pictures/photo-1/huge/").status_code == 404


def test_photo_that_was_taken_back_is_not_found(signed_in, photo):
    from wareboard.records.people.entry import undo  # noqa: PLC0415 - here alone

    undo(photo)

    assert signed_in.get("/pictures/photo-1/small/").status_code == 404


@pytest.mark.parametrize("page", ["small", "original"])
def test_photos_take_no_post(signed_in, photo, page):
    assert signed_in.post(f"/pictures/photo-1/{page}/").status_code == 405
