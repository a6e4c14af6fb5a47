"""Every failure is one sentence, or one JSON object, and never a traceback."""

import contextlib
import io
import json
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wareboard.cli.main import main

from .conftest import Run

SLOP = ("reckon", "slop", "--sg", "1.45", "--solid", "2.6")

# Arguments, field, value seen, and the sentence.
FAILURES = {
    "unknown verb": (
        ("recon",),
        "verb",
        "recon",
        'wareboard knows no "recon"; do you mean reckon?',
    ),
    "unknown calculation": (
        ("reckon", "unitty", "limestone.csv"),
        "name",
        "unitty",
        'wareboard reckon knows no "unitty"; do you mean unity?',
    ),
    "no calculation before --json": (
        ("reckon",),
        "name",
        None,
        "Say what to reckon: unity, solid, slop, water, dose, coat, pot, cone, absorption, shrink.",
    ),
    "missing option": (
        ("reckon", "slop", "--solid", "2.6"),
        "sg",
        None,
        "--sg is missing: give a number above 1 and up to 10, such as 1.45.",
    ),
    "missing option of two words": (
        ("reckon", "dose", "--sg", "1.45", "--solid", "2.6", "--percent", "2"),
        "wet-g",
        None,
        "--wet-g is missing: give grams from 0 to 10000000.",
    ),
    "missing file argument": (
        ("reckon", "unity"),
        "recipe",
        None,
        "recipe is missing: give a CSV file with the columns material and parts.",
    ),
    "option without value": (
        ("reckon", "slop", "--sg"),
        "sg",
        "--sg",
        "--sg needs a value behind it.",
    ),
    "flag with value": ((*SLOP, "--help=yes"), "help", "--help", "--help takes no value."),
    "unknown option": (
        (*SLOP, "--liters", "5"),
        "liters",
        "--liters",
        "There is no option --liters; do you mean --litres?",
    ),
    "option twice": ((*SLOP, "--sg", "1.5"), "sg", "--sg", "--sg is given twice."),
    "word left over": (
        (*SLOP, "five"),
        "arguments",
        "five",
        '"five" is left over; put the name of an option before each value.',
    ),
    "lost point": (
        ("reckon", "slop", "--sg", "145", "--solid", "2.6"),
        "sg",
        "145",
        "145: do you mean 1.45?",
    ),
    "sg of water": (
        ("reckon", "slop", "--sg", "1", "--solid", "2.6"),
        "sg",
        "1",
        (
            'specific gravity of the slop: "1" is out of range; '
            "accepted is a number above 1 and up to 10, such as 1.45."
        ),
    ),
    "solid as light as water": (
        ("reckon", "slop", "--sg", "1.45", "--solid", "0.9"),
        "solid",
        "0.9",
        (
            'density of the powder: "0.9" is out of range; accepted is '
            "g/cm\N{SUPERSCRIPT THREE} above 1 and up to 20, such as 2.6."
        ),
    ),
    "decimal comma": (
        ("reckon", "slop", "--sg", "1,45", "--solid", "2.6"),
        "sg",
        "1,45",
        (
            'specific gravity of the slop: "1,45" has a comma in it; here the decimal sign is a '
            "point; accepted is a number above 1 and up to 10, such as 1.45."
        ),
    ),
    "unknown word": (
        ("reckon", "cone", "firing.csv", "--cones", "tiny"),
        "cones",
        "tiny",
        (
            'cones is "tiny"; say self-supporting or large or iron-free self-supporting or '
            "iron-free large."
        ),
    ),
    "missing file": (
        ("reckon", "unity", "none.csv"),
        "recipe",
        "none.csv",
        "none.csv: the file is not there.",
    ),
    "missing file of an option": (
        ("reckon", "unity", "limestone.csv", "--materials", "none.csv"),
        "materials",
        "none.csv",
        "none.csv: the file is not there.",
    ),
    "blank file name": (
        ("reckon", "cone", " "),
        "log",
        "",
        "log is blank: give a CSV file with the columns hours or time, and temp_c or temp_f.",
    ),
    "wrong file": (
        ("reckon", "unity", "firing.csv"),
        "hours",
        "hours",
        (
            'firing.csv, line 1: the heading "hours" is unknown; the columns are material, parts, '
            "addition (if wanted)."
        ),
    ),
    "shut-off outside the log": (
        ("reckon", "cone", "firing.csv", "--shut-off", "-1"),
        "shut-off",
        -1.0,
        "Hour -1 is outside the log, which runs from 0 h to 30 h.",
    ),
    "no calculation": (
        ("reckon",),
        "name",
        None,
        (
            "Say what to reckon: unity, solid, slop, water, dose, coat, pot, cone, absorption, "
            "shrink."
        ),
    ),
    "grown line": (
        ("reckon", "shrink", "--wet-mm", "100", "--dry-mm", "104", "--fired-mm", "90"),
        "dry-mm",
        104.0,
        ("The line cannot be longer dry, 104 mm, than before, 100 mm: are two lengths exchanged?"),
    ),
    "wall too thick": (
        ("reckon", "pot", "bowl.csv", "--wall-mm", "200"),
        "wall-mm",
        200.0,
        "A wall of 200 mm leaves no room inside this outline.",
    ),
}


# Where --json stands before any calculation, it is itself what fails.
WITH_JSON = [name for name, (arguments, *_) in FAILURES.items() if len(arguments) > 1]


@pytest.mark.parametrize(
    ("arguments", "field", "seen", "say"), FAILURES.values(), ids=FAILURES.keys()
)
def test_without_json_a_failure_is_one_sentence_on_standard_error(
    run: Callable[..., Run], arguments: tuple[str, ...], field: str, seen: object, say: str
) -> None:
    done = run(*arguments)

    assert done == Run(2, "", f"{say}\n")


@pytest.mark.parametrize(
    ("arguments", "field", "seen", "say"),
    [failure for name, failure in FAILURES.items() if name in WITH_JSON],
    ids=WITH_JSON,
)
def test_with_json_a_failure_is_one_object_on_standard_output(
    run: Callable[..., Run], arguments: tuple[str, ...], field: str, seen: object, say: str
) -> None:
    error = run(*arguments[:2], "--json", *arguments[2:]).error

    assert (error["field"], error["seen"], error["say"]) == (field, seen, say)
    assert error["accepted"]


@pytest.mark.parametrize("text", ["1_45", "nan", "inf", "\uff11.\uff14\uff15", "1e309", "1e-400"])
def test_what_is_no_plain_number_is_bad_input_in_an_option(
    run: Callable[..., Run], text: str
) -> None:
    error = run("reckon", "slop", "--sg", text, "--solid", "2.6", "--json").error

    assert (error["field"], error["seen"]) == ("sg", text)


@pytest.mark.parametrize("text", ["1_000", "nan", "inf", "-1", "\uff11", "1e309", "1e-400", ""])
def test_what_is_no_plain_number_is_bad_input_in_a_file(
    run: Callable[..., Run], tmp_path: object, text: str
) -> None:
    recipe = f"{tmp_path}/r.csv"
    with open(recipe, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name for the program
        file.write(f"material,parts\nquartz_ideal,{text}\n")

    error = run("reckon", "unity", recipe, "--json").error

    assert (error["field"], error["seen"]) == ("parts", text)


@pytest.mark.parametrize(
    ("content", "field", "say"),
    [
        (
            "calcite_ideall,1",
            "material",
            "r.csv, line 2: material: There is no material called 'calcite_ideall'.",
        ),
        (
            "quartz_ideal,1",
            "material",
            "There is no flux in this recipe, so it has no unity formula.",
        ),
        (
            "calcite_ideal,0",
            "parts",
            "All parts of this recipe are 0: there is nothing to calculate.",
        ),
    ],
    ids=["unknown material", "no flux", "all parts 0"],
)
def test_a_recipe_that_cannot_be_reckoned_is_refused(
    run: Callable[..., Run], tmp_path: object, content: str, field: str, say: str
) -> None:
    recipe = f"{tmp_path}/r.csv"
    with open(recipe, "w", encoding="utf-8") as file:  # noqa: PTH123 - a name for the program
        file.write(f"material,parts\n{content}\n")

    error = run("reckon", "unity", recipe, "--json").error

    assert error["field"] == field
    assert error["say"].startswith(say)


@pytest.mark.parametrize("arguments", [(), ("--help",), ("-h",), ("reckon", "--help")])
def test_help_is_no_failure(run: Callable[..., Run], arguments: tuple[str, ...]) -> None:
    done = run(*arguments)

    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Usage: wareboard")


def test_a_fault_of_the_program_is_said_without_a_traceback(
    run: Callable[..., Run], monkeypatch: pytest.MonkeyPatch
) -> None:
    from wareboard.cli.reckon import slop  # noqa: PLC0415 - the module, not its command

    monkeypatch.setattr(slop, "rounded", None)

    plain, as_json = run(*SLOP), run(*SLOP, "--json")

    assert (plain.code, plain.out, as_json.code) == (1, "", 1)
    assert plain.err == (
        "This is a fault of wareboard itself (TypeError in slop.py, line 19), not of what you "
        "typed: please report it.\n"
    )
    assert as_json.object["error"]["say"] + "\n" == plain.err


WORDS = st.sampled_from(
    [
        "reckon", "slop", "dose", "coat", "water", "unity", "cone", "--sg", "--solid", "--json",
        "--litres", "--of", "--wet-g", "--before-g", "--percent", "1.45", "2.6", "-1", "--", "-",
        "limestone.csv", "--want",
    ]
)  # fmt: skip


@settings(deadline=None)
@given(st.lists(WORDS | st.text(max_size=8), max_size=8))
def test_any_arguments_are_answered_or_refused(arguments: list[str]) -> None:
    out = io.StringIO()

    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(io.StringIO()):
        code = main(["reckon", *arguments, "--json"])

    helped = any(word in arguments for word in ("--help", "-h"))
    assert code in (0, 2)
    if not helped:
        json.loads(out.getvalue())
