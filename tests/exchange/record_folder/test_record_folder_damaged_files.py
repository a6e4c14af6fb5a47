"""Damage to the files of a folder, each kind once, and the sentence that tells of it."""

import errno
import os

import pytest
from record_folder_damage import AS_WRITTEN, SAVE_AS, TAKE_AWAY, said
from record_folder_samples import PHOTO_PATH, SOUND_PATH

from wareboard.exchange.record_folder import (
    Limits,
)

# File, what it holds now, sentence.
FILES = [
    ("pots.csv", b"", f"is empty, and even its first row is missing; {SAVE_AS}"),
    ("pots.csv", "id".encode("utf-16"), f"is saved as UTF-16; {SAVE_AS}"),
    ("pots.csv", b"PK\x03\x04rest", f"is a workbook or an archive, no CSV file; {SAVE_AS}"),
    ("pots.csv", b"%PDF-1.7", f"is a PDF, no CSV file; {SAVE_AS}"),
    ("datapackage.json", b"\xff", f"is not written in UTF-8; {AS_WRITTEN}"),
    ("datapackage.json", b"{", f"is no JSON that can be read; {AS_WRITTEN}"),
    ("datapackage.json", b'{"a": 1, "a": 2}', f"is no JSON that can be read; {AS_WRITTEN}"),
    ("datapackage.json", b'{"a": NaN}', f"is no JSON that can be read; {AS_WRITTEN}"),
    ("datapackage.json", b"[" * 100_000, f"is no JSON that can be read; {AS_WRITTEN}"),
    (
        "datapackage.json",
        b'{"name": "weather"}',
        "describes something other than a record; choose a folder of the program.",
    ),
]


@pytest.mark.parametrize(("name", "content", "sentence"), FILES)
def test_a_file_that_is_something_else_is_named(studio, name, content, sentence):
    folder = studio.write()

    (folder / name).write_bytes(content)

    assert said(folder) == [f"{name}: {sentence}"]


def test_a_table_in_another_encoding_is_named_with_its_line(studio):
    folder = studio.write()

    (folder / "coats.csv").write_bytes("pot_id,place,glaze\np-1,1,gr\xfcn\n".encode("latin-1"))

    assert said(folder) == [f"coats.csv, row 2: is not written in UTF-8; {SAVE_AS}"]


def test_a_row_without_end_is_given_up_before_it_fills_the_memory(studio):
    folder = studio.write()
    with (folder / "coats.csv").open("ab") as file:
        file.write(b'p-1,11,"' + b"x\n" * 1_000)

    assert said(folder, limits=Limits(cell_characters=80)) == [
        (
            "coats.csv, row 4 (line 960 in a text editor): begins a row that does not end; "
            "close every quotation mark."
        )
    ]


@pytest.mark.parametrize("name", ["pots.csv", "originals.csv", "log_lines.csv"])
def test_a_missing_table_is_named(studio, name):
    folder = studio.write()

    (folder / name).unlink()

    assert said(folder)[0] == f"{name}: is missing; put it back."


def test_a_missing_description_is_named(studio):
    folder = studio.write()

    (folder / "datapackage.json").unlink()

    assert said(folder) == [
        "datapackage.json: is missing; choose a folder that the program handed out."
    ]


def test_a_folder_that_is_not_there_is_named(studio):
    assert said(studio.place / "record") == [
        "record: is no folder; choose a folder that the program handed out."
    ]


# Name of a file that is there too, sentence.
EXTRAS = [
    ("plates.csv", "is a table that datapackage.json does not name"),
    ("pots.xlsx", "is no part of a record folder"),
    ("Pots.csv", "is a table that datapackage.json does not name"),
    ("photos/holiday.jpg", "is no original: its name is not the SHA-256 of a file"),
    (f"photos/{'0' * 64}.jpg", "is in no row of originals.csv"),
]


@pytest.mark.parametrize(("name", "fault"), EXTRAS)
def test_a_file_that_would_be_passed_over_is_named(studio, name, fault):
    folder = studio.write()

    (folder / name).write_bytes(b"x")

    assert said(folder) == [f"{name}: {fault}; {TAKE_AWAY}"]


def test_a_folder_that_would_be_passed_over_is_named(studio):
    folder = studio.write()

    (folder / "old").mkdir()

    assert said(folder) == [f"old: is no part of a record folder; {TAKE_AWAY}"]


# What happens to the photo, sentence about its file.
PHOTOS = [
    (
        lambda photo: photo.write_bytes(b"not really a phot0"),
        "is damaged: its content does not match its name; put the original file there.",
    ),
    (
        lambda photo: photo.write_bytes(b"not really"),
        "has 10 bytes where originals.csv says 18: it is damaged; put the original file there.",
    ),
    (
        lambda photo: photo.write_bytes(bytes(2_000)),
        "has 2000 bytes, and at most 1000 are taken; put the original file there.",
    ),
    (
        lambda photo: (photo.unlink(), photo.mkdir()),
        "is a link or no file at all; put the original file there.",
    ),
    (
        lambda photo: (photo.rename(photo.with_name("x")), photo.symlink_to("x")),
        "is a link or no file at all; put the original file there.",
    ),
]


@pytest.mark.parametrize(("damage", "sentence"), PHOTOS)
def test_a_damaged_photo_is_named(studio, damage, sentence):
    folder = studio.write()

    damage(folder / PHOTO_PATH)

    assert said(folder, limits=Limits(original_bytes=1_000))[0] == f"{PHOTO_PATH}: {sentence}"


def test_a_folder_of_photos_that_is_a_link_is_not_looked_into(studio, tmp_path):
    folder = studio.write()

    (folder / "photos").rename(tmp_path / "elsewhere")
    (folder / "photos").symlink_to(tmp_path / "elsewhere")

    assert said(folder) == [
        f"photos: is a link to another place; {TAKE_AWAY}",
        (
            f'originals.csv, row 2, column path: "{PHOTO_PATH[:60]}..." is missing from the '
            "folder; "
            "put the file back, or take out the row and what refers to it."
        ),
    ]


@pytest.mark.parametrize("name", ["pots.csv", "datapackage.json"])
def test_a_link_is_not_followed(studio, tmp_path, name):
    folder = studio.write()
    (folder / name).rename(tmp_path / name)

    (folder / name).symlink_to(tmp_path / name)

    assert f"{name}: is a link or no file at all; put the file itself there." in said(folder)


def test_a_pipe_is_not_waited_for(studio):
    folder = studio.write()
    (folder / "pots.csv").unlink()

    os.mkfifo(folder / "pots.csv")

    assert said(folder)[0] == ("pots.csv: is a link or no file at all; put the file itself there.")


def test_a_file_where_the_photos_should_be_is_named(studio):
    folder = studio.write()
    (folder / SOUND_PATH).unlink()
    (folder / "sounds").rmdir()

    (folder / "sounds").write_bytes(b"x")

    assert said(folder)[0] == f"sounds: is no folder; {TAKE_AWAY}"


def test_a_file_that_may_not_be_read_is_named(studio, monkeypatch):
    folder = studio.write()
    open_file = os.open

    def forbidding(path, flags, mode=0o777):
        if str(path).endswith("pots.csv"):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        return open_file(path, flags, mode)

    monkeypatch.setattr(os, "open", forbidding)

    assert said(folder) == [
        "pots.csv: cannot be read (Permission denied); see that it may be read."
    ]


LIMITS = [
    (
        Limits(rows=1),
        "pots.csv, row 3: is one more than the 1 rows that are read; hand out less at once.",
    ),
    (
        Limits(table_bytes=100),
        "pots.csv: has 215 bytes, and at most 100 are read; hand out less at once.",
    ),
    (Limits(descriptor_bytes=100), "datapackage.json: is too large; at most 100 bytes are read."),
    (
        Limits(entries=5),
        "record: holds more than 5 files; take out what does not belong there.",
    ),
]


@pytest.mark.parametrize(("limits", "sentence"), LIMITS)
def test_a_folder_larger_than_the_limits_is_refused(studio, limits, sentence):
    folder = studio.write()

    assert said(folder, limits=limits)[0] == sentence
