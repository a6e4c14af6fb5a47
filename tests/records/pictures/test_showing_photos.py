"""Photos and sounds are shown to their studio alone, and nothing in them can run."""

import pytest
from PIL import PngImagePlugin

from wareboard.records.people.undoing import undo
from wareboard.records.pictures import storage
from wareboard.records.pictures.actions import keep_original
from wareboard.records.pictures.kinds import SIZES

from .samples import M4A, two_halves, upload, written

pytestmark = pytest.mark.django_db


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
    for size in SIZES:
        storage.view_path(photo.sha256, size).unlink()

    reply = signed_in.get("/pictures/photo-1/small/")

    assert body(reply) == before


@pytest.mark.parametrize("page", ["small", "large", "original"])
def test_original_that_is_gone_is_said_in_its_place(signed_in, photo, page):
    storage.original_path(photo.file_name).unlink()
    for size in SIZES:
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

    undo(photo)

    assert signed_in.get("/pictures/photo-1/small/").status_code == 404


@pytest.mark.parametrize("page", ["small", "original"])
def test_photos_take_no_post(signed_in, photo, page):
    assert signed_in.post(f"/pictures/photo-1/{page}/").status_code == 405
