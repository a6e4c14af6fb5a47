"""Names and notes: kept as typed, or refused with the place of what is wrong."""

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wareboard.exchange.refusals import TextRefused
from wareboard.exchange.typed_text import read_name, read_note


def test_two_ways_to_write_an_accent_are_one_name() -> None:
    composed = read_name("K\N{LATIN SMALL LETTER U WITH DIAERESIS}ste", field="name")
    apart = read_name("Ku\N{COMBINING DIAERESIS}ste", field="name")

    assert apart == composed


# N20: what looks like code is text as any other.
@pytest.mark.parametrize(
    "text",
    ["<script>alert(1)</script>", "{{7*7}}", "=cmd()", "'; DROP TABLE x", "\N{AMPHORA} ash"],
)
def test_names_are_kept_exactly(text: str) -> None:
    assert read_name(text, field="name") == text


# N19.
@pytest.mark.parametrize(
    ("text", "say"),
    [
        ("a\0b", "name holds a NUL character (U+0000) at character 2: take it out."),
        (
            "ab\N{RIGHT-TO-LEFT OVERRIDE}",
            (
                "name holds a character that turns the writing direction (U+202E) at character 3:"
                " take it out."
            ),
        ),
        ("\ud800", "name holds half of a character (U+D800) at character 1: take it out."),
        ("a\x1b[0m", "name holds a control character (U+001B) at character 2: take it out."),
        ("a\nb", "name holds a control character (U+000A) at character 2: take it out."),
    ],
)
def test_what_some_storage_cannot_hold_is_refused(text: str, say: str) -> None:
    with pytest.raises(TextRefused) as refused:
        read_name(text, field="name")

    assert refused.value.say == say
    assert str(refused.value.seen).isprintable()


def test_a_name_too_long_is_refused_and_not_cut() -> None:
    with pytest.raises(TextRefused) as refused:
        read_name("x" * 10_000, field="name")

    assert refused.value.say == "name has 10000 characters; at most 200 are kept."


def test_a_note_keeps_its_lines() -> None:
    assert read_note("thick on the lip\r\n\tran\r", field="note") == "thick on the lip\n\tran"


@settings(deadline=None)
@given(st.text())
def test_any_note_is_kept_or_refused_and_nothing_else(text: str) -> None:
    try:
        note = read_note(text, field="note")
    except TextRefused:
        return

    assert note == unicodedata.normalize("NFC", note)
    assert read_note(note, field="note") == note
    note.encode()
