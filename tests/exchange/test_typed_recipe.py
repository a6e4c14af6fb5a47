"""Recipes as people type them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_recipe import MOST_LINES, TypedLine, read_recipe


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("potash feldspar 40", TypedLine("potash feldspar", 40.0, addition=False)),
        ("potash feldspar: 40,5", TypedLine("potash feldspar", 40.5, addition=False)),
        ("potash  feldspar\t40.5 %", TypedLine("potash feldspar", 40.5, addition=False)),
        ("40 potash feldspar", TypedLine("potash feldspar", 40.0, addition=False)),
        ("40 g potash feldspar", TypedLine("potash feldspar", 40.0, addition=False)),
        ("- whiting = 16 parts", TypedLine("whiting", 16.0, addition=False)),
        ("frit 3134 20", TypedLine("frit 3134", 20.0, addition=False)),
        ("+ tin oxide 1.2", TypedLine("tin oxide", 1.2, addition=True)),
        ("+tin oxide ½", TypedLine("tin oxide", 0.5, addition=True)),
        ("talc 1/2", TypedLine("talc", 0.5, addition=False)),
        ("Cornish stone 20,", TypedLine("Cornish stone", 20.0, addition=False)),
    ],
)
def test_a_line_is_a_material_and_its_parts(text, line):
    assert read_recipe(text, field="recipe") == (line,)


def test_lines_keep_their_order_and_empty_ones_do_not_count():
    lines = read_recipe("\nwhiting 16\r\n\ntalc 4; silica 18 · + rutile 2\n", field="recipe")

    assert [line.name for line in lines] == ["whiting", "talc", "silica", "rutile"]


@pytest.mark.parametrize(
    ("text", "say"),
    [
        ("whiting", '"whiting" has no name or no number; write one material a line'),
        ("40", '"40" has no name or no number; write one material a line'),
        ("12 40", '"12 40" has no name; write one material a line'),
        ("whiting 0", 'whiting: "0" is out of range; accepted is a number above 0'),
        ("whiting -4", 'whiting: "-4" is out of range; accepted is a number above 0'),
        ("whiting 1,500", "1,500: do you mean 1.5 or 1500?"),
        ("whiting 1.2.3", 'whiting: "1.2.3" is not a number'),
        ("", "There is no material in it; write one material a line"),
        ("talc 1\n" * (MOST_LINES + 1), "These are 61 lines, and at most 60 go in; write"),
    ],
)
def test_what_cannot_be_read_is_named(text, say):
    with pytest.raises(CoreError) as refused:
        read_recipe(text, field="recipe")

    assert refused.value.say.startswith(say)


NAMES = st.sampled_from(["whiting", "ball clay", "soda feldspar", "frit 3134", "bone ash (real)"])
PARTS = st.decimals(min_value="0.01", max_value=500, places=2).map(float)


@given(lines=st.lists(st.builds(TypedLine, NAMES, PARTS, st.booleans()), min_size=1, max_size=12))
def test_every_recipe_that_is_written_out_reads_back(lines):
    text = "\n".join(f"{'+ ' if line.addition else ''}{line.name} {line.parts}" for line in lines)

    assert read_recipe(text, field="recipe") == tuple(lines)


def refusal_of(text: str) -> str:
    try:
        read_recipe(text, field="recipe")
    except CoreError as refused:
        return refused.say
    return "read."


@given(text=st.text(max_size=80))
def test_any_text_is_a_recipe_or_gets_a_sentence(text):
    assert refusal_of(text).endswith((".", "?"))
