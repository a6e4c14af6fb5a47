"""Photos are kept byte for byte; their views are upright and bare."""

import hashlib
import io
from pathlib import Path

import pytest
from django.conf import settings
from PIL import Image, ImageCms

from wareboard.records.people.entry import EntryRefused
from wareboard.records.pictures import storage
from wareboard.records.pictures.actions import FileRefused, keep_original
from wareboard.records.pictures.kinds import SIZES, FileKind, kind_of
from wareboard.records.pictures.models import Original

from .samples import (
    HEIC,
    OFFSET,
    ORIENTATION,
    OWNER,
    RED,
    SOUNDS,
    TAKEN,
    stored,
    two_halves,
    upload,
    with_exif,
    written,
)

pytestmark = pytest.mark.django_db


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

    for size in SIZES:
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
    for size in SIZES:
        with Image.open(storage.view_path(kept.sha256, size)) as view:
            sizes[size] = view.size
    assert sizes == {"large": (1600, 1067), "small": (480, 320)}


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
