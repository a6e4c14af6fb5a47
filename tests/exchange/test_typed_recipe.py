"""Recipes as people type them."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wareboard.core.errors import CoreError
from wareboard.exchange.typed_recipe import MOST_LINES, TypedLine, read_recipe


# One line of a recipe, in the ways it is written.
@pytest.mark.parametrize(
    "text",
    [
        "whiting 20", "whiting, 20", "whiting,20", "whiting: 20", "whiting:20", "whiting=20",
        "whiting = 20", "whiting\t20", "whiting - 20", "whiting – 20", "whiting — 20",
        "whiting ... 20", "whiting; 20", "whiting | 20", "whiting (20)", "whiting (20 %)",
        "whiting 20%", "whiting 20 %", "whiting 20g", "whiting 20 grams", "whiting, 20.0",
        "20 whiting", "20, whiting", "20: whiting", "20% whiting", "20 % whiting", "20\twhiting",
        "20 g whiting", "20g whiting", "20 parts whiting", "20 parts of whiting", "20 - whiting",
        "20 = whiting", "* whiting, 20,", "whiting,  20.",
    ],
)  # fmt: skip
def test_the_same_line_is_read_however_it_is_set_out(text):
    assert read_recipe(text, field="recipe") == (TypedLine("whiting", 20.0, addition=False),)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("20.5 g whiting", TypedLine("whiting", 20.5, addition=False)),
        ("whiting,20,5", TypedLine("whiting", 20.5, addition=False)),
        ("granite 20", TypedLine("granite", 20.0, addition=False)),
        ("20 granite", TypedLine("granite", 20.0, addition=False)),
        ("20 pts. talc", TypedLine("talc", 20.0, addition=False)),
        ("2 kg whiting", TypedLine("whiting", 2000.0, addition=False)),
        ("whiting 2.5kg", TypedLine("whiting", 2500.0, addition=False)),
        ("10 oz whiting", TypedLine("whiting", 283.49523125, addition=False)),
        ("20 g frit 3134", TypedLine("frit 3134", 20.0, addition=False)),
        ("20: frit 3134", TypedLine("frit 3134", 20.0, addition=False)),
        ("325 mesh silica: 18", TypedLine("325 mesh silica", 18.0, addition=False)),
        ("bone ash (real), 20", TypedLine("bone ash (real)", 20.0, addition=False)),
        ("tin oxide + 1,2", TypedLine("tin oxide", 1.2, addition=True)),
        ("+ 1.2 tin oxide", TypedLine("tin oxide", 1.2, addition=True)),
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


FOUR = (
    TypedLine("silica", 30.0, addition=False),
    TypedLine("feldspar", 40.0, addition=False),
    TypedLine("whiting", 20.0, addition=False),
    TypedLine("rutile", 2.0, addition=True),
)


# One and the same recipe on one line, in the ways it is written.
@pytest.mark.parametrize(
    "text",
    [
        "silica 30, feldspar 40, whiting 20, + rutile 2",
        "silica 30, feldspar 40, whiting 20, +2 rutile",
        "silica 30, feldspar 40, whiting 20, rutile +2",
        "silica 30, feldspar 40, whiting 20, plus 2 rutile",
        "silica 30, feldspar 40, whiting 20 + 2 rutile",
        "silica 30, feldspar 40, whiting 20 plus rutile 2 %",
        "silica 30, feldspar 40 and whiting 20 + rutile 2",
        "30 silica, 40 feldspar, 20 whiting, + 2 rutile",
        "30 silica,40 feldspar,20 whiting,+2 rutile",
        "silica 30,feldspar 40,whiting 20,+ rutile 2",
        "silica: 30, feldspar: 40, whiting: 20, + rutile: 2.",
        "silica 30,0, feldspar 40,0, whiting 20,0, + rutile 2,0",
        "silica 30 % & feldspar 40 % & whiting 20 %; plus rutile 2",
        "silica, 30, feldspar, 40\nwhiting 20\nplus rutile 2",
        "30, silica, 40, feldspar\nwhiting, 20\n- + rutile 2",
    ],
)
def test_a_recipe_on_one_line_is_read_as_on_four(text):
    assert read_recipe(text, field="recipe") == FOUR


@pytest.mark.parametrize(
    ("text", "name", "parts"),
    [
        ("feldspar, potash 40", "feldspar, potash", 40.0),
        ("frit 3134, 20", "frit 3134", 20.0),
        ("frit 3134, ground, 20", "frit 3134, ground", 20.0),
        ("sand and grit 20", "sand and grit", 20.0),
        ("A+B clay 20", "A+B clay", 20.0),
    ],
)
def test_a_name_may_have_a_comma_or_a_plus_in_it(text, name, parts):
    assert read_recipe(text, field="recipe") == (TypedLine(name, parts, addition=False),)


@pytest.mark.parametrize(
    ("text", "say"),
    [
        ("feldspar, potash 40, silica 30", '"feldspar" has no number of its own; write one'),
        ("frit 3134, 20, silica, 30", '"20" has no name of its own; write one material a line'),
        (
            "silica 98, + rutile 2, cobalt 1",
            'In "silica 98, + rutile 2, cobalt 1" one has a plus and the next has none: begin a',
        ),
        ("20 frit 3134, 30 silica", '"20 frit 3134" begins and ends with a number: put a colon'),
        ("whiting", '"whiting" has no name or no number; write one material a line'),
        ("40", '"40" has no name or no number; write one material a line'),
        ("12 40", '"12 40" has no name; write one material a line'),
        ("whiting 0", 'whiting: "0" is out of range; accepted is a number above 0'),
        ("whiting -4", 'whiting: "-4" is out of range; accepted is a number above 0'),
        ("20 frit 3134", '"20 frit 3134" begins and ends with a number: put a colon before its'),
        (
            "whiting\t20\t16.5",
            '"whiting\\u000920\\u000916.5" has two numbers; write one material a',
        ),
        ("10 gr whiting", "10 gr: do you mean 10 g or 10 grain"),
        ("whiting ,", '"whiting ," has no name or no number; write one material a line'),
        ("whiting 1,500", "1,500: do you mean 1.5 or 1500?"),
        ("whiting 1.2.3", 'whiting: "1.2.3" is not a number'),
        ("," * 900 + "x", f'The line "{"," * 60}..." has 901 characters, and at most 240 go in;'),
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


PLUSES = st.sampled_from(["+ {name} {parts}", "+{parts} {name}", "{name} +{parts}"])


@given(
    lines=st.lists(st.builds(TypedLine, NAMES, PARTS, st.booleans()), min_size=2, max_size=5),
    comma=st.sampled_from([", ", ",", " , ", " and "]),
    first=st.booleans(),
    plus=PLUSES,
)
def test_every_recipe_on_one_line_reads_back(lines, comma, first, plus):
    # A comma between two digits belongs to the number: "frit 3134,20 whiting" is not two lines.
    assume(not (comma == "," and first))
    lines.sort(key=lambda line: line.addition)
    plain = "{parts}: {name}" if first else "{name} {parts}"
    plus = plus.replace("{parts} {name}", "{parts}: {name}")
    text = comma.join(
        (plus if line.addition else plain).format(name=line.name, parts=line.parts)
        for line in lines
    )

    assert read_recipe(text, field="recipe") == tuple(lines)


@given(name=st.text(max_size=30), mark=st.sampled_from(",:=;-–. \t+"))
def test_no_name_ends_in_a_mark(name, mark):
    try:
        lines = read_recipe(f"{name}{mark} 20", field="recipe")
    except CoreError:
        return

    assert not any(line.name.endswith(tuple(",:=;-–.+ \t")) for line in lines)


def refusal_of(text: str) -> str:
    try:
        read_recipe(text, field="recipe")
    except CoreError as refused:
        return refused.say
    return "read."


@given(text=st.text(max_size=80))
def test_any_text_is_a_recipe_or_gets_a_sentence(text):
    assert refusal_of(text).endswith((".", "?"))
