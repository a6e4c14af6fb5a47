"""A record that could not be read again is not written, and the sentence says why."""

from datetime import UTC, datetime, time, timedelta, timezone

import pytest
from record_folder_samples import (
    PHOTO_PATH,
    ROWS,
    sha256,
)

from wareboard.exchange.record_folder import (
    FolderNotWritten,
    Limits,
    Original,
)

NUMBER = "write it with plain digits and one point, such as 12.5"
WHOLE = "write it with plain digits, such as 12"
TEXT = "use letters, digits, signs and blanks only"
DAY = "write it as year-month-day, such as 2026-11-25"
TIME = "write it with its offset, such as 2026-11-25T14:03:00+01:00"
# Each is one value changed in the first row of a table.
UNFIT = [
    ("pots", "form", "vase", '"vase" is not one of the choices; write one of bowl, mug'),
    ("pots", "form", None, "is blank; fill it in: write one of bowl, mug"),
    ("pots", "weight_g", -1.0, '"-1.0" is out of range; write a number from 0.0 to 50000.0 g'),
    ("pots", "weight_g", float("nan"), f'"nan" is no number that can be kept; {NUMBER}'),
    ("pots", "weight_g", float("inf"), f'"inf" is no number that can be kept; {NUMBER}'),
    (
        "pots",
        "weight_g",
        2**53 + 1,
        f'"9007199254740993" is no number that can be kept; {NUMBER}',
    ),
    (
        "pots",
        "weight_g",
        10**400,
        f'"1{"0" * 59}..." is no number that can be kept; {NUMBER}',
    ),
    ("pots", "weight_g", True, f'"True" is no number; {NUMBER}'),
    ("pots", "weight_g", "412", f'"412" is no number; {NUMBER}'),
    (
        "pots",
        "thrown_on",
        datetime(2026, 1, 1, tzinfo=UTC),
        f'"2026-01-01 00:00:00+00:00" is no date; {DAY}',
    ),
    ("pots", "thrown_on", "2026-01-01", f'"2026-01-01" is no date; {DAY}'),
    ("pots", "sold", 1, '"1" is neither true nor false; write true or false'),
    ("pots", "note", 5, f'"5" is no text; {TEXT}'),
    (
        "pots",
        "note",
        "a\0b",
        f'"a\\u0000b" holds the character U+0000, which no text may hold; {TEXT}',
    ),
    (
        "pots",
        "note",
        "a\N{RIGHT-TO-LEFT OVERRIDE}b",
        f'"a\\u202eb" holds the character U+202E, which no text may hold; {TEXT}',
    ),
    (
        "pots",
        "note",
        "a\ud800b",
        f'"a\\ud800b" holds the character U+D800, which no text may hold; {TEXT}',
    ),
    (
        "pots",
        "note",
        "a" * 100_001,
        f'"{"a" * 60}..." has 100001 characters; at most 100000 are kept',
    ),
    (
        "log_lines",
        "at",
        datetime(2026, 1, 1),  # noqa: DTZ001 - the fault
        f'"2026-01-01 00:00:00" has no offset in whole minutes; {TIME}',
    ),
    (
        "log_lines",
        "at",
        datetime(1890, 1, 1, tzinfo=timezone(timedelta(minutes=19, seconds=32))),
        f'"1890-01-01 00:00:00+00:19:32" has no offset in whole minutes; {TIME}',
    ),
    ("log_lines", "at", time(12), f'"12:00:00" is no date and time; {TIME}'),
]
FIRST = {"pots": "pots, id p-2", "log_lines": "log_lines, id 1"}


@pytest.mark.parametrize(("table", "column", "value", "sentence"), UNFIT)
def test_a_value_that_could_not_be_read_again_is_not_written(
    studio, table, column, value, sentence
):
    rows = {**ROWS, table: [{**ROWS[table][0], column: value}, *ROWS[table][1:]]}

    with pytest.raises(FolderNotWritten) as refusal:
        studio.write(rows_by_table=rows)

    assert refusal.value.say == (
        f"The record cannot be handed out: {FIRST[table]}, column {column}: {sentence}."
    )
    assert list(studio.place.iterdir()) == []


@pytest.mark.parametrize(
    ("key", "sentence"),
    [
        (None, "is blank; fill it in: write a number of at least 1"),
        (0, '"0" is out of range; write a number of at least 1'),
        (1.0, f'"1.0" is no whole number that can be kept; {WHOLE}'),
        (True, f'"True" is no whole number that can be kept; {WHOLE}'),
        (2**63, f'"9223372036854775808" is no whole number that can be kept; {WHOLE}'),
    ],
)
def test_a_key_that_could_not_be_read_again_is_not_written(studio, key, sentence):
    rows = {**ROWS, "coats": [{"pot_id": "p-1", "place": key, "glaze": "white"}]}

    with pytest.raises(FolderNotWritten) as refusal:
        studio.write(rows_by_table=rows)

    assert refusal.value.say == (
        f"The record cannot be handed out: coats, pot_id p-1 and place {key}, column place: "
        f"{sentence}."
    )


def test_two_rows_of_one_key_are_not_written(studio):
    rows = {**ROWS, "coats": [ROWS["coats"][0], ROWS["coats"][0]]}

    with pytest.raises(FolderNotWritten, match="pot_id p-1 and place 10: stands in two rows"):
        studio.write(rows_by_table=rows)


def test_a_reference_that_leads_nowhere_is_not_written(studio):
    rows = {**ROWS, "coats": [{"pot_id": "p-7", "place": 1, "glaze": "white"}]}

    with pytest.raises(FolderNotWritten, match='coats, column pot_id: "p-7" is in no row of pots'):
        studio.write(rows_by_table=rows)


def test_a_photo_that_rows_refer_to_must_be_given(studio):
    with pytest.raises(FolderNotWritten, match=f'"{PHOTO_PATH[:60]}.*" is in no row of originals'):
        studio.write(originals=studio.originals[1:])


def test_a_photo_that_no_row_refers_to_is_not_written(studio):
    (studio.place / "other").write_bytes(b"other")
    other = Original(sha256(b"other"), "jpg", studio.place / "other")

    with pytest.raises(FolderNotWritten, match=r"belongs to no row; originals that rows refer to"):
        studio.write(originals=[*studio.originals, other])


@pytest.mark.parametrize(
    ("damage", "sentence"),
    [
        (lambda source: source.write_bytes(b"not really a phot0"), "is not what it was"),
        (lambda source: source.unlink(), "is missing from the store"),
        (lambda source: source.write_bytes(bytes(2_000)), "has over 1000 bytes"),
    ],
)
def test_a_photo_that_is_not_what_it_was_is_not_written(studio, damage, sentence):
    damage(studio.originals[0].source)

    with pytest.raises(FolderNotWritten) as refusal:
        studio.write(limits=Limits(original_bytes=1_000))

    assert refusal.value.say.startswith(f"The original {PHOTO_PATH} {sentence}")
    assert list(studio.place.iterdir()) == []


@pytest.mark.parametrize(
    ("limits", "sentence"),
    [(Limits(rows=1), "pots: has 2 rows; at most 1"), (Limits(table_bytes=80), "at most 80")],
)
def test_a_table_larger_than_reading_takes_is_not_written(studio, limits, sentence):
    with pytest.raises(FolderNotWritten, match=sentence):
        studio.write(limits=limits)
