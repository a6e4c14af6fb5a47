"""Damage to the cells of a table, each kind once, and the sentence that tells of it."""

import pytest
from record_folder_damage import NUMBER, TIME, replace, said
from record_folder_samples import PHOTO_PATH, SPECS

from wareboard.exchange.record_folder import (
    FolderRefused,
    Limits,
    Problem,
    read_record_folder,
)

# Table, text there, text instead, sentence.
CELLS = [
    ("pots", ",412.0,", ",1_000,", f'row 3, column weight_g: "1_000" is no number; {NUMBER}'),
    ("pots", ",412.0,", ",nan,", f'row 3, column weight_g: "nan" is no number; {NUMBER}'),
    ("pots", ",412.0,", ",-inf,", f'row 3, column weight_g: "-inf" is no number; {NUMBER}'),
    ("pots", ",412.0,", ",0x10,", f'row 3, column weight_g: "0x10" is no number; {NUMBER}'),
    ("pots", ",412.0,", ", 412,", f'row 3, column weight_g: " 412" is no number; {NUMBER}'),
    (
        "pots",
        ",412.0,",
        ",\N{FULLWIDTH DIGIT FOUR}\N{FULLWIDTH DIGIT ONE},",
        (
            'row 3, column weight_g: "\N{FULLWIDTH DIGIT FOUR}\N{FULLWIDTH DIGIT ONE}" is no '
            "number; "
            f"{NUMBER}"
        ),
    ),
    ("pots", ",412.0,", ',"4,5",', f'row 3, column weight_g: "4,5" is no number; {NUMBER}'),
    (
        "pots",
        ",412.0,",
        ",1e309,",
        f'row 3, column weight_g: "1e309" is too large a number; {NUMBER}',
    ),
    (
        "pots",
        ",412.0,",
        ",1e-400,",
        f'row 3, column weight_g: "1e-400" is too small a number; {NUMBER}',
    ),
    (
        "pots",
        ",412.0,",
        f",{'1' * 101},",
        f'row 3, column weight_g: "{"1" * 60}..." is no number; {NUMBER}',
    ),
    (
        "pots",
        ",412.0,",
        ",50001,",
        'row 3, column weight_g: "50001" is out of range; write a number from 0.0 to 50000.0 g.',
    ),
    (
        "pots",
        "-11-02",
        "-02-30",
        (
            'row 2, column thrown_on: "2026-02-30" is a day that no calendar has; '
            "write it as year-month-day, such as 2026-11-25."
        ),
    ),
    (
        "pots",
        "2026-11-02",
        "02/11/2026",
        (
            'row 2, column thrown_on: "02/11/2026" is no date; '
            "write it as year-month-day, such as 2026-11-25."
        ),
    ),
    (
        "pots",
        ",true,",
        ",yes,",
        'row 2, column sold: "yes" is neither true nor false; write true or false.',
    ),
    (
        "pots",
        ",bowl,",
        ",vase,",
        'row 2, column form: "vase" is not one of the choices; write one of bowl, mug.',
    ),
    ("pots", ",bowl,", ",,", "row 2, column form: is blank; fill it in: write one of bowl, mug."),
    (
        "pots",
        "cracked",
        "crack\0ed",
        (
            "row 3, column note: "
            '"\'=cmd, "foot"\\u000acrack\\u0000ed" holds the character U+0000, which no text may '
            "hold; use letters, digits, signs and blanks only."
        ),
    ),
    (
        "coats",
        "'Old' white",
        "white\N{RIGHT-TO-LEFT OVERRIDE}",
        (
            'row 3, column glaze: "white\\u202e" holds the character U+202E, which no text '
            "may hold; "
            "use letters, digits, signs and blanks only."
        ),
    ),
    (
        "coats",
        ",9,",
        ",9.0,",
        'row 2, column place: "9.0" is no whole number; write it with plain digits, such as 12.',
    ),
    (
        "coats",
        ",9,",
        f",{2**63},",
        (
            f'row 2, column place: "{2**63}" is too large a whole number; '
            "write it with plain digits, such as 12."
        ),
    ),
    (
        "coats",
        ",9,",
        ",0,",
        'row 2, column place: "0" is out of range; write a number of at least 1.',
    ),
    (
        "coats",
        "'Old' white",
        "w" * 100_001,
        f'row 3, column glaze: "{"w" * 60}..." has 100001 characters; at most 100000 are kept.',
    ),
    (
        "log_lines",
        "13:04:00+00:00",
        "13:04:00",
        f'row 3, column at: "2026-11-25T13:04:00" is no date and time; {TIME}',
    ),
    (
        "log_lines",
        "T13:04:00",
        "T25:04:00",
        f'row 3, column at: "2026-11-25T25:04:00+00:00" is a time that no clock shows; {TIME}',
    ),
]


@pytest.mark.parametrize(("table", "old", "new", "sentence"), CELLS)
def test_a_cell_that_cannot_be_read_is_named(studio, table, old, new, sentence):
    folder = studio.write()

    replace(folder / f"{table}.csv", old, new)

    assert said(folder) == [f"{table}.csv, {sentence}"]


def test_a_problem_has_its_parts_for_a_page_to_show(studio):
    folder = studio.write()
    replace(folder / "pots.csv", ",412.0,", ",heavy,")

    with pytest.raises(FolderRefused) as refusal:
        read_record_folder(folder, SPECS)

    say = f'pots.csv, row 3, column weight_g: "heavy" is no number; {NUMBER}'
    assert refusal.value.problems == (
        Problem("pots.csv", 3, "weight_g", "heavy", NUMBER.removesuffix("."), say),
    )
    assert (refusal.value.field, refusal.value.seen) == ("weight_g", "heavy")
    assert (refusal.value.say, str(refusal.value)) == (say, say)


def test_the_row_is_that_of_a_spreadsheet_and_the_line_is_told_where_it_differs(studio):
    folder = studio.write()
    with (folder / "pots.csv").open("a", encoding="utf-8", newline="") as file:
        file.write("p-3,bowl,,,maybe,,,\n")

    assert said(folder) == [
        (
            'pots.csv, row 4 (line 5 in a text editor), column sold: "maybe" is neither true nor '
            "false; write true or false."
        )
    ]


def test_all_problems_of_a_folder_are_told_together(studio):
    folder = studio.write()
    replace(folder / "pots.csv", ",412.0,", ",heavy,")
    replace(folder / "coats.csv", ",9,", ",ninth,")
    (folder / PHOTO_PATH).unlink()

    assert said(folder) == [
        f'pots.csv, row 3, column weight_g: "heavy" is no number; {NUMBER}',
        (
            'coats.csv, row 2, column place: "ninth" is no whole number; '
            "write it with plain digits, such as 12."
        ),
        (
            f'originals.csv, row 2, column path: "{PHOTO_PATH[:60]}..." is missing from the '
            "folder; "
            "put the file back, or take out the row and what refers to it."
        ),
    ]


def test_a_long_list_of_problems_ends_somewhere(studio):
    folder = studio.write()
    rows = "".join(f"p-1,{place},\n" for place in range(1, 200))
    (folder / "coats.csv").write_text("pot_id,place,glaze\n" + rows, encoding="utf-8")

    with pytest.raises(FolderRefused) as refusal:
        read_record_folder(folder, SPECS, Limits(problems=30))

    assert len(refusal.value.problems) == 30
    assert not refusal.value.all_told
    assert str(refusal.value).splitlines()[19:] == [
        "coats.csv, row 21, column glaze: is blank; fill it in: write a text.",
        "And at least 10 more.",
    ]
