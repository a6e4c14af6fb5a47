"""What is read: the same rows, also from what a spreadsheet has saved."""

import socket
import subprocess
import sys
from datetime import UTC, datetime

import pytest
from record_folder_samples import AN_HOUR_AHEAD, PHOTO_PATH, POTS, ROWS, SOUND_PATH, SPECS, contents

from wareboard.exchange.record_folder import (
    Column,
    TableSpec,
    read_record_folder,
    write_record_folder,
)


def test_rows_come_back_as_they_were_sorted_by_their_key(studio):
    folder = studio.write()

    record = read_record_folder(folder, SPECS)

    assert record.rows_by_table == {
        "pots": ROWS["pots"][::-1],
        "coats": ROWS["coats"][::-1],
        "log_lines": ROWS["log_lines"],
    }
    assert (record.studio_title, record.program_version) == ("Clay Lane", "0.1.0")


def test_times_come_back_with_the_offset_they_were_written_with(studio):
    folder = studio.write()

    first, second = read_record_folder(folder, SPECS).rows_by_table["log_lines"]

    assert first["at"].utcoffset() == AN_HOUR_AHEAD.utcoffset(None)
    assert second["at"].utcoffset() == UTC.utcoffset(None)


def test_originals_come_back_with_the_place_of_their_bytes(studio):
    folder = studio.write()

    originals = read_record_folder(folder, SPECS).originals

    assert [original.path for original in originals] == [PHOTO_PATH, SOUND_PATH]
    assert [original.source for original in originals] == [
        folder / PHOTO_PATH,
        folder / SOUND_PATH,
    ]


def test_taken_in_and_handed_out_again_gives_the_same_bytes(studio):
    folder = studio.write()

    record = read_record_folder(folder, SPECS)
    write_record_folder(
        studio.place / "again",
        SPECS,
        record.rows_by_table,
        record.originals,
        studio_title=record.studio_title,
        program_version=record.program_version,
    )

    assert contents(studio.place / "again") == contents(folder)


def saved_by_a_spreadsheet(text: str) -> bytes:
    """A byte order mark, the line ends of another system, truth in capitals."""
    return b"\xef\xbb\xbf" + text.replace("\n", "\r\n").replace("true", "TRUE").encode()


def test_a_table_saved_by_a_spreadsheet_reads_the_same(studio):
    rows = {**ROWS, "pots": [{**pot, "note": "plain"} for pot in ROWS["pots"]]}
    folder = studio.write(rows_by_table=rows)
    before = read_record_folder(folder, SPECS)
    table = folder / "pots.csv"

    table.write_bytes(saved_by_a_spreadsheet(table.read_text(encoding="utf-8")))

    assert read_record_folder(folder, SPECS) == before


def test_columns_and_rows_may_be_moved_about(studio):
    folder = studio.write()
    before = read_record_folder(folder, SPECS)

    (folder / "coats.csv").write_text(
        "glaze,pot_id,place\n'Old' white,p-1,10\n'-5 blue,p-1,9\n", encoding="utf-8"
    )

    assert read_record_folder(folder, SPECS) == before


@pytest.mark.parametrize(
    ("cell", "value"),
    [("+5", 5.0), ("007.50", 7.5), (".5", 0.5), ("5.", 5.0), ("1E2", 100.0), ("-0", 0.0)],
)
def test_a_number_may_be_written_in_any_plain_way(studio, cell, value):
    folder = studio.write()
    table = folder / "pots.csv"

    table.write_text(table.read_text(encoding="utf-8").replace("412.0", cell), encoding="utf-8")

    assert read_record_folder(folder, SPECS).rows_by_table["pots"][1]["weight_g"] == value


def test_a_time_may_name_universal_time_by_its_letter(studio):
    folder = studio.write()
    table = folder / "log_lines.csv"
    table.write_text(
        table.read_text(encoding="utf-8").replace("13:04:00+00:00", "13:04:00Z"), encoding="utf-8"
    )

    rows = read_record_folder(folder, SPECS).rows_by_table["log_lines"]

    assert rows[1]["at"] == datetime(2026, 11, 25, 13, 4, tzinfo=UTC)


def test_a_decomposed_accent_is_read_as_the_composed_one(studio):
    folder = studio.write()
    table = folder / "coats.csv"
    table.write_text(
        table.read_text(encoding="utf-8").replace("blue", "cafe\N{COMBINING ACUTE ACCENT}"),
        encoding="utf-8",
    )

    rows = read_record_folder(folder, SPECS).rows_by_table["coats"]

    assert rows[0]["glaze"] == "-5 caf\N{LATIN SMALL LETTER E WITH ACUTE}"


def test_a_folder_from_before_a_column_and_a_table_came_still_reads(studio):
    folder = studio.write()
    newer = TableSpec(
        POTS.name, POTS.title, POTS.description, (*POTS.columns, Column("shelf", "string"))
    )
    plates = TableSpec("plates", "Plates", "", (Column("id", "integer"),), optional=True)

    record = read_record_folder(folder, (newer, *SPECS[1:], plates))

    assert [pot["shelf"] for pot in record.rows_by_table["pots"]] == [None, None]
    assert list(record.rows_by_table) == ["pots", "coats", "log_lines"]


def test_files_that_other_programs_leave_behind_are_passed_over(studio):
    folder = studio.write()
    before = read_record_folder(folder, SPECS)

    for name in (".DS_Store", "Thumbs.db", "photos/Thumbs.db", ".~lock.pots.csv#", "~$pots.csv"):
        (folder / name).write_bytes(b"x")

    assert read_record_folder(folder, SPECS) == before


def test_the_page_in_plain_words_may_be_gone(studio):
    folder = studio.write()
    before = read_record_folder(folder, SPECS)

    (folder / "README.txt").unlink()

    assert read_record_folder(folder, SPECS) == before


def test_reading_opens_no_connection(studio, monkeypatch):
    folder = studio.write()
    asked = []
    monkeypatch.setattr(socket.socket, "connect", lambda _, address: asked.append(address))
    monkeypatch.setattr(socket, "getaddrinfo", lambda *address, **_: asked.append(address))

    read_record_folder(folder, SPECS)

    assert asked == []


def test_the_library_for_data_packages_loads_only_when_a_folder_is_read():
    code = (
        "import sys, wareboard.exchange.record_folder; "
        "raise SystemExit('frictionless' in sys.modules or 'django' in sys.modules)"
    )

    done = subprocess.run([sys.executable, "-W", "error", "-c", code], check=False)

    assert done.returncode == 0


def test_reading_gives_no_warning_even_where_warnings_are_errors(studio):
    folder = studio.write()
    code = (
        "import sys; from pathlib import Path; "
        "sys.path.insert(0, sys.argv[2]); from record_folder_samples import SPECS; "
        "from wareboard.exchange.record_folder import read_record_folder; "
        "print(len(read_record_folder(Path(sys.argv[1]), SPECS).rows_by_table['pots']))"
    )

    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code, str(folder), __file__.rpartition("/")[0]],
        check=False,
        capture_output=True,
        text=True,
    )

    assert (done.stdout, done.stderr, done.returncode) == ("2\n", "", 0)
