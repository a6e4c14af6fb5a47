"""Damage to the rows of a table, each kind once, and the sentence that tells of it."""

import pytest
from record_folder_damage import SAVE_AS, TAKE_AWAY, replace, said
from record_folder_samples import PHOTO_PATH

# Table, text there, text instead, all sentences.
TABLES = [
    (
        "coats",
        "pot_id,place,glaze\n",
        "pot_id,place,glaze,colour\n",
        [
            (
                'coats.csv, row 1, column colour: "colour" is no column of this table; '
                "its columns are pot_id, place, glaze."
            )
        ],
    ),
    (
        "coats",
        "pot_id,place,glaze\n",
        "pot_id,place,\n",
        [
            (
                'coats.csv, row 1: "a blank heading" is no column of this table; '
                "its columns are pot_id, place, glaze."
            ),
            "coats.csv, row 1, column glaze: is missing; its columns are pot_id, place, glaze.",
        ],
    ),
    (
        "coats",
        "pot_id,place,glaze\n",
        "pot_id,place,glaze,glaze\n",
        ['coats.csv, row 1, column glaze: "glaze" heads two columns; keep one.'],
    ),
    (
        "coats",
        "pot_id,place,glaze\n",
        "pot_id;place;glaze\n",
        [f'coats.csv, row 1: "pot_id;place;glaze" has semicolons between its columns; {SAVE_AS}'],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        "p-1,9\n",
        ["coats.csv, row 2: has 2 cells; the first row has 3."],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        "p-1,9,blue, again\n",
        ["coats.csv, row 2: has 4 cells; the first row has 3."],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        ",,\n",
        ["coats.csv, row 2: is empty; take the row out of the table."],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        "\n",
        ["coats.csv, row 2: is empty; take the row out of the table."],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        'p-1,9,"blue\n',
        [
            (
                "coats.csv, row 2 (line 4 in a text editor): has quotation marks or line ends "
                "that do "
                "not fit (unexpected end of data); close every quotation mark, and double those "
                "inside a cell."
            )
        ],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        'p-1,9,"blue" again\n',
        [
            (
                "coats.csv, row 2: has quotation marks or line ends that do not fit "
                "(',' expected after '\"'); close every quotation mark, and double those inside "
                "a cell."
            )
        ],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        "p-1,10,blue\n",
        [
            (
                'coats.csv, row 3, column pot_id and place: "p-1, 10" stands in row 2 already; '
                "every row needs its own."
            )
        ],
    ),
    (
        "coats",
        "p-1,9,'-5 blue\n",
        "p-3,9,blue\n",
        [
            (
                'coats.csv, row 2, column pot_id: "p-3" is in no row of pots.csv; '
                "write the id of a row there."
            )
        ],
    ),
    (
        "pots",
        ",p-1,",
        ",p-9,",
        [
            (
                'pots.csv, row 3, column pair_id: "p-9" is in no row of pots.csv; '
                "write the id of a row there, or leave it blank."
            )
        ],
    ),
    (
        "pots",
        PHOTO_PATH,
        "",
        [
            (
                f'originals.csv, row 2, column path: "{PHOTO_PATH[:60]}..." belongs to no row of '
                "any "
                "table; refer to it, or take out the row and the file."
            )
        ],
    ),
    (
        "originals",
        PHOTO_PATH,
        "../outside.jpg",
        [
            (
                f'pots.csv, row 2, column picture: "{PHOTO_PATH[:60]}..." is in no row of '
                "originals.csv; write the path of a row there, or leave it blank."
            ),
            (
                'originals.csv, row 2, column path: "../outside.jpg" belongs to no row of any '
                "table; "
                "refer to it, or take out the row and the file."
            ),
            (
                'originals.csv, row 2, column path: "../outside.jpg" is no path of an original; '
                "write photos/ or sounds/, the SHA-256 of the file, a point and its ending."
            ),
            f"{PHOTO_PATH}: is in no row of originals.csv; {TAKE_AWAY}",
        ],
    ),
    (
        "originals",
        f"{PHOTO_PATH},18",
        f"{PHOTO_PATH},many",
        [
            (
                'originals.csv, row 2, column size_bytes: "many" is no whole number; '
                "write it with plain digits, such as 12."
            ),
        ],
    ),
]


@pytest.mark.parametrize(("table", "old", "new", "sentences"), TABLES)
def test_a_table_that_does_not_hold_together_is_named(studio, table, old, new, sentences):
    folder = studio.write()

    replace(folder / f"{table}.csv", old, new)

    assert said(folder) == sentences


def test_rows_that_refer_to_a_row_that_cannot_be_read_are_not_blamed(studio):
    folder = studio.write()

    replace(folder / "pots.csv", "p-1,bowl,2026-11-02,0.1,", "p-1,bowl,2026-11-02,")

    assert said(folder) == ["pots.csv, row 2: has 7 cells; the first row has 8."]
