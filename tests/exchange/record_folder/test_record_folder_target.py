"""Where a record folder may be written, and what is never lost there."""

import os

import pytest
from record_folder_samples import PHOTO_PATH, ROWS, SPECS, contents

from wareboard.exchange.record_folder import FolderNotWritten, read_record_folder

NEWER = {**ROWS, "coats": []}


def refusal_of(studio, **changes):
    with pytest.raises(FolderNotWritten) as refusal:
        studio.write(**changes)
    return refusal.value.say


def test_an_empty_folder_is_written_into(studio):
    (studio.place / "record").mkdir()
    (studio.place / "record" / ".DS_Store").write_bytes(b"x")

    folder = studio.write()

    assert len(read_record_folder(folder, SPECS).rows_by_table) == 3


def test_an_earlier_record_stays_unless_it_may_be_replaced(studio):
    before = contents(studio.write())

    assert refusal_of(studio, rows_by_table=NEWER) == (
        "The folder record already holds a record: nothing written."
    )
    assert contents(studio.place / "record") == before


def test_an_earlier_record_is_replaced_where_asked(studio):
    studio.write()

    folder = studio.write(rows_by_table=NEWER, overwrite=True)

    assert read_record_folder(folder, SPECS).rows_by_table["coats"] == []
    assert [path.name for path in studio.place.iterdir()] == ["record"]


@pytest.mark.parametrize("overwrite", [False, True])
@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("letter.txt", b"dear"),
        ("datapackage.json", b'{"name": "weather"}'),
        ("datapackage.json", b"[1]"),
        ("datapackage.json", b"{"),
        ("datapackage.json", b"\xff"),
    ],
)
def test_a_folder_that_holds_something_else_is_left_alone(studio, overwrite, name, content):
    (studio.place / "record").mkdir()
    (studio.place / "record" / name).write_bytes(content)

    assert refusal_of(studio, overwrite=overwrite) == (
        "The folder record holds something that is no record: nothing written."
    )
    assert contents(studio.place / "record") == {name: content}


@pytest.mark.parametrize(
    "name", ["letter.txt", "plates.csv", "photos/cat.jpg", "photos/old/cat.jpg", ".git/config"]
)
def test_a_file_of_somebody_is_not_lost_with_an_earlier_record(studio, name):
    folder = studio.write()
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).write_bytes(b"dear")

    say = refusal_of(studio, overwrite=True)

    stray = name.removesuffix("/cat.jpg") if "old" in name else name.removesuffix("/config")
    assert say == (
        f"The folder record holds {stray}, which is no part of a record and would be lost: "
        "move it away first."
    )
    assert (folder / name).read_bytes() == b"dear"


def test_a_link_to_an_original_elsewhere_is_not_lost_with_an_earlier_record(studio, tmp_path):
    folder = studio.write()
    (folder / PHOTO_PATH).rename(tmp_path / "photo")
    (folder / PHOTO_PATH).symlink_to(tmp_path / "photo")

    assert refusal_of(studio, overwrite=True).startswith(f"The folder record holds {PHOTO_PATH},")


def test_a_file_in_the_place_of_the_folder_is_left_alone(studio):
    (studio.place / "record").write_bytes(b"dear")

    assert refusal_of(studio) == "record is a file, so no folder can be written there."
    assert (studio.place / "record").read_bytes() == b"dear"


def test_the_folder_around_it_must_be_there(studio):
    say = refusal_of(studio, name="missing/record")

    assert say == f"There is no folder {studio.place / 'missing'} to write into."


def test_a_link_to_a_folder_stays_a_link(studio):
    real = studio.write("real")
    (studio.place / "record").symlink_to("real")

    studio.write(rows_by_table=NEWER, overwrite=True)

    assert (studio.place / "record").is_symlink()
    assert read_record_folder(real, SPECS).rows_by_table["coats"] == []


def test_a_name_with_the_signs_of_a_pattern_sweeps_up_only_its_own(studio):
    other = studio.place / ".a.unfinished-12345678"
    other.mkdir()
    os.utime(other, times=(1_000, 1_000))

    studio.write("[a]*")

    assert {path.name for path in studio.place.iterdir()} == {"[a]*", other.name}
