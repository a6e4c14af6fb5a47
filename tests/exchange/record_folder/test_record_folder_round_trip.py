"""Whatever can be written comes back: same rows, same bytes, valid to another program."""

import math
import string
import tempfile
import unicodedata
from datetime import UTC, timedelta, timezone
from pathlib import Path

import hypothesis.strategies as st
import pytest
from frictionless import Package
from hypothesis import example, given, settings
from record_folder_samples import contents

from wareboard.exchange.record_folder import (
    Column,
    TableSpec,
    read_record_folder,
    write_record_folder,
)
from wareboard.exchange.record_folder.cells import NOT_TEXT, BadCell, cell_reader, cell_writer

# Letters, marks that compose, and all that CSV, spreadsheets and readers stumble over.
NASTY = "ab \t\r\n\"',;|=+-@0'\N{COMBINING ACUTE ACCENT}e\N{BULLET}\N{AMPHORA}\N{ZERO WIDTH JOINER}"
NASTY += "\N{FULLWIDTH EQUALS SIGN}\N{LINE SEPARATOR}\N{ZERO WIDTH NO-BREAK SPACE}"
SPECIAL = [
    *("=cmd|' /C calc'!A0", "'=1+1", "''=1+1", "'", "''", "'tis", "-5", "+1", "@x", "\t", "\r"),
    *("\n", "\r\n", '"', '""', ",", " ", " a ", "null", "NULL", "NaN", "true", "1_000", "#REF!"),
]


def composed(text):
    return unicodedata.normalize("NFC", text)


texts = st.one_of(
    st.sampled_from(SPECIAL),
    st.text(NASTY, max_size=12),
    st.text(max_size=12).filter(lambda text: not NOT_TEXT.search(text)),
).map(composed)
offsets = st.integers(-14 * 60, 14 * 60).map(
    lambda minutes: timezone(timedelta(minutes=minutes)) if minutes else UTC
)
VALUES = {
    "string": texts,
    "integer": st.integers(-(2**63) + 1, 2**63 - 1),
    "number": st.floats(allow_nan=False, allow_infinity=False),
    "boolean": st.booleans(),
    "date": st.dates(),
    "datetime": st.datetimes(timezones=offsets),
}
names = st.text(string.ascii_lowercase, min_size=1, max_size=6)


@st.composite
def records(draw):
    """One to three tables of one to five columns, rows that may point at earlier tables."""
    specs, rows_by_table = [], {}
    for table in draw(st.lists(names, min_size=1, max_size=3, unique=True)):
        name = f"t_{table}"
        key_kind = draw(st.sampled_from(["string", "integer", "date"]))
        columns = [Column("id", key_kind, required=draw(st.booleans()))]
        for column in draw(st.lists(names, max_size=4, unique=True)):
            targets = [spec for spec in specs if rows_by_table[spec.name]]
            target = draw(st.sampled_from([None, *targets]))
            kind = target.columns[0].kind if target else draw(st.sampled_from(sorted(VALUES)))
            columns.append(
                Column(f"c_{column}", kind, refers_to=target.name if target else None, unit="g")
            )
        spec = TableSpec(name, draw(names), "", tuple(columns))
        keys = draw(
            st.lists(VALUES[key_kind].filter(lambda key: key != ""), max_size=5, unique=True)
        )
        rows_by_table[name] = [
            {
                column.name: key
                if column.name == "id"
                else draw(
                    st.none()
                    | (
                        st.sampled_from([row["id"] for row in rows_by_table[column.refers_to]])
                        if column.refers_to
                        else VALUES[column.kind]
                    )
                )
                for column in columns
            }
            for key in keys
        ]
        specs.append(spec)
    return specs, rows_by_table


def write(folder, specs, rows_by_table):
    write_record_folder(
        folder, specs, rows_by_table, [], studio_title="Lane", program_version="0.1.0"
    )


def as_read(rows):
    """What rows are after reading: an empty text is nothing, and zero has no sign."""
    return [
        {
            name: None
            if value == ""
            else 0.0
            if value == 0.0 and isinstance(value, float)
            else value
            for name, value in row.items()
        }
        for row in rows
    ]


@settings(deadline=None)
@given(record=records())
def test_any_record_comes_back_row_by_row_and_byte_by_byte(record):
    specs, rows_by_table = record

    with tempfile.TemporaryDirectory() as place:
        first, second = Path(place, "first"), Path(place, "second")
        write(first, specs, rows_by_table)
        read = read_record_folder(first, specs).rows_by_table
        write(second, specs, read)

        assert read == {
            name: sorted(as_read(rows), key=lambda row: row["id"])
            for name, rows in rows_by_table.items()
        }
        assert contents(first) == contents(second)


@settings(deadline=None, max_examples=60)
@given(record=records())
def test_any_record_is_valid_to_another_program(record):
    specs, rows_by_table = record

    with tempfile.TemporaryDirectory() as place:
        write(Path(place, "record"), specs, rows_by_table)
        report = Package(str(Path(place, "record", "datapackage.json"))).validate()

    assert report.flatten(["type", "note"]) == []


def cell_of(kind, value):
    column = Column("x", kind)
    cell = cell_writer(column, needed=False, longest=1_000)(value)
    return cell, cell_reader(column, needed=False, longest=1_000)(cell)


@given(text=texts)
@example(text="=HYPERLINK(0)")
@example(text="''''@")
def test_any_text_is_harmless_in_a_spreadsheet_and_comes_back_exactly(text):
    cell, back = cell_of("string", text)

    assert cell[:1] not in set("=+-@\t\r\n")
    assert back == (text or None)


@given(text=texts)
def test_an_apostrophe_goes_in_front_of_what_would_run_and_of_nothing_else(text):
    cell, _ = cell_of("string", text)

    first = text.lstrip("'")[:1]
    would_run = unicodedata.normalize("NFKC", first) in {*"=+-@\t\r\n"}
    assert cell == ("'" if would_run else "") + text


@given(number=st.floats(allow_nan=False, allow_infinity=False))
@example(number=5e-324)
@example(number=1.7976931348623157e308)
@example(number=0.1)
def test_any_number_comes_back_to_the_last_bit(number):
    cell, back = cell_of("number", number)

    assert back == number
    assert math.copysign(1.0, back) == (math.copysign(1.0, number) if number else 1.0)
    assert float(cell) == number


@given(moment=VALUES["datetime"])
def test_any_moment_keeps_its_offset_and_its_microseconds(moment):
    _, back = cell_of("datetime", moment)

    assert back == moment
    assert back.utcoffset() == moment.utcoffset()


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("\N{FULLWIDTH PLUS SIGN}1", "'\N{FULLWIDTH PLUS SIGN}1"),
        ("=1+1", "'=1+1"),
        ("'=1+1", "''=1+1"),
        ("'tis", "'tis"),
        ("'", "'"),
        ("a=1", "a=1"),
        (" =1", " =1"),
        ("\tindented", "'\tindented"),
    ],
)
def test_the_apostrophe_stands_only_where_it_is_needed(text, cell):
    assert cell_of("string", text) == (cell, text)


@pytest.mark.parametrize(
    ("bounds", "request_for"),
    [
        ({"minimum": 1}, "write a number of at least 1 mm"),
        ({"maximum": 4}, "write a number of at most 4 mm"),
        ({"minimum": 1, "maximum": 4}, "write a number from 1 to 4 mm"),
    ],
)
def test_a_number_out_of_range_is_told_the_range(bounds, request_for):
    write = cell_writer(Column("x", "integer", unit="mm", **bounds), needed=False, longest=9)

    with pytest.raises(BadCell) as bad:
        write(0 if "minimum" in bounds else 5)

    assert (bad.value.fault, bad.value.accepted) == ("is out of range", request_for)


def test_a_text_that_grows_when_composed_is_measured_as_it_is_kept():
    # Two signs that Unicode keeps apart when it composes: one character becomes two.
    letter = "\N{DEVANAGARI LETTER QA}"
    read = cell_reader(Column("x", "string"), needed=False, longest=3)

    with pytest.raises(BadCell) as bad:
        read(letter * 2)

    assert bad.value.fault == "has 4 characters"
